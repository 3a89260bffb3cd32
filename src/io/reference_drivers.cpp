// drivers.toml: what is tried on a pane to see what drives its answer.
#include <algorithm>
#include <array>
#include <utility>

#include "condition_load.hpp"
#include "reference_tables.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {

namespace {

constexpr std::array<std::pair<const char*, DriverRow::Act>, 3> acts{
    {{"can do", DriverRow::Act::can_do}, {"find out", DriverRow::Act::find_out}, {"given", DriverRow::Act::given}}};

// A step is a difference in the key's own unit; of two temperatures, in kelvins.
double step_of(DataRow& row, JobKey key) {
  if (!holds_number(key.kind)) row.refuse("step", "this key holds words: give `to`");
  if (key.kind == JobKey::Kind::temperature) key.kind = JobKey::Kind::difference;
  key.minimum = -1e12;
  key.maximum = 1e12;
  const double step = std::get<double>(load_value(row.node("step"), key, row.where() + ": step"));
  if (step == 0.0) row.refuse("step", "must not be 0");
  return step;
}

DriverRow driver_of(DataRow& row, const std::vector<JobKey>& keys) {
  DriverRow driver;
  driver.key = row.text("key");
  const auto key = std::find_if(keys.begin(), keys.end(), [&](const JobKey& one) { return one.name == driver.key; });
  if (key == keys.end()) row.refuse("key", "must be a key of job_keys.toml");
  driver.act = word_named(row, "act", acts);
  if (row.has("to") == row.has("step")) row.refuse("to", "one of `to` and `step` is needed");
  if (row.has("to"))
    driver.to = load_value(row.node("to"), *key, row.where() + ": to");
  else
    driver.step = step_of(row, *key);
  driver.words = row.text("words");
  driver.how = driver.act == DriverRow::Act::given ? std::string() : row.text("how");
  driver.source = row.source();
  row.finish();
  return driver;
}

}  // namespace

void load_drivers(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"driver"});
  for (DataRow& row : rows_of(document, file, "driver"))
    reference.drivers.push_back(driver_of(row, reference.job_keys));
}

}  // namespace sunstrain
