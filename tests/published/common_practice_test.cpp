// Everyday panes whose answer common practice agrees on. Common practice, no source: nothing is tuned to them.
// The panes were written down before the program was run on them; where it answers otherwise, the row stands
// in common_practice_disagreements.toml with the reason, and that list must be exact.
// What the rows can show: the single and double panes are judged by the figures; most rows that want "refer", and
// the history rows, are met by a trade rule (reference/rules.toml) that rests on the same practice, so they show
// that the rule is there and fires, not that the practice is right.
#include <toml++/toml.h>

#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"

using namespace sunstrain;

namespace {

struct Pane {
  std::string id, title, expected, ground;
  bool figures_only = false;
  std::vector<std::string> keys;
};

struct Disagreement {
  std::string answer, why;
};

toml::table published_table(const std::string& name) {
  return toml::parse_file(std::string(SUNSTRAIN_SOURCE_DIR) + "/tests/published/" + name);
}

std::string text(const toml::table& row, const char* key) {
  const auto value = row[key].value<std::string>();
  if (!value) throw std::runtime_error(std::string("a row lacks ") + key);
  return *value;
}

std::vector<Pane> frozen_panes() {
  std::vector<Pane> panes;
  const toml::table table = published_table("common_practice_panes.toml");
  for (const toml::node& node : *table["pane"].as_array()) {
    const toml::table& row = *node.as_table();
    const std::string of = text(row, "of");
    if (of != "figures" && of != "verdict") throw std::runtime_error("unknown `of`: " + of);
    Pane pane{text(row, "id"), text(row, "title"), text(row, "expected"), text(row, "ground"), of == "figures", {}};
    for (const toml::node& key : *row["keys"].as_array()) pane.keys.push_back(key.value<std::string>().value());
    panes.push_back(pane);
  }
  return panes;
}

std::map<std::string, Disagreement> written_disagreements() {
  std::map<std::string, Disagreement> rows;
  const toml::table table = published_table("common_practice_disagreements.toml");
  const toml::array* list = table["disagreement"].as_array();
  if (list == nullptr) return rows;
  for (const toml::node& node : *list) {
    const toml::table& row = *node.as_table();
    rows[text(row, "id")] = {text(row, "answer"), text(row, "disagrees")};
  }
  return rows;
}

std::string word(Verdict verdict) {
  if (verdict == Verdict::go) return "go";
  return verdict == Verdict::caution ? "caution" : "refer";
}

bool agrees(const std::string& expected, const std::string& answer) {
  if (expected.starts_with("not ")) return answer != expected.substr(4);
  return answer == expected;
}

Assessment assess_pane(const Pane& pane) {
  const Reference& reference = builtin_reference();
  Job job;
  job.source = pane.id;
  for (const std::string& key : pane.keys) set_key(job, key, reference);
  check_job(job, reference);
  return assess(job, reference);
}

}  // namespace

TEST_CASE("everyday panes: the frozen list is sound", "[common practice][published]") {
  const std::vector<Pane> panes = frozen_panes();
  CHECK(panes.size() >= 24);
  CHECK(published_table("common_practice_panes.toml")["marked"].value_or("") ==
        std::string("common practice, no source"));
  std::set<std::string> ids;
  std::map<std::string, int> of_each;
  for (const Pane& pane : panes) {
    INFO(pane.id);
    CHECK(ids.insert(pane.id).second);
    CHECK(std::set<std::string>{"go", "caution", "refer", "not go", "not refer"}.contains(pane.expected));
    CHECK_FALSE(pane.ground.empty());
    ++of_each[pane.expected];
  }
  CHECK(of_each["go"] >= 8);
  CHECK(of_each["refer"] >= 5);
  CHECK(of_each["not go"] >= 5);
}

// One test case for all: it is the list as a whole, with its disagreements, that must come out as written.
TEST_CASE("everyday panes: answers as common practice gives them, but for the disagreements written down",
          "[common practice][published][slow]") {
  const auto written = written_disagreements();
  std::set<std::string> ids;
  for (const Pane& pane : frozen_panes()) {
    ids.insert(pane.id);
    const Assessment found = assess_pane(pane);
    const std::string answer = word(pane.figures_only ? found.figures : found.verdict);
    INFO(pane.id << ": " << pane.title);
    INFO("common practice, no source: " << pane.ground);
    INFO("bad-end ratio " << found.stress_ratio << ", middle ratio " << found.stress_ratio_middle);
    const auto row = written.find(pane.id);
    if (row == written.end()) {
      CHECK((agrees(pane.expected, answer) ? pane.expected : answer) == pane.expected);
    } else {
      CHECK_FALSE(agrees(pane.expected, answer));
      CHECK(answer == row->second.answer);
      CHECK(row->second.why.size() > 40);
    }
  }
  for (const auto& [id, row] : written) {
    INFO("disagreement about a pane that is not in the list: " << id);
    CHECK(ids.contains(id));
  }
}
