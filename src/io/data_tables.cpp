#include "sunstrain/io/data_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "data_node.hpp"
#include "job_words.hpp"
#include "reference_csv.hpp"
#include "say.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace sunstrain {
namespace {

using Kind = DataNode::Kind;

constexpr std::array<std::pair<const char*, Certainty>, 5> certainties{{{"read", Certainty::read},
                                                                        {"recalled", Certainty::recalled},
                                                                        {"derived", Certainty::derived},
                                                                        {"common practice", Certainty::common_practice},
                                                                        {"judgement", Certainty::judgement}}};

// CSV files begin with their columns and cannot say what they are.
constexpr std::array<std::pair<const char*, const char*>, 2> about_csv{
    {{"glass_solar.csv", "Solar transmittance of bare panes at normal incidence, by tint and thickness."},
     {"places.csv", "Design weather of places: coldest and hottest air, optical depths of the sky, daily ranges."}}};

std::string dashed(std::string name) {
  std::replace(name.begin(), name.end(), '_', '-');
  return name;
}

// The first sentence of a file's opening comment.
std::string opening_sentence(std::string_view text) {
  std::string opening;
  while (text.starts_with("#")) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(1, end - 1);
    if (!opening.empty() && line.find_first_not_of(' ') == std::string_view::npos) break;
    opening += line;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  opening.erase(0, opening.find_first_not_of(' '));
  for (std::size_t at = opening.find('.'); at != std::string::npos; at = opening.find('.', at + 1))
    if (at + 1 == opening.size() || opening[at + 1] == ' ') return opening.substr(0, at + 1);
  return opening;
}

// What a value is, in one line; a table and a list show what they hold.
std::string in_a_line(const DataNode& node) {
  if (node.kind == Kind::text) return node.text;
  if (node.kind != Kind::list && node.kind != Kind::table) return as_typed(node);
  std::string text;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    text += i == 0 ? "" : ", ";
    if (node.kind == Kind::table) text += node.keys[i] + " = ";
    const bool nested = node.items[i].kind == Kind::table;
    text += nested ? "(" + in_a_line(node.items[i]) + ")" : in_a_line(node.items[i]);
  }
  return text;
}

// Nested tables become keys of their own: sealed.inner_area_m.
void put_values(const DataNode& table, const std::string& before, DataTableRow& row) {
  for (std::size_t i = 0; i < table.keys.size(); ++i) {
    const std::string& key = table.keys[i];
    const DataNode& value = table.items[i];
    if (before.empty() && (key == "name" || key == "id" || key == "source" || key == "certainty" || key == "note"))
      continue;
    const bool condition = key == "when";
    if (value.kind == Kind::table && !condition)
      put_values(value, before + key + ".", row);
    else
      row.values.emplace_back(before + key, in_a_line(value));
  }
}

std::string text_or_nothing(const DataNode& table, const char* key) {
  const DataNode* found = table.find(key);
  return found == nullptr ? std::string() : in_a_line(*found);
}

DataTableRow row_of(const DataNode& table, std::string name, const std::string& where) {
  DataTableRow row{std::move(name), {}, text_or_nothing(table, "note"), {}};
  put_values(table, "", row);
  row.source = {text_or_nothing(table, "source"), certainty_named(text_or_nothing(table, "certainty"), where)};
  return row;
}

// A row without a name of its own has its first value's.
std::string name_of(const DataNode& table) {
  for (const char* key : {"name", "id"})
    if (const std::string name = text_or_nothing(table, key); !name.empty()) return name;
  return table.keys.empty() ? std::string() : table.keys.front() + " " + in_a_line(table.items.front());
}

// Lists of tables are tables of their own; single tables, as in constants.toml, are the rows of one.
std::vector<DataTable> tables_of_toml(const std::string& file, std::string_view text) {
  const DataNode document = parse_toml_tree(file, text);
  const std::string about = opening_sentence(text);
  std::vector<DataTable> tables;
  DataTable single{dashed(file.substr(0, file.find('.'))), file, about, {}};
  for (std::size_t i = 0; i < document.keys.size(); ++i) {
    const std::string& key = document.keys[i];
    const DataNode& node = document.items[i];
    if (node.kind == Kind::table) single.rows.push_back(row_of(node, key, file + ", " + key));
    if (node.kind != Kind::list) continue;
    DataTable& table = tables.emplace_back(DataTable{dashed(key), file, about, {}});
    for (const DataNode& item : node.items)
      table.rows.push_back(row_of(item, name_of(item), file + ", " + key + " " + name_of(item)));
  }
  if (!single.rows.empty()) tables.push_back(std::move(single));
  return tables;
}

DataTable table_of_unknowns(const std::string& file, std::string_view text) {
  const DataNode document = parse_toml_tree(file, text);
  DataTable table{"unknowns", file, "How a key is taken that nobody knows: at the bad end, and most likely.", {}};
  const DataNode* keys = document.find("key");
  if (keys == nullptr) return table;
  for (const DataNode& key : keys->items) {
    const DataNode* taken = key.find("taken");
    if (taken == nullptr) continue;
    for (const DataNode& item : taken->items) {
      DataTableRow row{text_or_nothing(key, "name"), {}, "", {text_or_nothing(item, "why"), Certainty::judgement}};
      put_values(item, "", row);
      std::erase_if(row.values, [](const auto& value) { return value.first == "why"; });
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

DataTable table_of_csv(const std::string& file, std::string_view text) {
  DataTable table{dashed(file.substr(0, file.find('.'))), file, "", {}};
  for (const auto& [name, about] : about_csv)
    if (file == name) table.about = about;
  for (const CsvRow& row : parse_reference_csv(file, text, csv_columns(file, text))) {
    DataTableRow& shown = table.rows.emplace_back(DataTableRow{row.fields().front(), {}, "", {}});
    for (std::size_t i = 1; i < row.fields().size(); ++i) {
      const std::string& column = row.columns()[i];
      if (column != "source" && column != "certainty") shown.values.emplace_back(column, row.fields()[i]);
    }
    shown.source = {row.text("source"), certainty_named(row.text("certainty"), row.where())};
  }
  return table;
}

// Sentences in other languages, windows to practice at, what a report may say and the colors of pictures: no answer
// rests on them.
bool bears_on_answers(const std::string& file) {
  return is_data(file) && file != "practice.toml" && file != "break_keys.toml" && file != "warmth_scale.csv";
}

}  // namespace

std::vector<DataTable> data_tables(const std::map<std::string, std::string>& files) {
  std::vector<DataTable> tables;
  for (const auto& [file, text] : files) {
    if (!bears_on_answers(file)) continue;
    if (file.ends_with(".csv")) {
      tables.push_back(table_of_csv(file, text));
    } else if (file == "job_keys.toml") {
      tables.push_back(table_of_unknowns(file, text));
    } else if (file.ends_with(".toml")) {
      for (DataTable& table : tables_of_toml(file, text)) tables.push_back(std::move(table));
    }
  }
  return tables;
}

DataTable own_rules_table(std::string_view text, const Reference& reference) {
  const std::string& file = reference.own_rules.value().file;
  DataTable table{"own-rules", file, "Your own rules, beside the built-in ones (table rule).", {}};
  const DataNode document = parse_toml_tree(file, text);
  const std::vector<DataNode>& items = document.find("rule")->items;
  auto rule = std::find_if(reference.rules.begin(), reference.rules.end(), [](const Rule& r) { return r.users_own; });
  for (const DataNode& item : items) {
    DataTableRow& row = table.rows.emplace_back(DataTableRow{rule->id, {}, "", rule->source});
    put_values(item, "", row);
    ++rule;
  }
  return table;
}

std::string certainty_word(Certainty certainty) {
  for (const auto& [word, meaning] : certainties)
    if (meaning == certainty) return word;
  return {};
}

Certainty certainty_named(std::string_view word, const std::string& where) {
  for (const auto& [known, meaning] : certainties)
    if (word == known) return meaning;
  throw BadInput(
      say("{}: certainty = {}: allowed: read, recalled, derived, common practice, judgement", where, quoted(word)));
}

}  // namespace sunstrain
