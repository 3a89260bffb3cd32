// The engine's stress for the day on which a pane cracked.
#include <algorithm>

#include "sunstrain/breakage.hpp"

namespace sunstrain {

std::vector<std::size_t> sheets_meant(const std::optional<std::string>& lite, const std::vector<Sheet>& sheets) {
  const std::size_t lites = lites_of(sheets);
  if (lite == "middle" && lites != 3) throw BadInput("crack.lite = \"middle\": the job's glazing has no middle lite");
  const auto meant = [&](const Sheet& sheet) {
    if (sheet.panel) return false;
    if (lite == "outer") return sheet.lite == 0;
    if (lite == "middle") return sheet.lite == 1;
    return lite != "inner" || sheet.lite + 1 == lites;
  };
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < sheets.size(); ++i)
    if (meant(sheets[i])) places.push_back(i);
  return places;
}

BreakDay break_day(const Assessment& assessment, const GivenDay& day, const std::vector<std::size_t>& sheets,
                   const Reference& reference, ChainCache& cache) {
  const std::vector<OnGivenDay> all = on_given_day(assessment, day, reference, cache);
  const std::size_t worst = *std::max_element(sheets.begin(), sheets.end(), [&](std::size_t a, std::size_t b) {
    return all.at(a).stress_ratio < all.at(b).stress_ratio;
  });
  return {day, all.at(worst), worst};
}

}  // namespace sunstrain
