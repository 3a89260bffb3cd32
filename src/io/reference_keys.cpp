// job_keys.toml: what may be asked of a job, and how it is taken when nobody knows it.
#include <fmt/format.h>

#include <array>
#include <utility>

#include "condition_load.hpp"
#include "reference_tables.hpp"

namespace sunstrain {

namespace {

constexpr std::array<std::pair<const char*, JobKey::Kind>, 13> kinds{{
    {"text", JobKey::Kind::text},
    {"choice", JobKey::Kind::choice},
    {"length", JobKey::Kind::length},
    {"thickness", JobKey::Kind::thickness},
    {"temperature", JobKey::Kind::temperature},
    {"difference", JobKey::Kind::difference},
    {"fraction", JobKey::Kind::fraction},
    {"angle", JobKey::Kind::angle},
    {"u-value", JobKey::Kind::u_value},
    {"number", JobKey::Kind::number},
    {"years", JobKey::Kind::years},
    {"hour", JobKey::Kind::hour},
    {"date", JobKey::Kind::date},
}};

// The two ends of a key's range: load_value() with a range that lets everything through.
double range_end(DataRow& row, const char* name, const JobKey& key) {
  JobKey free = key;
  free.minimum = -1e12;
  free.maximum = 1e12;
  return std::get<double>(load_value(row.node(name), free, row.where() + ": " + name));
}

// Everything but `applies` and `taken`, which look at other keys.
JobKey key_of(DataRow& row) {
  JobKey key;
  key.name = row.text("name");
  key.kind = word_named(row, "kind", kinds);
  key.required = row.flag_or("required", false);
  key.whole = row.flag_or("whole", false);
  key.about_glass = row.flag_or("about_glass", true);
  key.personal = row.flag_or("personal", false);
  key.unit = row.text_or("unit", "");
  key.sentence = row.text("sentence");
  key.question = row.text_or("question", "");
  key.example = row.text_or("example", "");
  key.refused = row.text_or("refused", "");
  const bool takes_words = key.kind == JobKey::Kind::choice || (key.kind == JobKey::Kind::angle && row.has("choices"));
  if (takes_words) key.choices = row.words("choices");
  if (holds_number(key.kind)) {
    key.minimum = range_end(row, "minimum", key);
    key.maximum = range_end(row, "maximum", key);
    if (key.minimum >= key.maximum) row.refuse("minimum", "must be below maximum");
  }
  return key;
}

Taking taking_of(DataRow row, const JobKey& key, const std::vector<JobKey>& keys) {
  Taking taking;
  taking.when = optional_condition(row, "when", keys);
  const DataNode& bad = row.node("bad");
  if (bad.kind != DataNode::Kind::list || bad.items.empty()) row.refuse("bad", "a list of values is needed");
  for (const DataNode& item : bad.items) taking.bad.push_back(load_value(item, key, row.where() + ": bad"));
  taking.middle = load_value(row.node("middle"), key, row.where() + ": middle");
  taking.why = row.text("why");
  row.finish();
  return taking;
}

std::vector<Taking> takings_of(DataRow& row, const JobKey& key, const std::vector<JobKey>& keys) {
  std::vector<Taking> out;
  const DataNode* list = row.optional_node("taken");
  if (list == nullptr) return out;
  if (list->kind != DataNode::Kind::list) row.refuse("taken", "rows [[key.taken]] are needed");
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    out.push_back(taking_of({list->items[i], fmt::format("{}, taken {}", row.where(), i + 1)}, key, keys));
  }
  return out;
}

}  // namespace

std::vector<JobKey> load_keys(const std::string& file, std::string_view text) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"key"});
  std::vector<DataRow> rows = rows_of(document, file, "key");
  std::vector<JobKey> keys;
  for (DataRow& row : rows) keys.push_back(key_of(row));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    keys[i].applies = optional_condition(rows[i], "applies", keys);
    keys[i].taken = takings_of(rows[i], keys[i], keys);
    rows[i].finish();
  }
  return keys;
}

void load_job_keys(const std::string& file, std::string_view text, Reference& reference) {
  reference.job_keys = load_keys(file, text);
}

}  // namespace sunstrain
