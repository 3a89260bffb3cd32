// The clear design day: against an independent implementation, and what must hold for any place.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <utility>

#include "../../src/engine/sun_internal.hpp"
#include "sunstrain/sun.hpp"

using namespace sunstrain;

namespace {

using std::numbers::pi;

double rad(double deg) { return deg * pi / 180.0; }

Reference reference_with_constants() {
  Reference reference;
  reference.constants["cold_summer_offset_k"] = {8.0, "K", "", {}};
  reference.constants["hot_day_annual_share"] = {1.0 / 3.0, "-", "", {}};
  reference.constants["dew_point_below_minimum_k"] = {3.0, "K", "", {}};
  return reference;
}

// ASHRAE's 2009 tables, as printed in the public climate summary of a whole-building energy simulation.
Place denver() {
  Place place{};
  place.name = "Denver";
  place.latitude_rad = rad(39.817);
  place.longitude_rad = rad(-104.65);
  place.altitude_m = 1650.0;
  place.utc_offset_h = -7.0;
  place.coldest_k = 273.15 - 17.4;
  place.hottest_k = 273.15 + 34.6;
  place.hottest_month_range_k = 15.2;
  place.tau_edition = 2009;
  place.tau_beam = {0.251, 0.276, 0.303, 0.368, 0.382, 0.399, 0.424, 0.399, 0.341, 0.302, 0.267, 0.248};
  place.tau_diffuse = {2.579, 2.375, 2.299, 2.046, 2.082, 2.073, 2.012, 2.116, 2.324, 2.427, 2.522, 2.615};
  place.daily_range_k = {13.2, 13.3, 14.3, 14.0, 14.4, 15.2, 15.2, 14.8, 15.0, 14.3, 13.4, 12.6};
  return place;
}

Place south_of_the_equator(Place place) {
  place.latitude_rad = -place.latitude_rad;
  return place;
}

DesignDay january(int steps) {
  return design_day(denver(), 1, DayKind::cold_clear, pi / 2.0, pi, 0.5, steps, reference_with_constants());
}

}  // namespace

TEST_CASE("design day: Denver in January by an independent implementation", "[sun][design_day]") {
  // South pane, ground 0.5, values at half past each hour, local standard time. That implementation leaves out
  // refraction, which lifts the sun at 07:30 from 1.8 to 2.0 deg and its beam by a tenth: compared as it stands from
  // 5 deg up, and at every hour with the refraction taken out here too.
  static constexpr std::array<double, 24> beam{0.0,   0.0,   0.0,   0.0,   0.0,   0.0,   0.0,   87.6,
                                               402.9, 600.5, 731.1, 801.6, 811.7, 761.3, 651.0, 478.1,
                                               213.7, 0.0,   0.0,   0.0,   0.0,   0.0,   0.0,   0.0};
  static constexpr std::array<double, 24> diffuse{0.0,  0.0,   0.0,   0.0,   0.0,   0.0,   0.0,   22.4,
                                                  90.5, 152.5, 199.0, 225.5, 229.4, 210.4, 170.3, 112.9,
                                                  44.8, 0.0,   0.0,   0.0,   0.0,   0.0,   0.0,   0.0};
  static constexpr std::array<double, 24> air_c{-15.29, -15.99, -16.48, -16.87, -17.22, -17.31, -16.83, -15.46,
                                                -13.13, -10.71, -8.56,  -6.80,  -5.56,  -4.64,  -4.20,  -4.46,
                                                -5.34,  -6.49,  -8.02,  -9.83,  -11.19, -12.38, -13.48, -14.41};
  static constexpr std::array<double, 24> sky_c{-39.17, -39.80, -40.24, -40.60, -40.92, -41.00, -40.56, -39.32,
                                                -37.21, -35.01, -33.06, -31.46, -30.34, -29.50, -29.10, -29.34,
                                                -30.14, -31.18, -32.57, -34.21, -35.45, -36.53, -37.53, -38.36};
  const DesignDay day = january(24);
  REQUIRE(day.steps.size() == 24);
  CHECK(day.step_s == 3600.0);
  for (std::size_t i = 0; i < 24; ++i) {
    const DayStep& step = day.steps[i];
    INFO("hour " << step.local_hour);
    CHECK(step.local_hour == Approx(static_cast<double>(i) + 0.5));
    if (step.sun.elevation_rad > rad(5.0) || beam[i] == 0.0) {
      CHECK(step.pane.beam_w_m2 == Approx(beam[i]).epsilon(0.03).margin(0.05));
      CHECK(step.pane.sky_w_m2 + step.pane.ground_w_m2 == Approx(diffuse[i]).epsilon(0.03).margin(0.05));
    }
    SunPosition unrefracted = step.sun;
    unrefracted.apparent_elevation_rad = unrefracted.elevation_rad;
    const ClearSky sky = clear_sky(unrefracted.elevation_rad, extraterrestrial_w_m2(21), 0.251, 2.579, 2009);
    const PaneIrradiance pane = on_pane(sky, unrefracted, pi / 2.0, pi, 0.5);
    CHECK(pane.beam_w_m2 == Approx(beam[i]).epsilon(0.001).margin(0.05));
    CHECK(pane.sky_w_m2 + pane.ground_w_m2 == Approx(diffuse[i]).epsilon(0.001).margin(0.1));
    CHECK(step.outdoor_air_k - 273.15 == Approx(air_c[i]).margin(0.15));
    CHECK(step.sky_k - 273.15 == Approx(sky_c[i]).margin(0.15));
  }
}

TEST_CASE("dry bulb over the day: maximum in the afternoon, minimum before dawn, cyclic", "[sun][design_day]") {
  CHECK(design_day_air_k(14.0, 300.0, 10.0) == 300.0);
  CHECK(design_day_air_k(5.0, 300.0, 10.0) == 290.0);
  CHECK(design_day_air_k(24.0, 300.0, 10.0) == Approx(291.8));
  CHECK(design_day_air_k(0.0, 300.0, 10.0) == design_day_air_k(24.0, 300.0, 10.0));
  CHECK(design_day_air_k(0.5, 300.0, 10.0) == Approx(300.0 - 0.85 * 10.0));
  CHECK(design_day_air_k(-0.73, 300.0, 10.0) == Approx(design_day_air_k(23.27, 300.0, 10.0)));
  CHECK(design_day_air_k(1.0 - 1e-17, 300.0, 10.0) == Approx(291.2));
  CHECK_THROWS_AS(design_day_air_k(std::nan(""), 300.0, 10.0), std::invalid_argument);
}

TEST_CASE("cold and hot days: the annual values carried through the year", "[sun][design_day]") {
  const Reference reference = reference_with_constants();
  const Place place = denver();
  CHECK(cold_day_minimum_k(place, 1, reference) == Approx(place.coldest_k));
  CHECK(cold_day_minimum_k(place, 7, reference) == Approx(273.15 + 34.6 - 15.2 - 8.0));
  CHECK(cold_day_minimum_k(place, 4, reference) ==
        Approx(0.5 * (cold_day_minimum_k(place, 1, reference) + cold_day_minimum_k(place, 7, reference))));
  CHECK(hot_day_maximum_k(place, 7, reference) == Approx(place.hottest_k));
  CHECK(hot_day_maximum_k(place, 1, reference) == Approx(place.hottest_k - 52.0 / 3.0));
  const Place south = south_of_the_equator(place);
  for (int month = 1; month <= 12; ++month) {
    const int opposite = (month + 5) % 12 + 1;
    CHECK(cold_day_minimum_k(south, month, reference) == Approx(cold_day_minimum_k(place, opposite, reference)));
    CHECK(hot_day_maximum_k(south, month, reference) == Approx(hot_day_maximum_k(place, opposite, reference)));
    CHECK(cold_day_minimum_k(place, month, reference) >= place.coldest_k);
    CHECK(hot_day_maximum_k(place, month, reference) <= place.hottest_k);
  }
  Place even = place;  // hardly any seasons: the summer minimum is not put below the winter one
  even.coldest_k = even.hottest_k - 12.0;
  for (int month = 1; month <= 12; ++month) CHECK(cold_day_minimum_k(even, month, reference) == even.coldest_k);
  CHECK_THROWS_AS(cold_day_minimum_k(place, 0, reference), std::invalid_argument);
  CHECK_THROWS_AS(hot_day_maximum_k(place, 13, reference), std::invalid_argument);
  CHECK_THROWS_AS(cold_day_minimum_k(place, 1, Reference{}), std::out_of_range);
}

TEST_CASE("clear-sky temperature", "[sun][design_day]") {
  CHECK(clear_sky_temperature_k(280.0, 273.15) == Approx(280.0 * std::pow(0.758, 0.25)));
  CHECK(clear_sky_temperature_k(280.0, 283.15) == Approx(280.0 * std::pow(0.758 + 0.0521 + 0.00625, 0.25)));
  CHECK(clear_sky_temperature_k(310.0, 313.15) == 310.0);  // past the fit: never warmer than the air
  // Clark & Allen (1978), as Walton (1983): 0.787 + 0.764 ln(Tdp/273). The two correlations of measured skies lie
  // within 0.06 of each other between -25 and 20 C.
  for (double dew_c = -25.0; dew_c <= 20.0; dew_c += 5.0) {
    const double ours = std::pow(clear_sky_temperature_k(290.0, 273.15 + dew_c) / 290.0, 4.0);
    CHECK(ours == Approx(0.787 + 0.764 * std::log((273.15 + dew_c) / 273.0)).margin(0.06));
  }
  CHECK_THROWS_AS(clear_sky_temperature_k(-1.0, 273.15), std::invalid_argument);
  CHECK_THROWS_AS(clear_sky_temperature_k(280.0, std::nan("")), std::invalid_argument);
}

TEST_CASE("design day: air reaches the month's extremes, hot and cold", "[sun][design_day]") {
  const Reference reference = reference_with_constants();
  const Place place = denver();
  for (int month = 1; month <= 12; ++month) {
    const double range = place.daily_range_k[static_cast<std::size_t>(month - 1)];
    const auto extremes = [&](DayKind kind) {
      const DesignDay day = design_day(place, month, kind, pi / 2.0, pi, 0.2, 288, reference);
      CHECK(day.month == month);
      CHECK(day.kind == kind);
      const auto [low, high] =
          std::minmax_element(day.steps.begin(), day.steps.end(),
                              [](const DayStep& a, const DayStep& b) { return a.outdoor_air_k < b.outdoor_air_k; });
      return std::pair{low->outdoor_air_k, high->outdoor_air_k};
    };
    const auto [cold_low, cold_high] = extremes(DayKind::cold_clear);
    CHECK(cold_low == Approx(cold_day_minimum_k(place, month, reference)).margin(0.02));
    CHECK(cold_high == Approx(cold_day_minimum_k(place, month, reference) + range).margin(0.02));
    const auto [hot_low, hot_high] = extremes(DayKind::hot_clear);
    CHECK(hot_high == Approx(hot_day_maximum_k(place, month, reference)).margin(0.02));
    CHECK(hot_low == Approx(hot_day_maximum_k(place, month, reference) - range).margin(0.02));
  }
}

TEST_CASE("design day: sun only by day, sky colder than air, parts add up", "[sun][design_day]") {
  for (const double facing : {0.0, 90.0, 135.0, 250.0}) {
    const DesignDay day =
        design_day(denver(), 6, DayKind::hot_clear, rad(70.0), rad(facing), 0.3, 96, reference_with_constants());
    for (const DayStep& step : day.steps) {
      const bool up = step.sun.apparent_elevation_rad > 0.0;
      CHECK((step.diffuse_horizontal_w_m2 > 0.0) == up);
      CHECK((step.pane.sky_w_m2 > 0.0) == up);
      CHECK(step.pane.beam_w_m2 ==
            Approx(step.beam_normal_w_m2 * std::max(0.0, step.pane.cos_incidence)).margin(1e-12));
      CHECK(step.beam_normal_w_m2 < 1100.0);
      CHECK(step.sky_k < step.outdoor_air_k);
      CHECK(step.sky_k > step.outdoor_air_k - 35.0);
    }
  }
}

TEST_CASE("design day: a finer step changes nothing but the step", "[sun][design_day]") {
  const auto energy = [](const DesignDay& day) {
    double sum = 0.0;
    for (const DayStep& step : day.steps) sum += step.pane.beam_w_m2 * day.step_s;
    return sum;
  };
  CHECK(energy(january(48)) == Approx(energy(january(1440))).epsilon(0.005));
  CHECK(january(144).steps[72].local_hour == Approx(12.0 + 1.0 / 12.0));
}

TEST_CASE("design day: in the far east of its zone the sun comes earlier by the clock", "[sun][design_day]") {
  const auto noon_hour = [](double longitude_deg, double offset_h) {
    Place place = denver();
    place.longitude_rad = rad(longitude_deg);
    place.utc_offset_h = offset_h;
    const DesignDay day =
        design_day(place, 4, DayKind::cold_clear, pi / 2.0, pi, 0.2, 1440, reference_with_constants());
    return std::max_element(
               day.steps.begin(), day.steps.end(),
               [](const DayStep& a, const DayStep& b) { return a.sun.elevation_rad < b.sun.elevation_rad; })
        ->local_hour;
  };
  CHECK(noon_hour(-105.0, -7.0) - noon_hour(-97.5, -7.0) == Approx(0.5).margin(0.04));
  CHECK(noon_hour(150.0, 10.0) == Approx(noon_hour(-105.0, -7.0)).margin(0.04));
}

TEST_CASE("design day: refuses what it cannot use", "[sun][design_day]") {
  const Reference reference = reference_with_constants();
  const auto day = [&](const Place& place, int month, double ground, int steps) {
    return design_day(place, month, DayKind::cold_clear, pi / 2.0, pi, ground, steps, reference);
  };
  CHECK_THROWS_AS(day(denver(), 0, 0.2, 24), std::invalid_argument);
  CHECK_THROWS_AS(day(denver(), 13, 0.2, 24), std::invalid_argument);
  CHECK_THROWS_AS(day(denver(), 1, 0.2, 23), std::invalid_argument);
  CHECK_THROWS_AS(day(denver(), 1, -0.1, 24), std::invalid_argument);
  Place high = denver();
  high.altitude_m = 20000.0;
  CHECK_THROWS_AS(day(high, 1, 0.2, 24), std::invalid_argument);
  Place unknown_edition = denver();
  unknown_edition.tau_edition = 2017;
  CHECK_THROWS_AS(day(unknown_edition, 1, 0.2, 24), std::invalid_argument);
}

TEST_CASE("Design day: the two of a month worked together are what each is alone") {
  const Reference reference = reference_with_constants();
  for (int month = 1; month <= 12; ++month) {
    const auto both = design_days(denver(), month, pi / 2.0, 2.5, 0.6, 0.2, 144, reference);
    for (const DesignDay& day : both) {
      const bool cold = day.kind == DayKind::cold_clear;
      const DesignDay alone = design_day(denver(), month, day.kind, pi / 2.0, 2.5, cold ? 0.6 : 0.2, 144, reference);
      REQUIRE(day.steps.size() == alone.steps.size());
      CHECK((day.month == month && day.step_s == alone.step_s));
      bool same = true;
      for (std::size_t i = 0; i < day.steps.size(); ++i) {
        const DayStep &a = day.steps[i], &b = alone.steps[i];
        same = same && a.outdoor_air_k == b.outdoor_air_k && a.sky_k == b.sky_k &&
               a.sun.apparent_elevation_rad == b.sun.apparent_elevation_rad && a.sun.azimuth_rad == b.sun.azimuth_rad &&
               a.pane.beam_w_m2 == b.pane.beam_w_m2 && a.pane.sky_w_m2 == b.pane.sky_w_m2 &&
               a.pane.ground_w_m2 == b.pane.ground_w_m2;
      }
      CHECK(same);
    }
    CHECK((both[0].kind == DayKind::cold_clear && both[1].kind == DayKind::hot_clear));
  }
}
