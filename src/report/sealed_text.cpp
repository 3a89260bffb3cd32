#include "sealed_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "words.hpp"

namespace sunstrain::report {

std::string sealed_text(const Assessment& a, const Reference& reference, Units units) {
  if (!a.sealed) return "";
  const SealedFigures &before = a.sealed->before, &after = a.sealed->after;
  const auto hottest = [&](const SealedFigures& figures) {
    return warmth_text(*std::max_element(figures.gas_k.begin(), figures.gas_k.end()), 0, units);
  };
  const auto lite =
      std::max_element(after.state.lites.begin(), after.state.lites.end(),
                       [](const SealedLite& x, const SealedLite& y) { return x.bending_pa < y.bending_pa; });
  const auto index = static_cast<std::size_t>(lite - after.state.lites.begin());
  const auto load = [&](double n_m) {
    constexpr double n_m_of_lb_in = 175.127;
    return units == Units::inch ? fmt::format("{:.1f} lb/in", n_m / n_m_of_lb_in) : fmt::format("{:.0f} N/m", n_m);
  };
  const Language& language = reference.language;
  std::string text = tell(
      language, "gas at its hottest {} (without film {}): bends the {} to {} ({}), loads the edge seal with {} ({})",
      hottest(after), hottest(before), lite_name(language, index, after.state.lites.size()),
      stress_text(lite->bending_pa, units), stress_text(before.state.lites[index].bending_pa, units),
      load(after.state.edge_seal_n_m), load(before.state.edge_seal_n_m));
  text += after.state.stiffness > constant(reference, "sealed_unit_small_share")
              ? tell(language, ". A small or narrow unit: here it matters; ask the unit's maker.")
              : tell(language, ". What that does to the seal's life is disputed.");
  return text;
}

}  // namespace sunstrain::report
