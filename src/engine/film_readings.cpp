// What a data sheet may mean: the trade's four ways of stating a film, as interfaces (design: film data).
#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "impossible_film.hpp"
#include "sunstrain/case.hpp"

namespace sunstrain {
namespace {

struct SheetGlass {
  double bulk_transmittance;  // of one pane
  bool double_unit;
  double bare_transmittance;
};

double clear_bulk_transmittance(double thickness_m, const Reference& reference) {
  for (const TintRow& row : row_named(reference.tints, "clear").rows) {
    if (std::abs(row.thickness_m - thickness_m) < 1e-6) return bulk_transmittance(row.solar_transmittance);
  }
  throw BadInput("reference/glass.toml: the glass of a film sheet must be a thickness of the clear glass table");
}

// Figures of one film of the job.
struct Keys {
  const Job& job;
  const std::string& table;
  std::optional<double> number(const char* key) const { return number_of(job, table + "." + key); }
  std::string reference_glass() const { return word_of(job, table + ".reference_glass").value(); }
};

SheetGlass sheet_glass(const Keys& keys, const Reference& reference) {
  const ReferenceGlass& glass = row_named(reference.reference_glasses, keys.reference_glass());
  const double bulk = clear_bulk_transmittance(glass.thicknesses_m.front(), reference);
  return {bulk, glass.thicknesses_m.size() == 2, bare_transmittance(bulk)};
}

Interface off_the_sheet(const FilmSheet& sheet, const SheetGlass& glass) {
  return glass.double_unit ? film_interface_from_double(sheet, glass.bulk_transmittance)
                           : film_interface(sheet, glass.bulk_transmittance);
}

// Of the glass with its film; on a double unit the filmed pane stands behind a clear one, which sends some back itself.
double likely_reflectance(const SheetGlass& glass, const Reference& reference) {
  const double filmed_pane = constant(reference, "sheet_unknown_reflectance_middle");
  if (!glass.double_unit) return filmed_pane;
  const OpticalLite bare{bare_interface(), bare_interface(), glass.bulk_transmittance};
  const Absorption outer = absorb_beam(std::vector<OpticalLite>{bare}, 0.0);
  return outer.reflected + outer.transmitted * outer.transmitted * filmed_pane / (1.0 - outer.reflected * filmed_pane);
}

// Absorptance alone: every reflectance that leaves a possible film. The transmittance is what remains.
std::vector<FilmSheet> sheets_of_absorptance(double absorptance, const SheetGlass& glass, Run run,
                                             const Reference& reference) {
  if (run == Run::middle) {
    const double reflectance = std::min(likely_reflectance(glass, reference), 1.0 - absorptance);
    return {{1.0 - absorptance - reflectance, reflectance, reflectance}};
  }
  constexpr int readings = 24;
  std::vector<FilmSheet> sheets;
  for (int i = 0; i <= readings; ++i) {
    const double reflectance = (1.0 - absorptance) * i / readings;
    sheets.push_back({1.0 - absorptance - reflectance, reflectance, reflectance});
  }
  return sheets;
}

// SHGC = T + N A on a single pane: A = (SHGC - T)/N. On a clear double unit the outer pane gives its own share in
// first: q_i = [(a1 + a2)/he + a2/L]/(1/hi + 1/he + 1/L), EN 410 (recalled).
FilmSheet sheet_of_shgc(double shgc, double transmittance, const SheetGlass& glass, Run run,
                        const Reference& reference) {
  const double inward =
      constant(reference, run == Run::bad_end ? "sheet_inward_fraction_bad" : "sheet_inward_fraction_middle");
  double absorptance = (shgc - transmittance) / inward;
  if (glass.double_unit) {
    const double he = constant(reference, "sheet_double_outside_w_m2k"),
                 hi = constant(reference, "sheet_double_inside_w_m2k");
    const double gap = constant(reference, "sheet_double_gap_w_m2k");
    const double all = 1 / hi + 1 / he + 1 / gap;
    const OpticalLite bare{bare_interface(), bare_interface(), glass.bulk_transmittance};
    const double outer = absorb_beam(std::vector<OpticalLite>{bare, bare}, 0.0).lites[0].total();
    absorptance = outer + (shgc - transmittance - outer / he / all) * all / (1 / he + 1 / gap);
  }
  const double reflectance = 1.0 - transmittance - absorptance;
  if (absorptance < 0.0 || reflectance < 0.0) {
    throw ImpossibleFilm(
        saying("SHGC and transmittance do not go together: they would mean that film and glass absorb {} % of the sun",
               std::to_string(absorptance * 100.0).substr(0, 5)));
  }
  return {transmittance, reflectance, reflectance};
}

std::vector<FilmSheet> sheets_of(const Keys& keys, const SheetGlass& glass, Run run, const Reference& reference) {
  const auto a = keys.number("solar_absorptance"), t = keys.number("solar_transmittance");
  const auto r = keys.number("solar_reflectance"), shgc = keys.number("shgc");
  if (t && (r || a)) {
    const double reflectance = r ? *r : 1.0 - *t - *a;
    return {{*t, reflectance, keys.number("solar_reflectance_film_side").value_or(reflectance)}};
  }
  if (r && a) return {{1.0 - *r - *a, *r, *r}};
  if (t && shgc) return {sheet_of_shgc(*shgc, *t, glass, run, reference)};
  if (a) return sheets_of_absorptance(*a, glass, run, reference);
  throw BadInput("{}: {}: give its solar absorptance, or its solar transmittance with reflectance or SHGC",
                 keys.job.source, keys.table);
}

// The refusals of film_interface begin with the figure that is wrong.
std::string key_at_fault(const std::string& table, const std::string& refused) {
  for (const auto& [figure, key] : {std::pair{"solar reflectance of the film side", ".solar_reflectance_film_side"},
                                    {"solar reflectance", ".solar_reflectance"},
                                    {"solar transmittance", ".solar_transmittance"},
                                    {"SHGC", ".shgc"}}) {
    if (refused.starts_with(figure)) return table + key;
  }
  return table;
}

}  // namespace

std::vector<Interface> film_readings(const Job& job, const std::string& table, Run run, const Reference& reference) {
  const Keys keys{job, table};
  const SheetGlass glass = sheet_glass(keys, reference);
  std::vector<FilmSheet> sheets;
  std::vector<Interface> readings;
  std::optional<Saying> refused;
  try {
    sheets = sheets_of(keys, glass, run, reference);
  } catch (const ImpossibleFilm& impossible) {
    refused = impossible.in_words();
  }
  for (const FilmSheet& sheet : sheets) {
    try {
      readings.push_back(off_the_sheet(sheet, glass));
    } catch (const ImpossibleFilm& impossible) {
      refused = impossible.in_words();  // one of several readings may be impossible; not all of them
    }
  }
  if (readings.empty()) {
    throw BadInput("{}: {}, on reference glass {}: {}", job.source, key_at_fault(table, said(*refused, {})),
                   keys.reference_glass(), *refused);
  }
  return readings;
}

ReflectanceRange possible_reflectances(const Job& job, const std::string& table, const Reference& reference) {
  const Keys keys{job, table};
  const SheetGlass glass = sheet_glass(keys, reference);
  std::optional<ReflectanceRange> range;
  for (const FilmSheet& sheet :
       sheets_of_absorptance(keys.number("solar_absorptance").value(), glass, Run::bad_end, reference)) {
    try {
      off_the_sheet(sheet, glass);
    } catch (const std::domain_error&) {
      continue;
    }
    if (!range) range = {sheet.solar_reflectance, sheet.solar_reflectance};
    range->most = sheet.solar_reflectance;
  }
  if (!range) film_readings(job, table, Run::bad_end, reference);  // says what is wrong
  return range.value();
}

}  // namespace sunstrain
