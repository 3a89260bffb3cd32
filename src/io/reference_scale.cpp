// warmth_scale.csv: the colors of a temperature map.
#include "data_node.hpp"
#include "reference_csv.hpp"
#include "reference_tables.hpp"
#include "say.hpp"

namespace sunstrain {

void load_warmth_scale(const std::string& file, std::string_view text, Reference& reference) {
  std::vector<ScaleColor>& scale = reference.warmth_scale;
  for (const CsvRow& row : parse_reference_csv(file, text, {"share", "red", "green", "blue", "certainty", "source"})) {
    const auto part = [&](const char* column) { return row.number(column, 0.0, 1.0); };
    const double share = part("share");
    if (scale.empty() ? share != 0.0 : share <= scale.back().share)
      throw BadInput(say("{}: share: the first is 0, each is more than the one before it", row.where()));
    scale.push_back({share,
                     part("red"),
                     part("green"),
                     part("blue"),
                     {row.text("source"), certainty_named(row.text("certainty"), row.where())}});
  }
  if (scale.size() < 2 || scale.back().share != 1.0)
    throw BadInput(say("{}: share: the last of two or more rows is 1", file));
}

}  // namespace sunstrain
