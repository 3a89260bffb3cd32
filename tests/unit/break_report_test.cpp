// A report's file and the tables behind it: what is refused, and with which words.
#include <catch2/catch.hpp>

#include "sunstrain/job_keys.hpp"
#include "support/break_tables.hpp"

using namespace break_report;
using job_text::refusal;
using job_text::says;

namespace {

std::string refused(const std::string& text) {
  return refusal([&] { check_break_report(read_break_report(text, "crack.toml", tables()), tables()); });
}

// The tables with one text in the place of another.
std::string refused_tables(const std::string& old, const std::string& in_place) {
  std::string text = text_of("break.toml");
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  text.replace(at, old.size(), in_place);
  return refusal([&] { load_break_tables(text_of("break_keys.toml"), text); });
}

}  // namespace

TEST_CASE("Break report: reads every kind of observation with its unit", "[break]") {
  const Observations seen = read_break_report(
      "job = \"stair.toml\"\ndays_since_film = 9\n[crack]\npath = \"Wanders\"\n[origin]\nangle_to_edge = 90\n"
      "first_fork = '6 in'\ncracks = 2\nchip = true\n[day]\ndate = \"2025-03-11\"\nfound = \"2:30 pm\"\nlowest = \"14 "
      "F\"\n",
      "crack.toml", tables());
  check_break_report(seen, tables());
  CHECK(*number_of(seen, "origin.first_fork") == Approx(0.1524));
  CHECK(*number_of(seen, "origin.angle_to_edge") == Approx(1.5707963));
  CHECK(*number_of(seen, "day.found") == Approx(14.5));
  CHECK(*number_of(seen, "day.lowest") == Approx(263.15));
  CHECK(*word_of(seen, "origin.cracks") == "2");
  CHECK(*word_of(seen, "origin.chip") == "yes");
  CHECK(*word_of(seen, "crack.path") == "wanders");
  CHECK(*job_path_of(seen, "/crew/reports/crack.toml") == "/crew/reports/stair.toml");
  CHECK(*job_path_of(seen, "") == "stair.toml");
  CHECK_FALSE(job_path_of(Observations{}, "crack.toml"));
}

TEST_CASE("Break report: what cannot be is refused in one line", "[break]") {
  CHECK(says(refused(""), {"crack.toml", "is empty", "sunstrain break --template"}));
  CHECK(
      says(refused("[pane]\nwidth = \"1 m\"\n"), {"crack.toml, line 1", "[pane]", "belongs in the job file", "job ="}));
  CHECK(says(refused("job = \"a.toml\"\n[film]\nname = \"x\"\n"), {"line 2", "[film]", "belongs in the job file"}));
  CHECK(says(refused("[orign]\nplace = \"edge\"\n"), {"[orign]", "nearest is [origin]"}));
  CHECK(says(refused("[xyzzyqwert]\na = 1\n"), {"no such table", "sunstrain break --template"}));
  CHECK(says(refused("[origin]\nplcae = \"edge\"\n"), {"origin.plcae", "nearest is origin.place"}));
  CHECK(says(refused("[origin]\nplace = \"egde\"\n"), {"origin.place", "egde", "nearest is edge"}));
  CHECK(says(refused("[origin]\nfirst_fork = 150\n"), {"origin.first_fork", "unit", "37 1/4 in"}));
  CHECK(says(refused("[origin]\nfirst_fork = \"0 mm\"\n"), {"origin.first_fork", "1 mm to 5000 mm"}));
  CHECK(says(refused("[origin]\nangle_to_edge = 120\n"), {"origin.angle_to_edge", "0 deg to 90 deg"}));
  CHECK(says(refused("[origin]\ncracks = 9\n"), {"origin.cracks", "1, 2, 3, more"}));
  CHECK(says(refused("[other_panes]\nlooked_at = 2.5\n"), {"other_panes.looked_at", "whole numbers"}));
  CHECK(says(refused("[day]\nfound = \"25:00\"\n"), {"day.found", "0 h to 24 h"}));
  CHECK(says(refused("[day]\nfound = \"9:75\"\n"), {"day.found", "no hour of the day", "2 pm"}));
  CHECK(says(refused("[day]\ndate = \"2025-02-30\"\n"), {"day.date", "2025-02-21"}));
  CHECK(says(refused("[day]\nsky = \"9/8\"\n"), {"day.sky", "overcast"}));
  CHECK(says(refused("[day]\nlowest = \"5 C\"\nhighest = \"4 C\"\n"), {"day.highest = 4 C", "day.lowest (5 C)"}));
  CHECK(says(refused("[other_panes]\nlooked_at = 3\ncracked_with_film = 2\ncracked_without_film = 2\n"),
             {"other_panes.looked_at = 3", "more panes cracked", "(4)"}));
  CHECK(refused("[other_panes]\nlooked_at = 4\ncracked_with_film = 2\ncracked_without_film = 2\n").empty());
  CHECK(says(refused("job = [\"a\"]\n"), {"job", "not a list"}));
  CHECK(says(refused("[job]\nname = \"x\"\n"), {"[job]", "belongs in the job file"}));
  CHECK(says(refused("note = \"\"\"two\nlines\"\"\"\n"), {"note", "line break"}));
  CHECK(says(refused("job = \"\\u001b[2J.toml\"\n"), {"job", "control character"}));
}

TEST_CASE("Break report: a key without a meaning beside the others is refused", "[break]") {
  CHECK(says(refused("[origin]\nplace = \"away-from-edge\"\nangle_to_edge = 90\n"),
             {"origin.angle_to_edge", "has no meaning here", "origin.place = edge"}));
  CHECK(says(refused("[origin]\nplace = \"not-found\"\nfirst_fork = \"90 mm\"\n"), {"origin.first_fork"}));
  CHECK(says(refused("[origin]\nfirst_fork = \"90 mm\"\nno_fork_within = \"50 mm\"\n"), {"origin.no_fork_within"}));
  CHECK(says(refused("[crack]\npieces = \"long\"\npair = \"no\"\n"), {"crack.pair", "crack.pieces = dice"}));
  CHECK(refused("[origin]\nangle_to_edge = 90\nfirst_fork = \"90 mm\"\n[crack]\npair = \"no\"\n").empty());
}

TEST_CASE("Break report: no key of a report is one of a job, nor any table's name", "[break]") {
  const std::vector<JobKey>& job_keys = builtin_reference().job_keys;
  for (const JobKey& key : tables().form.job_keys) {
    INFO(key.name);
    CHECK(find_job_key(job_keys, key.name) == nullptr);
    const std::string table = key.name.substr(0, key.name.find('.') + 1);
    for (const JobKey& other : job_keys) CHECK((table.empty() || !other.name.starts_with(table)));
  }
}

TEST_CASE("Break report: the template reads back, with every line taken", "[break]") {
  const std::string text = break_template(tables());
  CHECK(read_break_report(text, "t.toml", tables()).values.empty());
  std::string taken;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    std::string line = text.substr(at, end - at);
    if (line.starts_with("#") && !line.starts_with("# ")) line.erase(0, 1);
    taken += line + "\n";
    at = end + 1;
  }
  const Observations all = read_break_report(taken, "t.toml", tables());
  CHECK(all.values.size() == tables().form.job_keys.size());
}

TEST_CASE("Break tables: what a row lacks or has too much is refused", "[break]") {
  CHECK(says(refused_tables("weight = \"decisive\"\n", ""), {"break.toml, clue 1 (dice)", "weight", "missing"}));
  CHECK(says(refused_tables("weight = \"decisive\"", "weight = \"heavy\""), {"weight", "decisive"}));
  CHECK(says(refused_tables("speaks = \"for\"\nweight = \"strong\"", "speaks = \"for\"\nweight = \"decisive\""),
             {"no clue alone decides for heat"}));
  CHECK(
      says(refused_tables("speaks = \"nothing\"", "speaks = \"nothing\"\nweight = \"weak\""), {"weight", "not known"}));
  CHECK(says(refused_tables("is = \"dice\"", "is = \"dise\""), {"dise", "nearest is dice"}));
  CHECK(says(refused_tables("crack.pieces\", is = \"dice", "crack.peices\", is = \"dice"), {"crack.pieces"}));
  CHECK(says(refused_tables("length = \"origin.first_fork\"", "length = \"day.lowest\""), {"length", "over 0"}));
  CHECK(says(refused_tables("[2.1, 2.2, 2.3]", "[2.3, 2.2, 2.1]"), {"constant_mpa_sqrt_m", "three numbers"}));
  CHECK(says(refused_tables("from_mpa = 7", "from_mpa = 20"), {"bands rise"}));
  CHECK(says(refused_tables("from_mpa = 0", "from_mpa = 1"), {"bands rise"}));
  CHECK(says(refused_tables("bands = [\"low\", \"middle\"]", "bands = [\"lo\", \"middle\"]"), {"bands", "low"}));
  CHECK(says(refused_tables("strong_for = 2", "strong_for = 0"), {"strong_for", "allowed"}));
  CHECK(says(refused_tables("[[keep]]", "[[kept]]"), {"kept"}));
}
