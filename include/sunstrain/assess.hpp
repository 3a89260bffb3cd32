// The whole chain: job in, assessment out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sunstrain/case.hpp"
#include "sunstrain/resolve.hpp"
#include "sunstrain/rules.hpp"
#include "sunstrain/samples.hpp"
#include "sunstrain/sealed_unit.hpp"
#include "sunstrain/weather_year.hpp"

namespace sunstrain {

enum class Verdict { go, caution, refer };

// What guidance of that severity comes to: a note leaves the verdict alone.
Verdict verdict_of(Severity severity);

struct Moment {
  int month = 0;
  DayKind day = DayKind::cold_clear;
  double local_hour = 0.0;
};

// One sheet of glass, before or after film.
struct LiteFigures {
  double absorbed_fraction = 0.0;                     // of the sun on the unit, in place, at normal incidence
  double absorbed_w_m2 = 0.0;                         // in the sunlit part at the peak (bad end)
  double peak_stress_pa = 0.0;                        // bad end
  double peak_stress_middle_pa = 0.0;                 // middle run
  double allowable_pa = 0.0, refer_pa = 0.0;          // go line (bad end), refer line (middle)
  double stress_ratio = 0.0;                          // bad-end stress over the go line
  Odds odds{};                                        // bad-end day of the peak, 0 to 1
  double center_k = 0.0, edge_k = 0.0;                // at the bad-end peak
  double center_middle_k = 0.0, edge_middle_k = 0.0;  // the same of the middle run
  Moment when;                                        // of the bad-end peak
  Side side = Side::bottom;                           // where along the edge
  double position_m = 0.0;
};
struct LiteResult {
  LiteFigures before, after;
};

struct GlazingFigures {
  double solar_transmittance, solar_reflectance, u_value_w_m2k, shgc;
};

// A thing not known: how it was taken at the bad end and in the middle, and what each reading would give.
struct Reading {
  Value value;
  Verdict verdict;
  double stress_ratio;
};
struct UnknownTaken {
  std::string key;
  Value taken_bad, taken_middle;
  std::string why;
  bool decided = false;           // with the most likely value in its place the verdict is better
  double ratio_at_middle = 0.0;   // the ratio with only this one at its most likely value
  std::vector<Reading> readings;  // for the one that decided most and where a rule hangs on it: every plausible value
};

// A rule that would speak with that value of a key which the job knows in part. It asks at most: the key is open.
struct OpenRule {
  Rule rule;
  std::string key;
  Value value;
};

// One thing that can be done on the installed pane, or a lighter film, worked on the engine.
struct Help {
  std::string words;                        // of a row of reference/drivers.toml; empty: a lighter film
  std::optional<double> solar_absorptance;  // of that film: the highest that stays go, on the sheet's glass
  double stress_ratio;                      // with it
};

// One input and what the bad end's ratio would be with another value of it, all else as taken.
struct Driver {
  std::string key;              // of the job
  DriverRow::Act act;           // what may be done about it
  Value taken, tried;           // at the bad end, and in its place
  double stress_ratio;          // with `tried`, of the lite nearest its go line
  std::optional<double> slope;  // of a number: change of the ratio over the change, per SI unit
  std::string words, how;       // of the row in reference/drivers.toml; of a key not known, how to find out
};

// The gas of a sealed unit at its hottest on the design days (bad end), and what it does. Beside the verdict.
struct SealedFigures {
  std::vector<double> gas_k;
  SealedState state;
};
struct SealedAnswer {
  SealedFigures before, after;
};

// The same pane through a weather file's year, at the bad end. It informs; the verdict is the design days'.
struct WeatherAnswer {
  std::string source;
  std::vector<std::string> remarks;  // about the file
  double hours = 0.0;                // of the year
  WeatherRun before, after;
};

// The shadow at the governing lite's worst hour (bad end, with film), and what the worst of the lasting shadows that a
// job can name would bring in place of the job's own. Beside the verdict.
struct ShadowAnswer {
  std::vector<std::string> casting;          // field.hpp; empty: the sun reached all of the glass
  double wall_w_m2 = 0.0, water_w_m2 = 0.0;  // what the wall opposite and water add to the sun on the pane in that hour
  double part_differs_k = 0.0;  // the governing lite's middle in that hour, in the sun: where the pane is otherwise,
                                // less the rest
  std::string worst_pattern;    // a choice of shading.pattern
  double worst_share = 0.0;     // of shading.share; 0: the pattern has none
  double worst_ratio = 0.0;     // its stress over the go line, of the lite nearest to it
};

// The hour that governs a lite, followed once more by the full transient in the plane (plane.hpp). The larger of the
// two routes counts. Stresses without bending (bending.hpp).
struct PlaneCheck {
  double quick_pa = 0.0;        // the quick route's peak (field.hpp), in its hour
  double in_hour_pa = 0.0;      // the full transient's peak in that hour
  double highest_pa = 0.0;      // and its highest within half an hour of it
  double highest_hour = 0.0;    // local
  double residual_share = 0.0;  // largest energy not accounted for in a step
  // By which the stress is raised: highest over quick, bending added to both, where the highest alone passes the quick
  // one by more than `plane_small_share` (reference constants), else 1.
  double raised_by = 1.0;
};

struct Assessment {
  Verdict verdict = Verdict::go, figures = Verdict::go, guidance = Verdict::go;
  double stress_ratio = 0.0;         // bad end, governing lite, over the go line
  double stress_ratio_middle = 0.0;  // middle run, over the refer line
  std::size_t governing_lite = 0;    // of `lites`
  std::vector<LiteResult> lites;     // outdoors first: every lite, of laminated ones every ply
  std::vector<Sheet> sheets;         // which is which
  GlazingFigures before{}, after{};
  bool past_line_without_film = false;  // middle run over the refer line before film
  bool film_adds_little = false;        // less than 0.5 MPa and 5 % (reference constants)
  std::vector<Rule> rules;              // fired, worst first
  std::vector<OpenRule> open_rules;     // beside them
  std::vector<UnknownTaken> unknowns;   // the one that decided most first
  std::vector<Help> helps;              // empty when the figures are go
  std::vector<Driver> drivers;          // by drivers_of(), where somebody asked for them (drivers.hpp)
  std::optional<SealedAnswer> sealed;   // more than one lite
  std::optional<WeatherAnswer> weather;
  std::optional<Samples> samples;  // where they were asked for; assess() draws none
  ShadowAnswer shadow;
  // Of the governing lite with film, at the bad end and in the middle run; absent where no border of a shadow lies on
  // the pane about that hour. What they raise is raised in the figures of that lite.
  std::optional<PlaneCheck> plane, plane_middle;
  double raised_by() const { return plane ? plane->raised_by : 1.0; }  // of the bad end's stress, governing lite
  Job job;                                                             // as given, SI
  Job bad_end, middle;                                                 // completed as the two runs took it
  Choice choice;                                                       // by which bad_end was
  Facts facts;                                                         // what the rules saw
};

// Assesses one pane. Throws BadInput for a job that cannot be; std::runtime_error when a balance does not settle.
// With `weather`, also what its year brings. A year that names no place is taken at the job's.
Assessment assess(const Job& job, const Reference& reference, const WeatherYear* weather = nullptr);

// One run of the chain over the 24 design days: the peak of every lite, with or without the film.
struct LitePeak {
  double stress_pa = 0.0;   // bending included
  double bending_pa = 0.0;  // of it
  double in_plane_pa() const { return stress_pa - bending_pa; }
  Moment when;
  Side side = Side::bottom;
  double position_m = 0.0;
  double center_k = 0.0, edge_k = 0.0, shaded_center_k = 0.0, absorbed_w_m2 = 0.0, irradiance_w_m2 = 0.0;
  std::array<double, 4> frame_k{};
  Odds odds{};
  double likely_risk = 0.0;  // strength.hpp, of the day of the peak; see likely_worst_of_year
};
struct YearPeaks {
  std::vector<LitePeak> lites;
  std::vector<double> hottest_gas_k;   // per cavity, in the step in which they are hottest together; in the sun
  double worst_energy_residual = 0.0;  // largest |residual| over (absorbed sun + gross exchange) of all steps
};

// Maps and solvers that several runs on one pane share. Plain storage handed along; nothing global.
class ChainCache {
 public:
  ChainCache();
  ~ChainCache();
  // For a cache that outlives a pane: lets go of what has become too much. Not during a run.
  void shed();
  struct Store;
  Store& store() { return *store_; }

 private:
  std::unique_ptr<Store> store_;
};

// The same on maps and solvers that others share: for what is asked of the same pane afterwards.
Assessment assess(const Job& job, const Reference& reference, ChainCache& cache, const WeatherYear* weather = nullptr);

// As `assess`, to the last bit, without what stands beside the verdict: no readings of the unknown that decided, and
// `helps`, `shadow` and `weather` are left empty. For many films on one pane, which may share a cache.
Assessment assess_briefly(const Job& job, const Reference& reference, ChainCache& cache);

// Which steps of a day are solved for stress: those that a bound does not rule out, or, for checking, every one.
enum class Steps { that_can_govern, all };

// with_odds: also the breakage odds of each lite over the day of its peak.
YearPeaks worst_of_year(const Case& pane, const GlazingState& state, const Reference& reference, ChainCache& cache,
                        bool with_odds);
// The same with every lite's likely risk in place of its odds, from those steps of the day whose stress may pass 0.6 of
// the peak: with n = 16 the others hold less than 0.03 % of what the peak does in as long, all of them together less
// than a thousandth of the risk (a test).
YearPeaks likely_worst_of_year(const Case& pane, const GlazingState& state, const Reference& reference,
                               ChainCache& cache);
// The same for given days instead of the 24 design days.
YearPeaks worst_of_days(const Case& pane, const GlazingState& state, std::span<const DesignDay> days,
                        const Reference& reference, ChainCache& cache, bool with_odds,
                        Steps steps = Steps::that_can_govern);

}  // namespace sunstrain
