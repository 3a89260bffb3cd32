#include "sunstrain/given_day.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"

using namespace sunstrain;

namespace {

Place chicago(const Reference& reference) {
  for (const Place& place : reference.places)
    if (place.name == "chicago") return place;
  throw std::logic_error("no chicago");
}

Assessment assessed(ChainCache& cache, const Reference& reference) {
  Job job{"options", {}};
  for (const char* setting : {"pane.width=0.9 m", "pane.height=1.5 m", "pane.facing=SE", "site.place=chicago",
                              "film.solar_absorptance=0.4", "frame.kind=aluminum", "lite.1.thickness=6 mm"})
    set_key(job, setting, reference);
  return assess(job, reference, cache, nullptr);
}

}  // namespace

// F. Kasten, G. Czeplak 1980 (recalled): 1 - 0.75 (N/8)^3.4 worked by hand at 4/8 and 8/8.
TEST_CASE("Given day: cloud takes sun away as Kasten and Czeplak have it", "[given_day]") {
  const Reference& reference = builtin_reference();
  const ClearSky clear{800.0, 120.0};
  const double up = 0.5, elevation = std::asin(up), global = 800.0 * up + 120.0;
  const auto global_of = [&](const ClearSky& sky) { return sky.beam_normal_w_m2 * up + sky.diffuse_horizontal_w_m2; };
  const ClearSky half = under_cloud(clear, elevation, 0.5, reference);
  CHECK(global_of(half) / global == Approx(0.92895).epsilon(1e-4));
  const ClearSky overcast = under_cloud(clear, elevation, 1.0, reference);
  CHECK(overcast.beam_normal_w_m2 == Approx(0.0).margin(1e-9));
  CHECK(global_of(overcast) / global == Approx(0.25));
  CHECK(under_cloud(clear, elevation, 0.0, reference).beam_normal_w_m2 == 800.0);
  double before = 900.0;
  for (int eighths = 0; eighths <= 8; ++eighths) {
    const double beam = under_cloud(clear, elevation, eighths / 8.0, reference).beam_normal_w_m2;
    CHECK(beam < before);
    before = beam;
  }
  CHECK(under_cloud({0.0, 0.0}, -0.1, 0.5, reference).beam_normal_w_m2 == 0.0);
  CHECK_THROWS_AS(under_cloud(clear, elevation, 1.01, reference), std::invalid_argument);
}

TEST_CASE("Given day: a covered sky is warmer than a clear one, never warmer than the air", "[given_day]") {
  const Reference& reference = builtin_reference();
  CHECK(sky_under_cloud_k(255.0, 273.0, 0.0, reference) == 255.0);
  CHECK(sky_under_cloud_k(255.0, 273.0, 0.5, reference) ==
        Approx(255.0 * std::pow(1.0 + 0.22 * std::pow(0.5, 2.75), 0.25)));
  CHECK(sky_under_cloud_k(270.0, 273.0, 1.0, reference) == 273.0);
}

TEST_CASE("Given day: a clear one with a design day's air is that design day", "[given_day]") {
  const Reference& reference = builtin_reference();
  const Place place = chicago(reference);
  const DesignDay design = design_day(place, 1, DayKind::cold_clear, 1.5, 2.5, 0.2, 144, reference);
  const double low = cold_day_minimum_k(place, 1, reference), high = low + place.daily_range_k[0];
  const DesignDay given = given_day(place, {1, 21, low, high, 0.0}, 1.5, 2.5, 0.2, 144, reference);
  REQUIRE(given.steps.size() == design.steps.size());
  CHECK(given.kind == DayKind::cold_clear);
  for (std::size_t i = 0; i < given.steps.size(); ++i) {
    CHECK(given.steps[i].outdoor_air_k == Approx(design.steps[i].outdoor_air_k));
    CHECK(given.steps[i].sky_k == Approx(design.steps[i].sky_k));
    CHECK(given.steps[i].pane.total_w_m2() == Approx(design.steps[i].pane.total_w_m2()));
  }
}

TEST_CASE("Given day: the air runs between what was typed in; a day that there is not is refused", "[given_day]") {
  const Reference& reference = builtin_reference();
  const Place place = chicago(reference);
  const DesignDay day = given_day(place, {7, 4, 293.15, 306.15, 0.25}, 1.5, 2.5, 0.2, 144, reference);
  CHECK(day.kind == DayKind::hot_clear);
  double least = 400.0, most = 0.0;
  for (const DayStep& step : day.steps) {
    least = std::min(least, step.outdoor_air_k);
    most = std::max(most, step.outdoor_air_k);
    CHECK(step.month == 7);
  }
  CHECK(least == Approx(293.15).margin(0.2));
  CHECK(most == Approx(306.15).margin(0.2));
  CHECK_NOTHROW(given_day(place, {2, 29, 270.0, 280.0, 0.0}, 1.5, 2.5, 0.2, 144, reference));
  CHECK_THROWS_AS(given_day(place, {2, 30, 270.0, 280.0, 0.0}, 1.5, 2.5, 0.2, 144, reference), std::invalid_argument);
  CHECK_THROWS_AS(given_day(place, {2, 3, 280.0, 270.0, 0.0}, 1.5, 2.5, 0.2, 144, reference), std::invalid_argument);
  CHECK_THROWS_AS(given_day(place, {2, 3, 270.0, 280.0, -0.1}, 1.5, 2.5, 0.2, 144, reference), std::invalid_argument);
}

TEST_CASE("Given day: the governing design day gives its stress back, cloud takes stress away", "[given_day]") {
  const Reference& reference = builtin_reference();
  ChainCache cache;
  const Assessment answer = assessed(cache, reference);
  const LiteFigures& worst = answer.lites[answer.governing_lite].after;
  const Place place = chicago(reference);
  const int month = worst.when.month;
  REQUIRE(worst.when.day == DayKind::cold_clear);
  const double low = cold_day_minimum_k(place, month, reference);
  const double high = low + place.daily_range_k[static_cast<std::size_t>(month - 1)];
  const auto on = [&](double cloud) {
    return on_given_day(answer, {month, 21, low, high, cloud}, reference, cache).at(answer.governing_lite);
  };
  const OnGivenDay same = on(0.0);
  CHECK(same.stress_pa == Approx(worst.peak_stress_pa).epsilon(1e-6));
  CHECK(same.stress_ratio == Approx(worst.stress_ratio).epsilon(1e-6));
  CHECK(same.local_hour == Approx(worst.when.local_hour));
  CHECK(same.stress_without_film_pa < same.stress_pa);
  CHECK(on(0.5).stress_pa < same.stress_pa);
  // A cold frame stretches the edge without any sun, so the stress itself stays; what the film adds to it goes with the
  // sun, of which a fifth is left on this pane, and less than half of it may be left.
  const auto added = [](const OnGivenDay& day) { return day.stress_pa - day.stress_without_film_pa; };
  CHECK(added(on(1.0)) < 0.5 * added(same));
  CHECK(added(on(1.0)) > 0.0);
}
