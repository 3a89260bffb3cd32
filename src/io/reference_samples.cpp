// samples.toml.
#include <algorithm>
#include <array>

#include "condition_load.hpp"
#include "reference_tables.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {
namespace {

constexpr std::array<std::pair<const char*, Draw::Of>, 7> quantities{{
    {"air_k", Draw::Of::air_k},
    {"beam_depth", Draw::Of::beam_depth},
    {"wind_m_s", Draw::Of::wind_m_s},
    {"frame_beam_share", Draw::Of::frame_beam_share},
    {"bottom_colder_k", Draw::Of::bottom_colder_k},
    {"film_reflectance", Draw::Of::film_reflectance},
    {"second_film_reflectance", Draw::Of::second_film_reflectance},
}};

// What the engine can be moved by.
std::pair<double, double> range_of(Draw::Of of) {
  if (of == Draw::Of::air_k) return {-20.0, 20.0};
  if (of == Draw::Of::beam_depth) return {0.3, 3.0};
  if (of == Draw::Of::wind_m_s) return {0.0, 20.0};
  if (of == Draw::Of::bottom_colder_k) return {0.0, 10.0};
  return {0.0, 1.0};
}

Draw draw_of(DataRow& row, const std::vector<JobKey>& keys) {
  Draw draw{row.text("name"), word_named(quantities, row, "of"), optional_condition(row, "when", keys), {}, {}, {}, {}};
  const auto [least, most] = range_of(draw.of);
  draw.chance = row.numbers("chance", 0.0, 1.0);
  draw.value = row.numbers("value", least, most);
  const auto ascends = [](const std::vector<double>& list) { return std::is_sorted(list.begin(), list.end()); };
  if (draw.chance.size() < 2 || draw.chance.front() != 0.0 || draw.chance.back() != 1.0 || !ascends(draw.chance))
    row.refuse("chance", "must ascend from 0 to 1");
  if (draw.value.size() != draw.chance.size() || !ascends(draw.value))
    row.refuse("value", "as many numbers as chance are needed, ascending");
  draw.asks = row.text_or("asks", "");
  if (!draw.asks.empty() && find_job_key(keys, draw.asks) == nullptr) row.refuse("asks", "must be a job key");
  row.text_or("note", "");
  draw.source = row.source();
  row.finish();
  return draw;
}

}  // namespace

void load_samples(const std::string& file, std::string_view text, Reference& reference) {
  const DataNode document = parse_toml_tree(file, text);
  require_tables(document, file, {"draw"});
  for (DataRow& row : rows_of(document, file, "draw")) reference.draws.push_back(draw_of(row, reference.job_keys));
}

}  // namespace sunstrain
