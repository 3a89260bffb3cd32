#include "sunstrain/unit_build_up.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <set>
#include <tuple>

#include "sunstrain/job_keys.hpp"

namespace sunstrain {
namespace {

using Lengths = std::vector<std::optional<double>>;

constexpr double m_per_mm = 1e-3, rounding_m = 1e-6;

std::string key_of(const char* table, std::size_t index, const char* what) {
  return std::string(table) + "." + std::to_string(index + 1) + "." + what;
}

std::optional<double> number(const Facts& values, const std::string& key) {
  const auto found = values.find(key);
  return found == values.end() ? std::nullopt : std::optional(std::get<double>(found->second));
}

// 0.0127 -> "12.7"
std::string mm_text(double length_m) {
  const long hundredths = std::lround(length_m / m_per_mm * 100.0);
  std::string text = std::to_string(hundredths / 100);
  if (const long rest = hundredths % 100; rest != 0)
    text += "." + std::to_string(rest / 10) + (rest % 10 != 0 ? std::to_string(rest % 10) : "");
  return text;
}

// Millimeters; nothing for what is not digits with at most one point among them.
std::optional<double> mm_of(const std::string& text) {
  const bool plain = !text.empty() && text.size() <= 6 && text.find_first_not_of("0123456789.") == std::string::npos &&
                     std::count(text.begin(), text.end(), '.') <= 1 && text.front() != '.' && text.back() != '.';
  return plain ? std::optional(std::stod(text) * m_per_mm) : std::nullopt;
}

// The thickest class that a measured lite reaches: glass is sold by it, and units are named by it.
double nominal_of(double measured_m, const Reference& reference) {
  double nominal = measured_m;
  for (const NominalThickness& row : reference.nominal_thicknesses)
    if (measured_m >= row.least_m - rounding_m) nominal = row.nominal_m;
  return nominal;
}

struct Given {
  Lengths lites_m, cavities_m;
  double interlayers_m = 0.0;

  bool open() const {
    const auto absent = [](const std::optional<double>& length) { return !length; };
    return std::any_of(lites_m.begin(), lites_m.end(), absent) ||
           std::any_of(cavities_m.begin(), cavities_m.end(), absent);
  }
};

Given given_of(const Facts& values, std::size_t panes, const Reference& reference) {
  Given given;
  for (std::size_t i = 0; i < panes; ++i) {
    const auto measured = number(values, key_of("lite", i, "measured_thickness"));
    given.lites_m.push_back(measured ? nominal_of(*measured, reference)
                                     : number(values, key_of("lite", i, "thickness")));
    const auto kind = values.find(key_of("lite", i, "kind"));
    if (kind != values.end() && kind->second == Value("laminated"))
      given.interlayers_m +=
          number(values, key_of("lite", i, "interlayer")).value_or(constant(reference, "usual_interlayer_m"));
    if (i + 1 < panes) given.cavities_m.push_back(number(values, key_of("cavity", i, "width")));
  }
  return given;
}

double sum(const BuildUp& unit) {
  double total = 0.0;
  for (const std::vector<double>* lengths : {&unit.lites_m, &unit.cavities_m})
    for (const double length : *lengths) total += length;
  return total;
}

BuildUp filled(const Given& given, double lite_m, double cavity_m) {
  BuildUp unit;
  for (const auto& lite : given.lites_m) unit.lites_m.push_back(lite.value_or(lite_m));
  for (const auto& cavity : given.cavities_m) unit.cavities_m.push_back(cavity.value_or(cavity_m));
  return unit;
}

const std::vector<Taking>& lite_takings(const Reference& reference) {
  return find_job_key(reference.job_keys, "lite.1.thickness")->taken;
}

// What is plausible of one lite on a pane of this size, and most likely.
const Taking& taking_for_size(const Facts& values, const Reference& reference) {
  const std::vector<Taking>& rows = lite_takings(reference);
  return *std::find_if(rows.begin(), rows.end(),
                       [&](const Taking& row) { return holds(row.when, values) == Truth::yes; });
}

std::vector<double> lites_of(const Taking& taking) {
  std::vector<double> lites;
  for (const Value& value : taking.bad) lites.push_back(std::get<double>(value));
  return lites;
}

// Of panes of any size, the thickest first.
std::vector<double> lites_of_any_size(const Reference& reference) {
  std::set<double, std::greater<>> lites;
  for (const Taking& row : lite_takings(reference))
    for (const double lite : lites_of(row)) lites.insert(lite);
  return {lites.begin(), lites.end()};
}

// Of one thickness of the open lites: the unit that comes nearest, a usual spacer first among equals.
struct Fit {
  BuildUp unit;
  double lite_m = 0.0, off_m = std::numeric_limits<double>::infinity();
  bool usual = false;
};

Fit nearest_fit(const Given& given, double lite_m, double thickness_m, const Reference& reference) {
  Fit best;
  for (const SpacerWidth& spacer : reference.spacer_widths) {
    Fit fit{filled(given, lite_m, spacer.width_m), lite_m, 0.0, spacer.usual};
    fit.off_m = std::abs(sum(fit.unit) + given.interlayers_m - thickness_m);
    const bool same = std::abs(fit.off_m - best.off_m) < rounding_m;
    if (same ? fit.usual && !best.usual : fit.off_m < best.off_m) best = std::move(fit);
  }
  return best;
}

std::vector<Fit> fits_of(const Given& given, const std::vector<double>& lites, double thickness_m,
                         const Reference& reference) {
  std::vector<Fit> fits;
  for (const double lite_m : lites) fits.push_back(nearest_fit(given, lite_m, thickness_m, reference));
  return fits;
}

}  // namespace

std::string build_up_text(const BuildUp& unit) {
  std::string text;
  for (std::size_t i = 0; i < unit.lites_m.size(); ++i) {
    text += mm_text(unit.lites_m[i]);
    if (i < unit.cavities_m.size()) text += "-" + mm_text(unit.cavities_m[i]) + "-";
  }
  return text;
}

std::optional<BuildUp> build_up_of(const std::string& text) {
  BuildUp unit;
  bool lite = true;
  for (std::size_t from = 0; from <= text.size(); lite = !lite) {
    const std::size_t to = std::min(text.find('-', from), text.size());
    const auto length_m = mm_of(text.substr(from, to - from));
    if (!length_m) return std::nullopt;
    (lite ? unit.lites_m : unit.cavities_m).push_back(*length_m);
    from = to + 1;
  }
  const std::size_t panes = unit.lites_m.size();
  return (panes == 2 || panes == 3) && unit.cavities_m.size() + 1 == panes ? std::optional(unit) : std::nullopt;
}

BuildUps build_ups(const Facts& values, int panes, const Reference& reference) {
  const double thickness_m = std::get<double>(values.at("unit.thickness"));
  const double most_off_m = constant(reference, "unit_thickness_tolerance_m") + rounding_m;
  const Given given = given_of(values, static_cast<std::size_t>(panes), reference);
  const Taking& taking = taking_for_size(values, reference);
  const auto fitting = [&](const Fit& fit) { return fit.off_m <= most_off_m; };
  std::vector<Fit> fits = fits_of(given, lites_of(taking), thickness_m, reference);
  if (std::none_of(fits.begin(), fits.end(), fitting))
    fits = fits_of(given, lites_of_any_size(reference), thickness_m, reference);
  const auto nearest =
      std::min_element(fits.begin(), fits.end(), [](const Fit& a, const Fit& b) { return a.off_m < b.off_m; });
  BuildUps found{{}, "", given.open(), build_up_text(nearest->unit), sum(nearest->unit) + given.interlayers_m};
  const Fit* likely = nullptr;
  const auto rank = [&](const Fit& fit) {
    return std::tuple(!fit.usual, std::lround(fit.off_m / rounding_m),
                      std::abs(fit.lite_m - std::get<double>(taking.middle)));
  };
  for (const Fit& fit : fits) {
    if (!fitting(fit)) continue;
    const std::string text = build_up_text(fit.unit);
    if (std::find(found.plausible.begin(), found.plausible.end(), text) == found.plausible.end())
      found.plausible.push_back(text);
    if (likely == nullptr || rank(fit) < rank(*likely)) likely = &fit;
  }
  if (likely != nullptr) found.likely = build_up_text(likely->unit);
  return found;
}

void require_build_up(const Job& complete) {
  if (!complete.values.contains("unit.thickness") || complete.values.contains("unit.build_up")) return;
  throw BadInput("{}: unit.thickness: no unit of {} lites is that thick with what is known of it", complete.source,
                 word_of(complete, "glass.panes").value_or("1"));
}

void take_apart(Facts& values) {
  const auto given = values.find("unit.build_up");
  if (given == values.end()) return;
  const std::optional<BuildUp> unit = build_up_of(std::get<std::string>(given->second));
  if (!unit) return;
  values.emplace("glass.panes", std::to_string(unit->lites_m.size()));
  for (std::size_t i = 0; i < unit->lites_m.size(); ++i)
    if (!values.contains(key_of("lite", i, "measured_thickness")))
      values.emplace(key_of("lite", i, "thickness"), unit->lites_m[i]);
  for (std::size_t i = 0; i < unit->cavities_m.size(); ++i)
    values.emplace(key_of("cavity", i, "width"), unit->cavities_m[i]);
}

}  // namespace sunstrain
