#include "data_node.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job_words.hpp"
#include "say.hpp"

namespace sunstrain {

using Kind = DataNode::Kind;

const DataNode* DataNode::find(std::string_view key) const {
  const auto found = std::find(keys.begin(), keys.end(), key);
  return found == keys.end() ? nullptr : &items[static_cast<std::size_t>(found - keys.begin())];
}

std::string as_typed(const DataNode& node) {
  switch (node.kind) {
    case Kind::flag:
      return node.flag ? "true" : "false";
    case Kind::number:
      return fmt::format("{}", node.number);
    case Kind::text:
      return quoted(node.text);
    case Kind::list:
      return "a list";
    case Kind::table:
      return "a table";
  }
  return {};
}

DataRow::DataRow(const DataNode& table, std::string where) : table_(&table), where_(std::move(where)) {
  if (table.kind != Kind::table) throw BadInput(say("{}: a table of keys is needed, not {}", where_, as_typed(table)));
}

void DataRow::refuse(const std::string& key, const Saying& allowed) const {
  const DataNode* held = table_->find(key);
  throw BadInput(say("{}: {}{}: {}", where_, shown(key), held == nullptr ? "" : " = " + as_typed(*held), allowed));
}

void DataRow::refuse_word(const std::string& key, std::string_view word, const std::vector<std::string>& known) const {
  refuse(key, say("allowed: {}{}", joined(known), nearest_hint(word, known)));
}

const DataNode* DataRow::optional_node(const std::string& key) {
  read_.insert(key);
  return table_->find(key);
}

const DataNode& DataRow::node(const std::string& key) {
  const DataNode* found = optional_node(key);
  if (found == nullptr) refuse(key, "this key is missing");
  return *found;
}

std::string DataRow::text(const std::string& key) {
  const DataNode& held = node(key);
  if (held.kind != Kind::text || held.text.empty()) refuse(key, "a text between quotes is needed");
  return held.text;
}

std::string DataRow::text_or(const std::string& key, std::string fallback) {
  return optional_node(key) == nullptr ? fallback : text(key);
}

double DataRow::number(const std::string& key, double least, double most) {
  const DataNode& held = node(key);
  if (held.kind != Kind::number) refuse(key, "a number is needed");
  if (held.number < least || held.number > most) refuse(key, say("allowed: {} to {}", least, most));
  return held.number;
}

bool DataRow::flag(const std::string& key) {
  const DataNode& held = node(key);
  if (held.kind != Kind::flag) refuse(key, "true or false is needed");
  return held.flag;
}

bool DataRow::flag_or(const std::string& key, bool fallback) {
  return optional_node(key) == nullptr ? fallback : flag(key);
}

std::vector<double> DataRow::numbers(const std::string& key, double least, double most) {
  const DataNode& held = node(key);
  if (held.kind != Kind::list || held.items.empty()) refuse(key, "a list of numbers is needed");
  std::vector<double> out;
  for (const DataNode& item : held.items) {
    if (item.kind != Kind::number) refuse(key, "a list of numbers is needed");
    if (item.number < least || item.number > most) {
      refuse(key, say("{} is out of range; allowed: {} to {}", item.number, least, most));
    }
    out.push_back(item.number);
  }
  return out;
}

std::vector<std::string> DataRow::words(const std::string& key) {
  const DataNode& held = node(key);
  if (held.kind == Kind::text && !held.text.empty()) return {held.text};
  if (held.kind != Kind::list || held.items.empty()) refuse(key, "a word or a list of words is needed");
  std::vector<std::string> out;
  for (const DataNode& item : held.items) {
    if (item.kind != Kind::text || item.text.empty()) refuse(key, "a word or a list of words is needed");
    out.push_back(item.text);
  }
  return out;
}

DataRow DataRow::table(const std::string& key) { return {node(key), where_ + ", " + key}; }

Source DataRow::source() { return {text("source"), certainty_named(text("certainty"), where_)}; }

void DataRow::finish() const {
  const std::vector<std::string> known(read_.begin(), read_.end());
  for (const std::string& key : table_->keys) {
    if (!read_.contains(key))
      refuse(key, say("this key is not known; known here: {}{}", joined(known), nearest_hint(key, known)));
  }
}

std::vector<DataRow> rows_of(const DataNode& document, const std::string& file, const std::string& name) {
  const DataNode* list = document.find(name);
  if (list == nullptr || list->kind != Kind::list || list->items.empty()) {
    throw BadInput(say("{}: no rows [[{}]]", file, name));
  }
  std::vector<DataRow> rows;
  std::set<std::string> names;
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    const DataNode& item = list->items[i];
    const DataNode* called = item.find("name");
    if (called == nullptr) called = item.find("id");
    const bool named = called != nullptr && called->kind == Kind::text;
    rows.emplace_back(item,
                      fmt::format("{}, {} {}{}", file, name, i + 1, named ? " (" + shown(called->text) + ")" : ""));
    if (named && !names.insert(called->text).second)
      throw BadInput(say("{}: this name is used twice", rows.back().where()));
  }
  return rows;
}

void require_tables(const DataNode& document, const std::string& file, const std::vector<std::string>& names) {
  for (const std::string& key : document.keys) {
    if (std::find(names.begin(), names.end(), key) == names.end()) {
      throw BadInput(say("{}: {}: this table is not known; known here: {}", file, shown(key), joined(names)));
    }
  }
}

}  // namespace sunstrain
