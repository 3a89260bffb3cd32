// Rules of a user's own: read beside the built-in ones, refused in one line, shown as theirs.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/data_tables.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/reasons.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

namespace {

const std::string wood = "when = { fact = \"frame.kind\", is = \"wood\" }\n";

std::string rule(const std::string& id, const std::string& rest) {
  return "[[rule]]\nid = \"" + id + "\"\ntext = \"Ask the senior fitter.\"\n" + rest;
}

Reference with(const std::string& text) { return with_own_rules(builtin_reference(), "crew.toml", text); }

void refused(const std::string& text, const std::vector<std::string>& says) {
  std::string message;
  try {
    with(text);
  } catch (const BadInput& error) {
    message = error.what();
  }
  CAPTURE(text, message);
  CHECK(message.find("crew.toml") == 0);
  CHECK(message.find('\n') == std::string::npos);
  for (const std::string& part : says) {
    CAPTURE(part);
    CHECK(message.find(part) != std::string::npos);
  }
}

std::vector<std::string> own_fired(const std::string& text, std::initializer_list<const char*> changes) {
  std::vector<std::string> ids;
  for (const Rule& fired : assess(test::complete_double(changes), with(text)).rules)
    if (fired.users_own) ids.push_back(fired.id);
  return ids;
}

using Ids = std::vector<std::string>;

}  // namespace

TEST_CASE("own rules stand behind the built-in ones, which all stay", "[own rules]") {
  const std::vector<Rule>& built_in = builtin_reference().rules;
  const Reference reference =
      with(rule("Q1", "severity = \"ask\"\n" + wood) + rule("Q2", "severity = \"note\"\n" + wood));
  REQUIRE(reference.rules.size() == built_in.size() + 2);
  for (std::size_t i = 0; i < built_in.size(); ++i) {
    CHECK(reference.rules[i].id == built_in[i].id);
    CHECK_FALSE(reference.rules[i].users_own);
  }
  const Rule& own = reference.rules[built_in.size()];
  CHECK(own.users_own);
  CHECK(own.id == "Q1");
  CHECK(own.severity == Severity::ask);
  CHECK(own.mechanism.empty());
  CHECK(own.source.text == "your own rule, crew.toml");
  CHECK(own.source.certainty == Certainty::judgement);
  REQUIRE(reference.own_rules);
  CHECK(reference.own_rules->count == 2);
  CHECK(reference.own_rules->version.size() == 16);
  CHECK(reference.version == builtin_reference().version);
}

TEST_CASE("what an own rule may say of itself is kept", "[own rules]") {
  const Rule own = with(rule("Q1",
                             "severity = \"refer\"\nmechanism = \"hotter middle\"\ntraining = \"Told.\"\n"
                             "source = \"a talk\"\ncertainty = \"recalled\"\n" +
                                 wood))
                       .rules.back();
  CHECK(own.mechanism == "hotter middle");
  CHECK(own.training == "Told.");
  CHECK(own.source.text == "a talk");
  CHECK(own.source.certainty == Certainty::recalled);
}

TEST_CASE("a broken file of own rules is one line", "[own rules]") {
  const std::string ask = "severity = \"ask\"\n";
  refused("", {"is empty", "examples/crew-rules.toml"});
  refused("# nothing\n", {"no rows [[rule]]"});
  refused("[[rules]]\n", {"rules: this table is not known", "rule"});
  refused("[[rule]\n", {"line 1", "in: [[rule]"});
  refused("[[rule]]\nid = \"Q\xFF\"\n", {"line 2", "0xFF"});
  refused(rule("Q1", wood), {"rule 1 (Q1)", "severity", "missing"});
  refused(rule("Q1", "severity = \"aks\"\n" + wood), {"rule 1 (Q1)", "\"aks\"", "note, ask, refer", "nearest is ask"});
  refused(rule("Q1", ask), {"rule 1 (Q1)", "when", "missing"});
  refused("[[rule]]\n" + ask + wood, {"rule 1", "id", "missing"});
  refused(rule("Q1", ask + wood) + rule("Q1", ask + wood), {"rule 2 (Q1)", "twice"});
  refused(rule("Q1", ask + wood) + rule("q1", ask + wood), {"rule 2 (q1)", "another rule is called Q1"});
  refused(rule("w1", ask + wood), {"rule 1 (w1)", "a built-in rule is called W1"});
  refused(rule("Q 1", ask + wood), {"id = \"Q 1\"", "allowed"});
  refused(rule("Q123456789012345678901", ask + wood), {"id", "20"});
  refused(rule("Q1", ask + wood + "trainin = \"x\"\n"), {"trainin", "the nearest is training"});
  refused(rule("Q1", ask + wood + "mechanism = \"colder egde\"\n"), {"mechanism", "the nearest is colder edge"});
  refused(rule("Q1", ask + wood + "training = \"two\\nlines\"\n"), {"training", "line break"});
  refused(rule("Q1", ask + wood + "certainty = \"sure\"\n"), {"certainty", "sure", "judgement"});
  refused(rule("Q1", ask + "when = { fact = \"frame.knid\", is = \"wood\" }\n"),
          {"fact = \"frame.knid\"", "frame.kind"});
  refused(rule("Q1", ask + "when = { fact = \"frame.kind\", is = \"wod\" }\n"),
          {"is = \"wod\"", "the nearest is wood"});
  refused(rule("Q1", ask + "when = { fact = \"pane.facing\", is = \"S\" }\n"), {"is = \"S\"", "a number", "at_least"});
  refused(rule("Q1", ask + "when = { fact = \"film.surface\", isnot = \"2\" }\n"), {"test is missing"});
}

TEST_CASE("known asks whether the job gives a fact, not whether it was taken", "[own rules]") {
  const std::string text = rule("Q1", "severity = \"ask\"\nwhen = { fact = \"frame.kind\", known = false }\n") +
                           rule("Q2", "severity = \"ask\"\nwhen = { fact = \"lite.*.coating\", known = false }\n") +
                           rule("Q3", "severity = \"ask\"\nwhen = { fact = \"frame.kind\", is = \"vinyl\" }\n");
  CHECK(own_fired(text, {}) == Ids{"Q3"});
  CHECK(own_fired(text, {"frame.kind=unknown"}) == Ids{"Q1", "Q3"});  // vinyl is the most likely one
  CHECK(own_fired(text, {"lite.2.coating=unknown", "frame.kind=wood"}) == Ids{"Q2"});
}

TEST_CASE("own rules look at names and at figures of the answer", "[own rules]") {
  const std::string text =
      rule("Q1", "severity = \"ask\"\nwhen = { fact = \"film.name\", among = [\"Sample 5\", \"Sample 6\"] }\n") +
      rule("Q2", "severity = \"ask\"\nwhen = { fact = \"figure.stress_added_pa\", above = 0.0 }\n") +
      rule("Q3", "severity = \"ask\"\nwhen = { fact = \"figure.filmed_absorbed\", above = \"90 %\" }\n");
  CHECK(own_fired(text, {"film.name=Sample 6"}) == Ids{"Q1", "Q2"});
  CHECK(own_fired(text, {"film.name=Sample 7"}) == Ids{"Q2"});
}

TEST_CASE("an own rule among the reasons says whose it is", "[own rules]") {
  const std::string vinyl = "when = { fact = \"frame.kind\", is = \"vinyl\" }\n";
  const Reference reference = with(rule("Q1", "severity = \"refer\"\n" + vinyl));
  const Assessment a = assess(test::complete_double({}), reference);
  CHECK(a.verdict == Verdict::refer);
  CHECK(reasons_of(a, reference, Units::metric).front().text == "your rule Q1: Ask the senior fitter.");
}

TEST_CASE("own rules are a table with a source in every row", "[own rules]") {
  const std::string text =
      rule("Q1", "severity = \"ask\"\n" + wood) + rule("Q2", "severity = \"note\"\nsource = \"me\"\n" + wood);
  const DataTable table = own_rules_table(text, with(text));
  CHECK(table.name == "own-rules");
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0].name == "Q1");
  CHECK(table.rows[0].source.text == "your own rule, crew.toml");
  CHECK(table.rows[1].source.text == "me");
  bool when = false;
  for (const auto& [key, value] : table.rows[1].values)
    when = when || (key == "when" && value == "fact = frame.kind, is = wood");
  CHECK(when);
}

TEST_CASE("the crew's example file is read", "[own rules]") {
  const std::string path = SUNSTRAIN_SOURCE_DIR "/examples/crew-rules.toml";
  CHECK(with_own_rules(builtin_reference(), path, read_text_file(path)).own_rules->count == 4);
}
