// What people type for a sheet, out of a TOML file of theirs.
#include <fmt/format.h>

#include <algorithm>

#include "../io/data_node.hpp"
#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/users_toml.hpp"
#include "sunstrain/paper/papers.hpp"

namespace sunstrain {
namespace {

constexpr std::size_t longest_text = 20'000;  // bytes of one text: terms go on the sheet as they are

const std::vector<std::string> tables{"customer", "made_by", "film", "record", "guidance", "cover", "on_site"};

std::string text_in(DataRow& row, const char* key) {
  const std::string text(trimmed(row.text_or(key, "")));
  if (text.size() > longest_text) row.refuse(key, say("is longer than {} bytes", longest_text));
  return text;
}

// The table under a name, read to its end; nothing where there is none.
template <class Read>
void read_table(const DataNode& document, const std::string& source, const std::string& name, Read read) {
  const DataNode* node = document.find(name);
  if (node == nullptr) return;
  if (node->kind != DataNode::Kind::table) throw BadInput(say("{}: {}: is written [{}], once", source, name, name));
  DataRow row(*node, source + ", " + name);
  read(row);
  row.finish();
}

template <class Read>
void read_rows(const DataNode& document, const std::string& source, const std::string& name, Read read) {
  const DataNode* node = document.find(name);
  if (node == nullptr) return;
  if (node->kind != DataNode::Kind::list)
    throw BadInput(say("{}: {}: is written [[{}]], once for each", source, name, name));
  for (DataRow& row : rows_of(document, source, name)) {
    read(row);
    row.finish();
  }
}

void require_known_tables(const DataNode& document, const std::string& source) {
  for (const std::string& key : document.keys)
    if (std::find(tables.begin(), tables.end(), key) == tables.end())
      throw BadInput(say("{}: {}: this table is not known; known here: {}{}", source, shown(key), joined(tables),
                         nearest_hint(key, tables)));
}

std::vector<std::string> words_in(DataRow& row, const char* key) {
  return row.has(key) ? row.words(key) : std::vector<std::string>{};
}

Consulted consulted_of(DataRow& row) {
  return {text_in(row, "whose"), text_in(row, "reference"), text_in(row, "edition"), text_in(row, "date"),
          text_in(row, "answer")};
}

Cover cover_of(DataRow& row) {
  return {text_in(row, "of"), text_in(row, "reference"), text_in(row, "edition"), text_in(row, "date"),
          text_in(row, "terms")};
}

OnSite on_site_of(DataRow& row) {
  OnSite seen{text_in(row, "pane"), text_in(row, "edges"), text_in(row, "damage"), text_in(row, "notes"), {}};
  for (const std::string& path : words_in(row, "photos")) seen.photos.push_back({path, {}, {}, 0});
  return seen;
}

}  // namespace

Papers read_papers_toml(std::string_view text, const std::string& source) {
  const DataNode document =
      parse_users_toml(text, source, "name customer, film lot and so on in it, or leave --papers out");
  require_known_tables(document, source);
  Papers papers;
  read_table(document, source, "customer", [&](DataRow& row) {
    papers.customer = text_in(row, "name");
    papers.address = text_in(row, "address");
    papers.shown_to = words_in(row, "shown_to");
  });
  read_table(document, source, "made_by", [&](DataRow& row) {
    papers.made_by = text_in(row, "name");
    papers.company = text_in(row, "company");
    papers.contact = text_in(row, "contact");
  });
  read_table(document, source, "film", [&](DataRow& row) { papers.film_lot = text_in(row, "lot"); });
  read_table(document, source, "record", [&](DataRow& row) {
    papers.record_head = text_in(row, "head");
    papers.record_entries = text_in(row, "entries");
  });
  read_rows(document, source, "guidance", [&](DataRow& row) { papers.guidance.push_back(consulted_of(row)); });
  read_rows(document, source, "cover", [&](DataRow& row) { papers.covers.push_back(cover_of(row)); });
  read_rows(document, source, "on_site", [&](DataRow& row) { papers.on_site.push_back(on_site_of(row)); });
  return papers;
}

}  // namespace sunstrain
