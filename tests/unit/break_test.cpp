// What is read off a report on a cracked pane: clue by clue, the result, the band of stress, what is left open.
#include <catch2/catch.hpp>
#include <map>

#include "support/break_tables.hpp"

using namespace break_report;
using Names = std::vector<std::string>;

namespace {

struct Alone {
  const char *setting, *clue;
  Clue::Speaks speaks;
  Clue::Weight weight;
};

const std::vector<std::string> square{"origin.place=edge", "origin.angle_to_edge=90 deg",
                                      "origin.angle_to_face=88 deg"};

std::vector<std::string> with(std::vector<std::string> settings, const std::vector<std::string>& more) {
  settings.insert(settings.end(), more.begin(), more.end());
  return settings;
}

bool not_known(const BreakReading& reading, const std::string& key) {
  return std::find(reading.not_known.begin(), reading.not_known.end(), key) != reading.not_known.end();
}

}  // namespace

TEST_CASE("Break: each clue alone speaks as the table has it", "[break]") {
  using S = Clue::Speaks;
  using W = Clue::Weight;
  const std::vector<Alone> all{
      {"crack.pieces=dice", "dice", S::against_heat, W::decisive},
      {"crack.pair=yes", "pair", S::against_heat, W::decisive},
      {"crack.pieces=held", "held", S::of_nothing, W::weak},
      {"crack.path=wanders", "wandering path", S::for_heat, W::strong},
      {"crack.path=hourglass", "hourglass path", S::against_heat, W::strong},
      {"crack.path=star-or-rings", "star or rings", S::against_heat, W::decisive},
      {"origin.place=edge", "origin at the edge", S::for_heat, W::weak},
      {"origin.place=away-from-edge", "origin away from the edge", S::against_heat, W::decisive},
      {"origin.angle_to_edge=80 deg", "square to the edge", S::for_heat, W::strong},
      {"origin.angle_to_edge=59 deg", "slanted to the edge", S::against_heat, W::strong},
      {"origin.angle_to_face=80 deg", "square to the face", S::for_heat, W::strong},
      {"origin.angle_to_face=59 deg", "slanted through the glass", S::against_heat, W::strong},
      {"origin.mirror=large", "large mirror", S::for_heat, W::weak},
      {"origin.mirror=small", "small mirror", S::against_heat, W::weak},
      {"origin.impact=yes", "mark of a blow", S::against_heat, W::decisive},
      {"origin.chip=yes", "chip", S::of_weak_edge, W::weak},
      {"origin.old_face=yes", "old face", S::of_weak_edge, W::weak},
      {"origin.metal_touch=yes", "metal touch", S::of_weak_edge, W::weak},
      {"origin.rust=yes", "rust", S::of_weak_edge, W::weak},
      {"origin.hardware=yes", "hardware", S::of_weak_edge, W::weak},
      {"other_panes.cracked_without_film=1", "unfilmed panes cracked", S::of_nothing, W::weak},
      {"day.blinds=part-way", "blind part-way", S::of_nothing, W::weak},
      {"day.blinds=closed", "blind closed", S::of_nothing, W::weak},
  };
  std::vector<std::string> tried;
  for (const Alone& one : all) {
    INFO(one.setting);
    const BreakReading reading = read({one.setting});
    REQUIRE(names_of(reading.clues) == Names{one.clue});
    CHECK(reading.clues.front().speaks == one.speaks);
    CHECK(reading.clues.front().weight == one.weight);
    const bool decides = one.weight == W::decisive;
    CHECK(reading.result == (decides ? BreakResult::not_consistent : BreakResult::cannot_tell));
    CHECK_FALSE(reading.clues.front().source.text.empty());
    tried.push_back(one.clue);
  }
  const BreakReading filmed =
      read({"other_panes.cracked_with_film=2", "other_panes.cracked_without_film=0", "other_panes.looked_at=30"});
  CHECK(names_of(filmed.clues) == Names{"other filmed panes cracked"});
  tried.push_back("other filmed panes cracked");
  for (const Clue& clue : tables().clues) {
    INFO(clue.name);
    CHECK(std::find(tried.begin(), tried.end(), clue.name) != tried.end());
  }
}

TEST_CASE("Break: angles between square and slanted say nothing", "[break]") {
  for (const char* key : {"origin.angle_to_edge", "origin.angle_to_face"}) {
    for (const char* angle : {"60 deg", "79 deg"}) {
      const BreakReading reading = read({std::string(key) + "=" + angle});
      CHECK(reading.clues.empty());
      CHECK(reading.silent == Names{key});
    }
  }
}

TEST_CASE("Break: the published sign, square to edge and face, is consistent; one of the two is not enough",
          "[break]") {
  CHECK(read(square).result == BreakResult::consistent);
  CHECK(read({"origin.angle_to_edge=90 deg"}).result == BreakResult::cannot_tell);
  CHECK(read({"origin.place=edge", "origin.mirror=large", "origin.angle_to_face=90 deg"}).result ==
        BreakResult::cannot_tell);
  CHECK(read({"crack.path=wanders", "origin.angle_to_edge=90 deg"}).result == BreakResult::consistent);
}

TEST_CASE("Break: clues that disagree cannot tell, however many there are", "[break]") {
  for (const char* against : {"origin.mirror=small", "crack.path=hourglass", "crack.path=star-or-rings",
                              "origin.impact=yes", "crack.pieces=dice"}) {
    INFO(against);
    CHECK(read(with(square, {against})).result == BreakResult::cannot_tell);
  }
  CHECK(read({"origin.angle_to_edge=90 deg", "origin.angle_to_face=20 deg"}).result == BreakResult::cannot_tell);
  // A weak clue for heat takes nothing from a decisive one.
  CHECK(read({"origin.place=edge", "origin.impact=yes"}).result == BreakResult::not_consistent);
  // Two strong ones against do what a decisive one does, one alone does not.
  CHECK(read({"origin.angle_to_edge=30 deg"}).result == BreakResult::cannot_tell);
  CHECK(read({"origin.angle_to_edge=30 deg", "origin.angle_to_face=30 deg"}).result == BreakResult::not_consistent);
}

TEST_CASE("Break: a weak edge and what the other panes did leave the result alone", "[break]") {
  const std::vector<std::string> edge{"origin.chip=yes", "origin.old_face=yes", "origin.metal_touch=yes",
                                      "origin.rust=yes", "origin.hardware=yes"};
  CHECK(read(with(square, edge)).result == BreakResult::consistent);
  CHECK(read(with({"origin.impact=yes"}, edge)).result == BreakResult::not_consistent);
  CHECK(read(with(square, {"other_panes.looked_at=40", "other_panes.cracked_without_film=3"})).result ==
        BreakResult::consistent);
}

TEST_CASE("Break: of nothing known nothing can be told, and everything that applies is named", "[break]") {
  const BreakReading reading = read({});
  CHECK(reading.result == BreakResult::cannot_tell);
  CHECK(reading.clues.empty());
  CHECK(reading.stress.signs.empty());
  CHECK(reading.stress.bands.empty());
  CHECK_FALSE(reading.stress.disagree());
  for (const JobKey& key : tables().form.job_keys) {
    INFO(key.name);
    CHECK(not_known(reading, key.name) == key.about_glass);
    CHECK((!key.about_glass || !key.question.empty()));
  }
  const Observations unknown = read_break_report(
      "[crack]\npath = \"unknown\"\n[origin]\nplace = \"unknown\"\nchip = \"unknown\"\n", "crack.toml", tables());
  CHECK(unknown.values.empty());
}

TEST_CASE("Break: what was seen and speaks for nothing is named, where a clue could have spoken", "[break]") {
  const BreakReading reading = read({"days_since_film=3", "crack.pieces=long", "crack.lite=outer", "origin.chip=no",
                                     "origin.impact=yes", "origin.first_fork=50 mm", "day.date=2025-01-20"});
  CHECK(reading.silent == Names{"crack.pieces", "origin.chip"});
}

TEST_CASE("Break: keys without a meaning beside the others are not asked after", "[break]") {
  CHECK_FALSE(not_known(read({"origin.place=not-found"}), "origin.angle_to_edge"));
  CHECK_FALSE(not_known(read({"origin.place=away-from-edge"}), "origin.angle_to_face"));
  CHECK(not_known(read({"origin.place=away-from-edge"}), "origin.first_fork"));
  CHECK_FALSE(not_known(read({"origin.first_fork=100 mm"}), "origin.no_fork_within"));
  CHECK_FALSE(not_known(read({"origin.first_fork=40 to 100 mm"}), "origin.no_fork_within"));
  CHECK_FALSE(not_known(read({"crack.pieces=long"}), "crack.pair"));
}

TEST_CASE("Break: what is known in part speaks where every reading of it does", "[break]") {
  CHECK(names_of(read({"origin.angle_to_edge=82 to 90 deg"}).clues) == Names{"square to the edge"});
  const BreakReading open = read({"origin.angle_to_edge=70 to 90 deg"});
  CHECK(open.clues.empty());
  CHECK(not_known(open, "origin.angle_to_edge"));
  CHECK(read({"crack.path=wanders or star-or-rings"}).clues.empty());
  const Clue& wanders = row_named(tables().clues, "wandering path");
  CHECK(holds_of(wanders.when, seen({"crack.path=wanders or straight"})) == Truth::cannot_tell);
  CHECK(holds_of(wanders.when, seen({"crack.path=hourglass or straight"})) == Truth::no);
  CHECK(holds_of(wanders.when, seen({})) == Truth::cannot_tell);
  CHECK(bands_of(read({"origin.cracks=2 or 3"}).stress) == Names{"middle", "high"});
  CHECK(bands_of(read({"origin.cracks=1 or 2"}).stress).empty());
}

// constant / sqrt(length) worked by hand: 2.2 / sqrt(0.04) = 11; 0.6 x 2.1 / 0.2 = 6.3; 1.4 x 2.3 / 0.2 = 16.1.
TEST_CASE("Break: the first fork gives a stress and its band", "[break]") {
  const StressRange range = stress_from_length(sign_named("first fork"), 0.04);
  CHECK(range.likely_pa == Approx(11.0e6));
  CHECK(range.least_pa == Approx(6.3e6));
  CHECK(range.most_pa == Approx(16.1e6));
  CHECK(bands_of(read({"origin.first_fork=10 mm"}).stress) == Names{"high"});
  CHECK(bands_of(read({"origin.first_fork=40 mm"}).stress) == Names{"middle"});
  CHECK(bands_of(read({"origin.first_fork=150 mm"}).stress) == Names{"low"});
  CHECK(read({"origin.first_fork=150 mm"}).stress.signs.front().far);
  CHECK_FALSE(read({"origin.first_fork=50 mm"}).stress.signs.front().far);
  const BreakStress spread = read({"origin.first_fork=15 to 150 mm"}).stress;
  CHECK(bands_of(spread) == Names{"low", "middle", "high"});
  CHECK(spread.signs.front().range->likely_pa == Approx(2.2e6 / std::sqrt(0.0825)));
  CHECK(spread.signs.front().range->least_pa == Approx(0.6 * 2.1e6 / std::sqrt(0.15)));
  CHECK(spread.signs.front().range->most_pa == Approx(1.4 * 2.3e6 / std::sqrt(0.015)));
  CHECK_THROWS_AS(stress_from_length(sign_named("first fork"), 0.0), std::invalid_argument);
}

TEST_CASE("Break: no fork is a bound, and beyond 50 mm it is no lower one", "[break]") {
  const StressSign& sign = sign_named("no fork");
  CHECK(stress_from_length(sign, 0.04).most_pa == Approx(16.1e6));
  CHECK(stress_from_length(sign, 0.05).most_pa == stress_from_length(sign, 3.0).most_pa);
  CHECK(stress_from_length(sign, 0.05).least_pa == 0.0);
  CHECK(bands_of(read({"origin.no_fork_within=20 mm"}).stress) == Names{"low", "middle", "high"});
  CHECK(bands_of(read({"origin.no_fork_within=1 m"}).stress) == bands_of(read({"origin.no_fork_within=51 mm"}).stress));
}

TEST_CASE("Break: signs of stress narrow each other, and disagree where nothing is left", "[break]") {
  CHECK(bands_of(read({"origin.cracks=1"}).stress) == Names{"low", "middle"});
  CHECK(bands_of(read({"origin.cracks=more"}).stress) == Names{"middle", "high"});
  CHECK(bands_of(read({"origin.cracks=1", "origin.first_fork=150 mm"}).stress) == Names{"low"});
  const BreakStress disagree = read({"origin.cracks=3", "origin.first_fork=150 mm"}).stress;
  CHECK(disagree.bands.empty());
  CHECK(disagree.disagree());
}

TEST_CASE("Break: what alone would tell is named with what it would tell", "[break]") {
  const BreakReading reading = read({"origin.place=edge", "origin.angle_to_edge=90 deg"});
  REQUIRE(reading.result == BreakResult::cannot_tell);
  std::map<std::string, BreakResult> would;
  for (const Settling& one : reading.would_settle) would[one.key] = one.result;
  CHECK(would.at("origin.angle_to_face") == BreakResult::consistent);
  CHECK(would.at("crack.path") == BreakResult::consistent);
  CHECK_FALSE(would.contains("origin.chip"));
  CHECK_FALSE(would.contains("origin.mirror"));
  // Said so, it does: with that value the result is the one that was told.
  for (const Settling& one : reading.would_settle) {
    Observations with_it = seen({"origin.place=edge", "origin.angle_to_edge=90 deg"});
    settle(with_it, one.key, one.value);
    CHECK(read_break(with_it, tables()).result == one.result);
  }
  CHECK(std::find(reading.look_first.begin(), reading.look_first.end(), "origin.first_fork") !=
        reading.look_first.end());
  CHECK(std::find(reading.look_first.begin(), reading.look_first.end(), "origin.rust") == reading.look_first.end());
}

TEST_CASE("Break: the engine's stress stands under, in or over the break's bands", "[break]") {
  const auto& bands = tables().bands;
  const std::vector<std::size_t> middle{1}, low_or_middle{0, 1};
  CHECK(meeting_of(5e6, 8e6, middle, bands) == Meeting::meets);
  CHECK(meeting_of(8e6, 5e6, middle, bands) == Meeting::meets);
  CHECK(meeting_of(3e6, 6.9e6, middle, bands) == Meeting::engine_lower);
  CHECK(meeting_of(14e6, 20e6, middle, bands) == Meeting::engine_higher);
  CHECK(meeting_of(-2e6, 1e6, low_or_middle, bands) == Meeting::meets);
  CHECK(band_of(-1.0, bands) == 0);
  CHECK(band_of(7e6, bands) == 1);
  CHECK(band_of(13.99e6, bands) == 1);
  CHECK(band_of(1e9, bands) == 2);
}

TEST_CASE("Break: a lite that cracked is every ply of it, and no panel", "[break]") {
  const std::vector<Sheet> sheets{{0, 0, 1, true}, {0, 0, 2, false}, {0, 1, 2, false}, {1, 0, 1, false}};
  using Places = std::vector<std::size_t>;
  CHECK(sheets_meant("outer", sheets) == Places{1, 2});
  CHECK(sheets_meant("inner", sheets) == Places{3});
  CHECK(sheets_meant("several", sheets) == Places{1, 2, 3});
  CHECK(sheets_meant(std::nullopt, sheets) == Places{1, 2, 3});
  CHECK_THROWS_AS(sheets_meant("middle", sheets), BadInput);
  CHECK(sheets_meant("middle", {{0, 0, 1}, {1, 0, 1}, {2, 0, 1}}) == Places{1});
  CHECK(sheets_meant("outer", {{0, 0, 1}}) == sheets_meant("inner", {{0, 0, 1}}));
}

TEST_CASE("Break: the day goes to the engine only where all of it is known", "[break]") {
  const std::vector<std::string> day{"day.date=2025-03-11", "day.lowest=14 F", "day.highest=5 C", "day.sky=2/8"};
  const auto whole = day_of(seen(day));
  REQUIRE(whole);
  CHECK(whole->month == 3);
  CHECK(whole->day == 11);
  CHECK(whole->lowest_k == Approx(263.15));
  CHECK(whole->highest_k == Approx(278.15));
  CHECK(whole->cloud == 0.25);
  for (std::size_t left = 0; left < day.size(); ++left) {
    std::vector<std::string> part = day;
    part.erase(part.begin() + static_cast<std::ptrdiff_t>(left));
    CHECK_FALSE(day_of(seen(part)));
  }
  CHECK_FALSE(day_of(seen(with({day[0], day[1], day[2]}, {"day.sky=clear or 2/8"}))));
  CHECK(day_of(seen({day[0], day[1], day[2], "day.sky=clear"}))->cloud == 0.0);
  CHECK(day_of(seen({day[0], day[1], day[2], "day.sky=overcast"}))->cloud == 1.0);
}

TEST_CASE("Break: the engine's day is the given day's of the lite that cracked", "[break]") {
  const Reference& reference = job_text::reference();
  ChainCache cache;
  const Assessment a =
      assess(job_text::sound({"glass.panes=2", "film.surface=4", "site.place=chicago"}), reference, cache, nullptr);
  const GivenDay day{1, 20, 251.0, 264.0, 0.0};
  const std::vector<OnGivenDay> all = on_given_day(a, day, reference, cache);
  for (const char* lite : {"outer", "inner"}) {
    const BreakDay worked = break_day(a, day, sheets_meant(lite, a.sheets), reference, cache);
    CHECK(worked.sheet == (std::string(lite) == "outer" ? 0 : 1));
    CHECK(worked.on.stress_pa == all[worked.sheet].stress_pa);
  }
  const BreakDay worst = break_day(a, day, sheets_meant(std::nullopt, a.sheets), reference, cache);
  CHECK(worst.on.stress_ratio == std::max(all[0].stress_ratio, all[1].stress_ratio));
  CHECK(all[0].stress_ratio != all[1].stress_ratio);
}
