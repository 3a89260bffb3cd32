// places.csv: degrees and degrees Celsius in the file, radians and kelvin in the Reference.
#include <algorithm>
#include <numbers>

#include "data_node.hpp"
#include "reference_csv.hpp"
#include "reference_tables.hpp"
#include "say.hpp"

namespace sunstrain {

namespace {

constexpr double rad_per_deg = std::numbers::pi / 180.0;
constexpr std::array<const char*, 12> months{"jan", "feb", "mar", "apr", "may", "jun",
                                             "jul", "aug", "sep", "oct", "nov", "dec"};

std::vector<std::string> columns() {
  std::vector<std::string> all{"name",      "latitude_deg", "longitude_deg",         "altitude_m", "utc_offset_h",
                               "coldest_c", "hottest_c",    "hottest_month_range_k", "tau_edition"};
  for (const char* group : {"tau_beam_", "tau_diffuse_", "daily_range_k_"}) {
    for (const char* month : months) all.push_back(std::string(group) + month);
  }
  all.insert(all.end(), {"certainty", "source"});
  return all;
}

std::array<double, 12> by_month(const CsvRow& row, const std::string& group, double least, double most) {
  std::array<double, 12> out{};
  for (std::size_t i = 0; i < months.size(); ++i) out[i] = row.number(group + months[i], least, most);
  return out;
}

Place place_of(const CsvRow& row) {
  Place place{row.text("name"),
              row.number("latitude_deg", -90.0, 90.0) * rad_per_deg,
              row.number("longitude_deg", -180.0, 180.0) * rad_per_deg,
              row.number("altitude_m", -500.0, 9000.0),
              row.number("utc_offset_h", -12.0, 14.0),
              row.number("coldest_c", -80.0, 40.0) + zero_celsius_k,
              row.number("hottest_c", -20.0, 60.0) + zero_celsius_k,
              row.number("hottest_month_range_k", 0.0, 40.0),
              static_cast<int>(row.number("tau_edition", 2009.0, 2013.0)),
              by_month(row, "tau_beam_", 0.05, 2.0),
              by_month(row, "tau_diffuse_", 0.5, 4.0),
              by_month(row, "daily_range_k_", 0.0, 40.0),
              {row.text("source"), certainty_named(row.text("certainty"), row.where())}};
  if (row.text("tau_edition") != "2009" && row.text("tau_edition") != "2013") {
    throw BadInput(say("{}: tau_edition = {}: allowed: 2009, 2013", row.where(), row.text("tau_edition")));
  }
  if (place.coldest_k >= place.hottest_k) throw BadInput(say("{}: coldest_c must be below hottest_c", row.where()));
  return place;
}

}  // namespace

void load_places(const std::string& file, std::string_view text, Reference& reference) {
  for (const CsvRow& row : parse_reference_csv(file, text, columns())) {
    Place place = place_of(row);
    const auto same = [&](const Place& other) { return other.name == place.name; };
    if (std::any_of(reference.places.begin(), reference.places.end(), same)) {
      throw BadInput(say("{}: this name is used twice", row.where()));
    }
    reference.places.push_back(std::move(place));
  }
}

}  // namespace sunstrain
