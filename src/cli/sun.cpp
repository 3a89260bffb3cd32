// sunstrain sun: where the sun stands on one day, and what a clear sky sends onto a pane.
#include "sunstrain/sun.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "command.hpp"
#include "options.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"

namespace sunstrain::cli {
namespace {

using Json = nlohmann::ordered_json;
using Kind = JobKey::Kind;

constexpr double deg_per_rad = 180.0 / std::numbers::pi;
constexpr int first_year = 2010, last_year = 2110;  // for which the sun's position is good to 0.01 deg

po::options_description options() {
  const auto text = [](const char* form) { return po::value<std::string>()->value_name(form); };
  po::options_description all("Options");
  all.add_options()("place", text("NAME"), "one of the reference climates, such as chicago")(
      "latitude", text("DEGREES"), "or coordinates: north positive")("longitude", text("DEGREES"), "east positive")(
      "altitude", text("LENGTH"), "above the sea, \"250 m\" or \"820 ft\"; 0 m when left out")(
      "utc-offset", text("HOURS"), "of standard time; from the longitude when left out")(
      "tau-beam", text("NUMBER"),
      "optical depths of the day in the ASHRAE clear-sky model; both or none. Left out, those "
      "of the place, or of the reference climate nearest to the coordinates")("tau-diffuse", text("NUMBER"),
                                                                              "the second of them")(
      "tau-edition", text("2009|2013"), "of the model that these two belong to; 2013 and later when left out")(
      "date", text("YYYY-MM-DD"), "2010 to 2110")("facing", text("WAY"),
                                                  "compass word or degrees from north; S when left out")(
      "tilt", text("DEGREES"), "90 upright, 0 lying flat and facing the sky; 90 when left out")(
      "ground-reflectance", text("SHARE"), "of sun; 0.2 when left out")(
      "step", text("MINUTES"), "1 to 120; 60 when left out")("json", "the same as JSON, all hours")("help",
                                                                                                    "this page");
  return all;
}

JobKey angle(double least_deg, double most_deg, const char* sentence) {
  return quantity_key(Kind::angle, "deg", least_deg / deg_per_rad, most_deg / deg_per_rad, sentence);
}

void forbid(const po::variables_map& given, const std::vector<const char*>& names, const char* beside) {
  for (const char* name : names) {
    if (given.count(name) > 0) throw BadInput(say("--{}: goes with coordinates, not with --{}", name, beside));
  }
}

Place named_place(const po::variables_map& given, const Reference& reference) {
  forbid(given, {"latitude", "longitude", "altitude", "utc-offset"}, "place");
  const std::string name = given["place"].as<std::string>();
  try {
    return row_named(reference.places, lower_case(name));
  } catch (const BadInput& error) {
    if (shown(name).size() < name.size()) throw BadInput("--place: no such place");
    throw BadInput(say("--place: {}", error));
  }
}

Place place_of(const po::variables_map& given, const Reference& reference) {
  if (given.count("place") > 0) return named_place(given, reference);
  if (given.count("latitude") == 0 || given.count("longitude") == 0) {
    throw BadInput("sun: give --place NAME, or --latitude and --longitude; sunstrain sun --help shows how");
  }
  const double latitude = number_of(given, "latitude", angle(-90.0, 90.0, "north positive"), 0.0);
  const double longitude = number_of(given, "longitude", angle(-180.0, 180.0, "east positive"), 0.0);
  Place place = under_nearest_sky(latitude, longitude, reference.places);
  place.altitude_m =
      number_of(given, "altitude", quantity_key(Kind::length, "m", -450.0, 9000.0, "above the sea"), 0.0);
  place.utc_offset_h = number_of(given, "utc-offset", quantity_key(Kind::number, "h", -12.0, 14.0, "of standard time"),
                                 std::round(longitude * 12.0 / std::numbers::pi));
  return place;
}

struct Haze {
  double tau_beam, tau_diffuse;
  int edition;
};

Haze haze_of(const po::variables_map& given, const Place& place, int month, int day) {
  const bool own = given.count("tau-beam") > 0;
  if (own != (given.count("tau-diffuse") > 0)) throw BadInput("--tau-beam and --tau-diffuse: give both or none");
  if (!own && given.count("tau-edition") > 0)
    throw BadInput("--tau-edition: needs --tau-beam and --tau-diffuse beside it");
  if (!own) {
    return {monthly_interpolated(place.tau_beam, month, day), monthly_interpolated(place.tau_diffuse, month, day),
            place.tau_edition};
  }
  const int edition = word_among(given, "tau-edition", {"2009", "2013"}, "2013") == "2009" ? 2009 : 2013;
  return {
      number_of(given, "tau-beam", quantity_key(Kind::number, "-", 0.05, 2.0, "optical depth of the beam"), 0.0),
      number_of(given, "tau-diffuse", quantity_key(Kind::number, "-", 0.5, 4.0, "optical depth of the diffuse"), 0.0),
      edition};
}

struct Date {
  int year, month, day;
};

Date date_of(const po::variables_map& given) {
  if (given.count("date") == 0) throw BadInput("sun: --date is missing: a day such as 2026-01-20");
  const std::string text = given["date"].as<std::string>();
  Date date{};
  try {
    const std::string day = parse_date(text);
    std::from_chars(day.data(), day.data() + 4, date.year);
    std::from_chars(day.data() + 5, day.data() + 7, date.month);
    std::from_chars(day.data() + 8, day.data() + 10, date.day);
    if (date.year < first_year || date.year > last_year) {
      throw BadInput(say("allowed: the years {} to {}", first_year, last_year));
    }
  } catch (const BadInput& error) {
    throw BadInput(say("--date = {}: {}", sunstrain::quoted(text), error));
  }
  return date;
}

struct Question {
  Place place;
  Date date;
  Haze haze;
  double facing_rad, tilt_rad, ground_reflectance;
  int step_min;
};

Question question_of(const po::variables_map& given, const Reference& reference) {
  const Date date = date_of(given);
  Place place = place_of(given, reference);
  if (given.count("place") == 0 && given.count("tau-beam") > 0) place.name = "own coordinates";
  JobKey facing = angle(0.0, 360.0, "degrees from north");
  facing.choices = row_named(reference.job_keys, "pane.facing").choices;
  return {place,
          date,
          haze_of(given, place, date.month, date.day),
          number_of(given, "facing", facing, std::numbers::pi),
          number_of(given, "tilt", angle(0.0, 180.0, "90 upright, 0 facing the sky"), std::numbers::pi / 2.0),
          number_of(given, "ground-reflectance", quantity_key(Kind::fraction, "-", 0.0, 1.0, "share of the sun"), 0.2),
          whole_number(given, "step", 1, 120, 60)};
}

struct Hour {
  double local_hour;
  SunPosition sun;
  ClearSky sky;
  PaneIrradiance pane;
};

std::vector<Hour> hours_of(const Question& q) {
  const double pressure_pa = standard_pressure_pa(q.place.altitude_m);
  const double e0 = extraterrestrial_w_m2(day_of_year(q.date.year, q.date.month, q.date.day));
  std::vector<Hour> hours;
  for (int minute = 0; minute < 24 * 60; minute += q.step_min) {
    const double hour = minute / 60.0;
    const UtcMoment moment{q.date.year, q.date.month, q.date.day, hour - q.place.utc_offset_h};
    const SunPosition sun = sun_position(moment, q.place.latitude_rad, q.place.longitude_rad, pressure_pa);
    const ClearSky sky = clear_sky(sun.apparent_elevation_rad, e0, q.haze.tau_beam, q.haze.tau_diffuse, q.haze.edition);
    hours.push_back({hour, sun, sky, on_pane(sky, sun, q.tilt_rad, q.facing_rad, q.ground_reflectance)});
  }
  return hours;
}

double incidence_deg(const Hour& hour) {
  return std::acos(std::clamp(hour.pane.cos_incidence, -1.0, 1.0)) * deg_per_rad;
}

std::string date_text(const Date& date) { return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day); }

std::string json_text(const Question& q, const std::vector<Hour>& hours) {
  Json rows = Json::array();
  for (const Hour& h : hours) {
    rows.push_back({{"local_hour", h.local_hour},
                    {"sun_altitude_deg", h.sun.elevation_rad * deg_per_rad},
                    {"sun_altitude_apparent_deg", h.sun.apparent_elevation_rad * deg_per_rad},
                    {"sun_azimuth_deg", h.sun.azimuth_rad * deg_per_rad},
                    {"incidence_deg", incidence_deg(h)},
                    {"beam_normal_w_m2", h.sky.beam_normal_w_m2},
                    {"diffuse_horizontal_w_m2", h.sky.diffuse_horizontal_w_m2},
                    {"pane_beam_w_m2", h.pane.beam_w_m2},
                    {"pane_sky_w_m2", h.pane.sky_w_m2},
                    {"pane_ground_w_m2", h.pane.ground_w_m2}});
  }
  const Json document{
      {"schema", "sunstrain-sun-1"},
      {"place",
       {{"name", q.place.name},
        {"latitude_deg", q.place.latitude_rad * deg_per_rad},
        {"longitude_deg", q.place.longitude_rad * deg_per_rad},
        {"altitude_m", q.place.altitude_m},
        {"utc_offset_h", q.place.utc_offset_h}}},
      {"date", date_text(q.date)},
      {"clear_sky", {{"tau_beam", q.haze.tau_beam}, {"tau_diffuse", q.haze.tau_diffuse}, {"edition", q.haze.edition}}},
      {"pane", {{"facing_deg", q.facing_rad * deg_per_rad}, {"tilt_deg", q.tilt_rad * deg_per_rad}}},
      {"ground_reflectance", q.ground_reflectance},
      {"steps", std::move(rows)}};
  return document.dump(2) + "\n";
}

std::string heading(const Question& q, const Language& language) {
  return tell(language,
              "Clear sky on {}: {}\n"
              "latitude {:.3f}, longitude {:.3f}, {:.0f} m; hours are standard time, UTC {:+g}\n"
              "Pane faces {:.4g} deg from north, tilt {:.4g} deg; the ground reflects {}\n"
              "Optical depths {:.3f} and {:.3f} (ASHRAE model, coefficients of {})\n\n",
              date_text(q.date), q.place.name, q.place.latitude_rad * deg_per_rad, q.place.longitude_rad * deg_per_rad,
              q.place.altitude_m, q.place.utc_offset_h, q.facing_rad * deg_per_rad, q.tilt_rad * deg_per_rad,
              format_fraction(q.ground_reflectance), q.haze.tau_beam, q.haze.tau_diffuse, q.haze.edition);
}

std::string row_text(const Hour& h, const Language& language) {
  const int minutes = static_cast<int>(std::lround(h.local_hour * 60.0));
  const std::string incidence =
      h.pane.cos_incidence > 0.0 ? fmt::format("{:.1f}", incidence_deg(h)) : tell(language, "behind");
  return fmt::format("{:02}:{:02} {:8.2f} {:7.2f} {:>9} {:7.0f} {:8.0f} {:7.0f} {:5.0f} {:6.0f}\n", minutes / 60,
                     minutes % 60, h.sun.apparent_elevation_rad * deg_per_rad, h.sun.azimuth_rad * deg_per_rad,
                     incidence, h.sky.beam_normal_w_m2, h.sky.diffuse_horizontal_w_m2, h.pane.beam_w_m2,
                     h.pane.sky_w_m2, h.pane.ground_w_m2);
}

std::string table_text(const Question& q, const std::vector<Hour>& hours, const Language& language) {
  std::string rows;
  for (const Hour& hour : hours) {
    if (hour.sun.apparent_elevation_rad > 0.0) rows += row_text(hour, language);
  }
  if (rows.empty()) return heading(q, language) + tell(language, "The sun is not up at any of these hours.") + "\n";
  return heading(q, language) +
         tell(language,
              "           sun, degrees             W/m2 across    W/m2 on the pane\n"
              "hour  altitude azimuth incidence  beam  diffuse    beam   sky ground\n") +
         rows;
}

}  // namespace

std::string sun_help(const Language& language) {
  return tell(language,
              "sunstrain sun --place NAME --date YYYY-MM-DD [options]: a clear day on a pane\n\n"
              "  sunstrain sun --place boston --date 2026-01-20 --facing SE\n"
              "  sunstrain sun --latitude 46.9 --longitude -96.8 --date 2026-01-20\n\n") +
         option_list(options(), language) +
         tell(language, "\nExit codes: 0 it ran; 2 bad input; 3 a fault of the program.\n");
}

Outcome sun(const Words& words) {
  const po::variables_map given = read_options(words, options(), nullptr, "sun");
  const Question question = question_of(given, builtin_reference());
  const std::vector<Hour> hours = hours_of(question);
  return {given.count("json") > 0 ? json_text(question, hours)
                                  : table_text(question, hours, load_language(language_of(given)))};
}

}  // namespace sunstrain::cli
