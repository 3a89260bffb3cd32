// A pane that did crack: what was seen at it against what the literature says, and the stress that its crack tells of.
// The clues are data, reference/break.toml; what may be seen is reference/break_keys.toml. Nothing here says who or
// what is at fault.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sunstrain/given_day.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain {

// What was seen, under the keys of a report: a map of keys to SI values as a job is one.
using Observations = Job;

struct Clue {
  enum class Speaks { for_heat, against_heat, of_weak_edge, of_nothing };
  enum class Weight { weak, strong, decisive };  // of the first two
  std::string name;
  Condition when;
  Speaks speaks = Speaks::of_nothing;
  Weight weight = Weight::weak;
  std::string text, note;  // note: on the source; may be empty
  Source source;
};

// From `from_pa` up to where the next one begins.
struct StressBand {
  std::string name, say;  // "low", "low stress"
  double from_pa = 0.0;
  std::string text;
  Source source;
};

// What a crack tells of the stress that it began at. A figure: constant / sqrt(length), the mirror law with the
// distance to the first fork in the radius's place (J. Mecholsky and others; J. Oakley 1996), each constant in
// Pa sqrt(m); or bands alone.
struct StressSign {
  enum class Figure { none, about, at_most };
  std::string name;
  Condition when;
  Figure figure = Figure::none;
  std::string length;  // an observation's key, m
  double least_pa_sqrt_m = 0.0, constant_pa_sqrt_m = 0.0, most_pa_sqrt_m = 0.0;
  double uncertain_share = 0.0;    // of the stress, on top of the constants' own spread
  double tells_to_m = 0.0;         // a longer length tells less; of `at_most` it counts as this one
  std::vector<std::size_t> bands;  // of a sign without a figure: of BreakTables::bands, ascending
  std::string text, far;           // far: said of a length beyond tells_to_m
  Source source;
};

struct Advice {
  std::string name, text;
  Source source;
};

struct BreakTables {
  Reference form;  // the keys of a report in place of a job's, the language, and no other table
  std::vector<Clue> clues;
  std::vector<StressBand> bands;  // ascending, the first from 0
  std::vector<StressSign> signs;
  std::vector<Advice> keep, handling;
  std::size_t strong_for = 0, strong_against = 0;  // how many it takes, from 1
};

// Whether it holds of what was seen. Of what is known in part it must hold in every reading, or it cannot be told.
Truth holds_of(const Condition& condition, const Observations& seen);

// Clues by what they speak for or against; the strong ones hold the decisive ones.
struct ClueCounts {
  std::size_t strong_for = 0, weak_for = 0, against = 0, strong_against = 0, decisive_against = 0;
};
ClueCounts counts_of(const std::vector<Clue>& clues);

// In the order of likelihood to be heat.
enum class BreakResult { not_consistent, cannot_tell, consistent };

// consistent: `strong_for` strong clues for heat at least and none against it. not_consistent: a decisive clue against
// it, or `strong_against` strong ones, and no strong one for it. Anything else, clues that disagree above all:
// cannot_tell. One clue more against never brings the result nearer to heat, one more for it never farther away.
BreakResult result_of(const std::vector<Clue>& clues, const BreakTables& tables);

// The stress (Pa) that a length tells of; the last band's end is infinite.
struct StressRange {
  double least_pa = 0.0, likely_pa = 0.0, most_pa = 0.0;
};
struct SignRead {
  StressSign sign;
  std::optional<StressRange> range;  // nothing: bands alone
  bool far = false;                  // the length is beyond what tells
  std::vector<std::size_t> bands;    // in which it puts the break
};

struct BreakStress {
  std::vector<SignRead> signs;
  std::vector<std::size_t> bands;  // that every sign leaves; empty: no sign, or they disagree
  bool disagree() const { return !signs.empty() && bands.empty(); }
};

// The stress sign's range for one length (m, over 0).
StressRange stress_from_length(const StressSign& sign, double length_m);

// Which of the bands a stress lies in; of a negative one (the edge is pressed) the first.
std::size_t band_of(double stress_pa, const std::vector<StressBand>& bands);

// An observation that is not known, and what one answer to it alone would make of the result.
struct Settling {
  std::string key;
  Value value;
  BreakResult result;
};

struct BreakReading {
  BreakResult result = BreakResult::cannot_tell;
  std::vector<Clue> clues;  // that hold, in the table's order
  BreakStress stress;
  std::vector<std::string>
      silent;  // keys of what was seen that clues are about and none speaks of, in the table's order
  std::vector<std::string> not_known;   // keys that apply and of which nothing, or only a part, is known
  std::vector<Settling> would_settle;   // in the keys' order, one a key and result
  std::vector<std::string> look_first;  // of not_known: keys that a strong or decisive clue or a figure hangs on
};

BreakReading read_break(const Observations& seen, const BreakTables& tables);

// Where the engine's stress of a day stands beside the break's.
enum class Meeting { meets, engine_lower, engine_higher };

// The bands from one stress to another, either way round, against the bands of a break (not empty).
Meeting meeting_of(double one_pa, double other_pa, const std::vector<std::size_t>& of_break,
                   const std::vector<StressBand>& bands);

// What the engine finds for the lite that cracked, on the day that was typed in.
struct BreakDay {
  GivenDay day;
  OnGivenDay on;          // of the sheet that is nearest its line on it
  std::size_t sheet = 0;  // which of the assessment's
};

// The sheets that a report's crack.lite means: of "outer", "middle", "inner" every ply of that lite, of "several" and
// of nothing every lite's; a storm panel is none. A single pane is outer and inner. Throws BadInput for a middle lite
// where there is none.
std::vector<std::size_t> sheets_meant(const std::optional<std::string>& lite, const std::vector<Sheet>& sheets);

// Of those sheets the one with the highest share of what its edge bears. Throws as on_given_day().
BreakDay break_day(const Assessment& assessment, const GivenDay& day, const std::vector<std::size_t>& sheets,
                   const Reference& reference, ChainCache& cache);

}  // namespace sunstrain
