#include "sunstrain/job_keys.hpp"

#include <set>

#include "sunstrain/io/quantity.hpp"
#include "support/job_text.hpp"

using namespace job_text;

TEST_CASE("every line of the template can be taken up") {
  const std::string text = job_template(reference());
  const Job job = read_job_toml(text, "template", reference());
  CHECK_NOTHROW(check_job(job, reference()));
  CHECK(job.values.size() == 3);
  std::string all;
  std::size_t longest = 0;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin);
    std::string line = text.substr(begin, end - begin);
    longest = std::max(longest, line.size());
    if (line.size() > 1 && line[0] == '#' && line[1] >= 'a' && line[1] <= 'z') line.erase(0, 1);
    all += line + "\n";
    begin = end + 1;
  }
  CHECK(longest <= 79);
  const Job full = read_job_toml(all, "template", reference());
  std::set<std::string> named, expected;
  for (const auto& [key, value] : full.values) named.insert(key);
  for (JobKey key : reference().job_keys) {
    if (const std::size_t star = key.name.find('*'); star != std::string::npos) key.name.replace(star, 1, "1");
    expected.insert(key.name);
  }
  CHECK(named == expected);
}

// ---- the key table ------------------------------------------------------------------------------------

TEST_CASE("the key table is complete and agrees with the other tables") {
  const auto choices = [](const char* name) {
    for (const JobKey& key : reference().job_keys) {
      if (key.name == name) return key.choices;
    }
    return std::vector<std::string>{};
  };
  const auto names = [](const auto& rows) {
    std::set<std::string> out;
    for (const auto& row : rows) out.insert(row.name);
    return out;
  };
  const auto same = [&](const char* key, std::set<std::string> rows, bool none = false) {
    if (none) rows.insert("none");
    const std::vector<std::string> words = choices(key);
    CAPTURE(key);
    CHECK(std::set<std::string>(words.begin(), words.end()) == rows);
  };
  same("site.place", names(reference().places));
  same("frame.kind", names(reference().frames));
  same("frame.color", names(reference().frame_colors));
  same("unit.spacer", names(reference().spacers));
  same("cavity.*.gas", names(reference().gases));
  same("lite.*.tint", names(reference().tints));
  same("panel.tint", names(reference().tints));
  same("panel.treatment", names(reference().treatments));
  same("lite.*.coating", names(reference().coatings), true);
  same("lite.*.treatment", names(reference().treatments));
  same("lite.*.kind", names(reference().glass_kinds));
  same("edge.finish", names(reference().edge_finishes));
  same("inside.shade", names(reference().indoor_shades), true);
  same("site.ground", names(reference().grounds));
  same("film.reference_glass", names(reference().reference_glasses));
  for (const JobKey& key : reference().job_keys) {
    CAPTURE(key.name);
    CHECK_FALSE(key.sentence.empty());
    CHECK_FALSE(key.example.empty());
    CHECK(parse_value(key, key.example).has_value());
    for (const Taking& taking : key.taken) {
      CHECK_FALSE(taking.bad.empty());
      CHECK_FALSE(taking.why.empty());
    }
  }
}

namespace {

const Taking* taking_of(const std::string& key, const Facts& facts) {
  const JobKey* row = find_job_key(reference().job_keys, key);
  REQUIRE(row != nullptr);
  for (const Taking& taking : row->taken) {
    if (holds(for_key(taking.when, key), facts) == Truth::yes) return &taking;
  }
  return nullptr;
}

std::vector<std::string> bad_words(const std::string& key, const Facts& facts) {
  const Taking* taking = taking_of(key, facts);
  REQUIRE(taking != nullptr);
  std::vector<std::string> out;
  for (const Value& value : taking->bad) {
    out.push_back(format_value(*find_job_key(reference().job_keys, key), value, Units::metric));
  }
  return out;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("how unknowns are taken") {
  const Facts nothing, single{{"glass.panes", "1"}}, twice{{"glass.panes", "2"}}, triple{{"glass.panes", "3"}};
  CHECK(bad_words("glass.panes", nothing) == Words{"2", "1"});
  CHECK(bad_words("glass.panes", {{"lite.2.tint", "clear"}}) == Words{"2"});
  CHECK(bad_words("glass.panes", {{"film.surface", "4"}}) == Words{"2"});
  CHECK(bad_words("glass.panes", {{"film.surface", "2"}}) == Words{"1"});
  CHECK(bad_words("glass.panes", {{"film.surface", "6"}}) == Words{"3"});
  CHECK(bad_words("glass.panes", {{"unit.spacer", "metal"}}) == Words{"2"});
  CHECK(bad_words("film.surface", single) == Words{"2"});
  CHECK(bad_words("film.surface", twice) == Words{"4"});
  CHECK(bad_words("film.surface", triple) == Words{"6"});
  CHECK(bad_words("lite.1.coating", single) == Words{"none"});
  CHECK(bad_words("lite.2.coating", twice) == Words{"low-e-soft", "none"});
  CHECK(bad_words("lite.1.coating", {{"glass.panes", "2"}, {"lite.2.coating", "low-e-hard"}}) == Words{"none"});
  CHECK(bad_words("lite.1.coating_surface", twice) == Words{"2"});
  CHECK(bad_words("lite.2.coating_surface", twice) == Words{"3"});
  CHECK(bad_words("cavity.1.gas", twice) == Words{"air"});
  CHECK(bad_words("cavity.1.gas", {{"glass.panes", "2"}, {"lite.2.coating", "low-e-soft"}}) == Words{"argon"});
  CHECK(bad_words("pane.facing", nothing) == Words{"S", "SE", "W", "E", "SW"});
  CHECK(bad_words("pane.facing", {{"site.latitude", -0.6}}).front() == "N");
  CHECK(bad_words("site.ground", {{"site.place", "duluth"}}) == Words{"snow"});
  CHECK(bad_words("site.ground", {{"site.place", "miami"}}) == Words{"grass"});
  CHECK(bad_words("site.ground", {{"site.coldest", 250.0}}) == Words{"snow"});
  const auto thick = [](double width, double height) {
    return bad_words("lite.1.thickness", {{"pane.width", width}, {"pane.height", height}});
  };
  CHECK(thick(0.6, 0.8) == Words{"6 mm", "4 mm", "3 mm"});
  CHECK(thick(1.0, 1.3) == Words{"6 mm", "5 mm", "4 mm"});
  CHECK(thick(1.2, 1.2) == Words{"6 mm", "5 mm"});
  CHECK(thick(0.5, 2.4) == Words{"10 mm", "8 mm", "6 mm"});
}

TEST_CASE("wherever a key that is taken has a meaning, some row holds") {
  for (const char* panes : {"1", "2", "3"}) {
    for (const char* coating : {"none", "low-e-soft"}) {
      const Facts facts{{"glass.panes", panes},      {"pane.width", 1.0},
                        {"pane.height", 1.0},        {"lite.1.coating", coating},
                        {"lite.2.coating", coating}, {"lite.3.coating", coating},
                        {"shading.pattern", "L"},    {"inside.shade", "light-blind"},
                        {"site.latitude", 0.7},      {"shading.overhang_depth", 1.0}};
      for (const JobKey& row : reference().job_keys) {
        if (row.taken.empty()) continue;
        std::string key = row.name;
        if (const std::size_t star = key.find('*'); star != std::string::npos) key.replace(star, 1, "1");
        if (key_applies(row, key, facts) != Truth::yes) continue;
        CAPTURE(panes, coating, key);
        CHECK(taking_of(key, facts) != nullptr);
      }
    }
  }
}

TEST_CASE("keys find their row, and conditions the lite in hand") {
  const std::vector<JobKey>& keys = reference().job_keys;
  CHECK(find_job_key(keys, "lite.2.tint")->name == "lite.*.tint");
  CHECK(find_job_key(keys, "lite.2.coating_surface")->name == "lite.2.coating_surface");
  CHECK(find_job_key(keys, "lite.*.tint") == nullptr);
  CHECK(find_job_key(keys, "lite.tint") == nullptr);
  CHECK(find_job_key(keys, "") == nullptr);
  Condition tinted{Condition::Kind::is, "lite.*.tint", {"gray"}, 0.0, {}};
  const Facts facts{{"glass.panes", "2"}, {"lite.1.tint", "gray"}, {"lite.2.tint", "clear"}};
  CHECK(holds(tinted, facts) == Truth::yes);
  CHECK(holds(for_key(tinted, "lite.1.thickness"), facts) == Truth::yes);
  CHECK(holds(for_key(tinted, "lite.2.thickness"), facts) == Truth::no);
  CHECK(holds(for_key(tinted, "cavity.1.gas"), facts) == Truth::yes);  // of another table: any lite
  const Condition group{Condition::Kind::none, "", {}, 0.0, {tinted}};
  CHECK(holds(for_key(group, "lite.2.thickness"), facts) == Truth::yes);
  CHECK(instance_number("lite.12.tint") == 12);
  CHECK(instance_number("pane.width") == 0);
}
