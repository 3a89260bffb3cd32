// A TOML document as a plain tree, so that one file only needs the parser's heavy header, and DataRow,
// which reads one table of it and refuses what it does not know.
#pragma once

#include <array>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

struct DataNode {
  enum class Kind { flag, number, text, list, table };
  Kind kind = Kind::table;
  int line = 0;
  bool flag = false;
  double number = 0.0;
  std::string text;
  std::vector<std::string> keys;  // of a table, beside items
  std::vector<DataNode> items;    // of a list or table

  const DataNode* find(std::string_view key) const;
};

// Throws BadInput with file and line where the text is no TOML, or holds dates or numbers that are not finite.
DataNode parse_toml_tree(const std::string& file, std::string_view text);

// What a node holds, as one would type it: for messages.
std::string as_typed(const DataNode& node);

// One table read key by key. finish() refuses keys that nobody asked for.
class DataRow {
 public:
  // where: "frames.toml, frame 3 (wood)"
  DataRow(const DataNode& table, std::string where);

  const std::string& where() const { return where_; }
  bool has(std::string_view key) const { return table_->find(key) != nullptr; }
  const DataNode& node(const std::string& key);           // required, of any kind
  const DataNode* optional_node(const std::string& key);  // null when absent
  std::string text(const std::string& key);               // required, not empty
  std::string text_or(const std::string& key, std::string fallback);
  double number(const std::string& key, double least, double most);
  bool flag(const std::string& key);
  bool flag_or(const std::string& key, bool fallback);
  std::vector<double> numbers(const std::string& key, double least, double most);
  std::vector<std::string> words(const std::string& key);  // a list of words, or one word
  DataRow table(const std::string& key);
  Source source();  // `source` and `certainty`
  void finish() const;

  // "frames.toml, frame 3 (wood): bite = 12: what is allowed"
  [[noreturn]] void refuse(const std::string& key, const Saying& allowed) const;
  // The same of a word that is none of `known`; names the nearest of them.
  [[noreturn]] void refuse_word(const std::string& key, std::string_view word,
                                const std::vector<std::string>& known) const;

 private:
  const DataNode* table_;
  std::string where_;
  std::set<std::string, std::less<>> read_;
};

// The rows of [[name]], labelled for messages with their number and their `name` or `id`.
// Throws BadInput when there is none.
std::vector<DataRow> rows_of(const DataNode& document, const std::string& file, const std::string& name);

// The same rows, each read to its end by `read`.
template <class Row>
std::vector<Row> rows_read(const DataNode& document, const std::string& file, const char* name, Row (*read)(DataRow&)) {
  std::vector<Row> out;
  for (DataRow& row : rows_of(document, file, name)) {
    out.push_back(read(row));
    row.finish();
  }
  return out;
}

// What the word under `key` means.
template <class T, std::size_t count>
T word_named(DataRow& row, const std::string& key, const std::array<std::pair<const char*, T>, count>& meanings) {
  const std::string word = row.text(key);
  std::vector<std::string> known;
  for (const auto& [name, meaning] : meanings) {
    if (word == name) return meaning;
    known.emplace_back(name);
  }
  row.refuse_word(key, word, known);
}

// Refuses top-level keys other than `names`.
void require_tables(const DataNode& document, const std::string& file, const std::vector<std::string>& names);

Certainty certainty_named(std::string_view word, const std::string& where);

}  // namespace sunstrain
