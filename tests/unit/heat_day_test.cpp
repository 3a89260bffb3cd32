// The strip through a day: lag, energy, closing on itself; and a blind behind the glass.
#include <catch2/catch.hpp>
#include <numbers>

#include "../../src/engine/center.hpp"
#include "../../src/engine/highest.hpp"
#include "support/heat_lines.hpp"

using namespace sunstrain;
using heat_lines::line;

namespace {

constexpr const char* frames[]{
    "wood",        "vinyl",        "vinyl-foam",          "aluminum", "aluminum-break", "aluminum-wide-break",
    "steel-putty", "curtain-wall", "structural-silicone", "masonry",  "brick"};

struct Harmonic {
  double amplitude_k, lag_min;
};

// First harmonic of a series sampled at mid-steps, lag behind -cos(2 pi t/24 h).
Harmonic first_harmonic(const std::vector<double>& series) {
  double c = 0.0, s = 0.0;
  const auto n = static_cast<double>(series.size());
  for (std::size_t i = 0; i < series.size(); ++i) {
    const double angle = 2 * std::numbers::pi * (static_cast<double>(i) + 0.5) / n;
    c -= 2.0 / n * series[i] * std::cos(angle);
    s -= 2.0 / n * series[i] * std::sin(angle);
  }
  return {std::hypot(c, s), std::atan2(s, c) * 24 * 60 / (2 * std::numbers::pi)};
}

// The edge's answer to outdoor air that swings by 15 K, films held at 20 and 8 W/m2K: amplitude over the steady one,
// lag.
Harmonic answer_to_air(const char* frame, std::size_t lites) {
  Line section = line(frame, "metal", 0.012, lites);
  section.glazing.lites.front().emissivity_outer = 0.0;
  section.glazing.lites.back().emissivity_inner = 0.0;
  std::vector<StepLoads> day;
  for (int i = 0; i < 288; ++i) {
    const double air_c = 5.0 - 15.0 * std::cos(2 * std::numbers::pi * (i + 0.5) / 288);
    day.push_back(heat_lines::loads(lites, air_c, 20.0, 20.0));
    day.back().room_convection_w_m2k = 8.0;
  }
  const LineDay result = march_day(section, day, 300.0);
  const std::size_t cells = result.depth_m.size();
  std::vector<double> moving, steady;
  for (std::size_t i = 0; i < day.size(); ++i) {
    moving.push_back(result.strip(i, lites - 1).front());
    std::vector<double> depth_m;
    steady.push_back(steady_line(section, day[i], depth_m).cell_k[(lites - 1) * cells]);
  }
  const Harmonic a = first_harmonic(moving), b = first_harmonic(steady);
  return {a.amplitude_k / b.amplitude_k, a.lag_min - b.lag_min};
}

}  // namespace

TEST_CASE("Edge strip: lag of the edge behind the air, frame by frame") {
  // Two-dimensional section, transient, glass heat capacity included; its lags are whole minutes. The strip's masses
  // were fitted to 2 min (masonry 15, brick 5).
  struct Row {
    const char* frame;
    std::size_t lites;
    double lag_min, amplitude, lag_tolerance_min;
  };
  const Row row =
      GENERATE(Row{"wood", 1, 21, .99, 5}, Row{"vinyl", 1, 13, 1.0, 5}, Row{"aluminum", 1, 10, 1.0, 5},
               Row{"steel-putty", 1, 17, 1.0, 5}, Row{"curtain-wall", 1, 10, 1.0, 5}, Row{"masonry", 1, 100, .77, 15.5},
               Row{"vinyl", 2, 26, .99, 5}, Row{"aluminum-break", 2, 20, 1.0, 5}, Row{"wood", 2, 38, .98, 5},
               Row{"masonry", 2, 116, .72, 15.5}, Row{"brick", 1, 68, .86, 5}, Row{"brick", 2, 83, .83, 5});
  CAPTURE(row.frame, row.lites);
  const Harmonic found = answer_to_air(row.frame, row.lites);
  CHECK(found.lag_min == Approx(row.lag_min).margin(row.lag_tolerance_min));
  CHECK(found.amplitude_k == Approx(row.amplitude).margin(0.05));
}

TEST_CASE("Edge strip: energy closes at every step of every day") {
  // That this can fail was seen by breaking copies of the engine: a wrong sign on what the face sources push across a
  // cavity left up to 0.008 of the exchanged heat over; a room-side contact 0.1 % short on the frame's side 0.07; the
  // spacer's coupling 0.01 % off its diagonal 0.08 (such slips weigh whole kelvins, not differences).
  const std::array<double, 3> absorbed{0.5, 0.3, 0.2};
  for (const char* frame : frames) {
    for (std::size_t lites : {1u, 2u, 3u}) {
      for (const bool winter : {true, false}) {
        CAPTURE(frame, lites, winter);
        Line section = line(frame, winter ? "metal" : "warm-edge", 0.012, lites);
        if (!winter) section.shade = {0.7, 0.05, 0.9, true};
        const heat_lines::DayShape shape =
            winter ? heat_lines::DayShape{-8, 7, 21, 10, 900, 0.5} : heat_lines::DayShape{28, 8, 24, 14, 700, 0.9};
        const auto day = heat_lines::clear_day(shape, std::span(absorbed).first(lites), 144);
        const LineDay result = march_day(section, day, 600.0);
        double worst = 0.0;
        for (std::size_t i = 0; i < result.steps(); ++i)
          worst = std::max(worst, std::abs(result.residual_w_m[i]) / result.exchanged_w_m[i]);
        CHECK(worst <= 1e-6);
      }
    }
  }
}

TEST_CASE("Edge strip: a day closes on itself and forgets how it began") {
  // The same day, begun six hours later: the same temperatures at the same hours.
  const std::array<double, 2> absorbed{0.1, 0.4};
  const auto day = heat_lines::clear_day({-8, 7, 21, 10, 900, 0.5}, absorbed, 144);
  auto later = day;
  std::rotate(later.begin(), later.begin() + 36, later.end());
  for (const char* frame : {"vinyl", "aluminum", "masonry"}) {
    CAPTURE(frame);
    const Line section = line(frame, "metal", 0.012, 2);
    const LineDay a = march_day(section, day, 600.0), b = march_day(section, later, 600.0);
    double worst = 0.0;
    for (std::size_t i = 0; i < day.size(); ++i) {
      for (std::size_t lite = 0; lite < 2; ++lite) {
        const auto one = a.strip(i, lite), same = b.strip((i + day.size() - 36) % day.size(), lite);
        for (std::size_t k = 0; k < one.size(); ++k) worst = std::max(worst, std::abs(one[k] - same[k]));
      }
    }
    CHECK(worst < 0.1);  // each day may miss its own midnight by 0.05 K
  }
}

TEST_CASE("Edge strip: shapes that do not fit are refused") {
  const Line section = line("vinyl", "metal", 0.012, 2);
  const std::vector<StepLoads> wrong(24, heat_lines::loads(1, 0.0, 20.0, 10.0)),
      right(24, heat_lines::loads(2, 0.0, 20.0, 10.0));
  CHECK_THROWS_AS(march_day(section, wrong, 3600.0), std::invalid_argument);
  CHECK_THROWS_AS(march_day(section, {}, 3600.0), std::invalid_argument);
  CHECK_THROWS_AS(march_day(section, right, 0.0), std::invalid_argument);
  Line lost_cavity = section;
  lost_cavity.glazing.cavities.clear();
  CHECK_THROWS_AS(march_day(lost_cavity, right, 3600.0), std::invalid_argument);
}

TEST_CASE("Blind: the worked table of glass temperatures") {
  // A 6 mm pane, absorptance 0.50, transmittance 0.30, behind it a blind of reflectance 0.5, absorptance 0.4, 50 mm
  // away, 1.5 m high, 783 W/m2 of sun: the pane takes 0.579 of it, the blind 0.126. Worked by an independent program
  // after the ventilated layer of ISO 15099; room face of the glass, C.
  struct Row {
    double outdoor_c, room_c, convection, bare_c, open_c, sealed_c;
  };
  const Row row = GENERATE(Row{32, 24, 15, 43.4, 47.1, 51.6}, Row{0, 20, 12, 23.5, 28.2, 29.5});
  const Line section = line("vinyl", "metal", 0.012, 1, 0.006, 1.5);
  StepLoads loads = heat_lines::loads(1, row.outdoor_c, row.room_c, row.convection);
  const auto glass_c = [&](const RoomShade& shade, double glass, double blind) {
    loads.absorbed[0] = heat_lines::on_faces(783.0 * glass);
    loads.shade_absorbed_w_m2 = 783.0 * blind;
    return steady_center(section.glazing, loads, shade, section.air).face_k[0][1] - heat_lines::zero_c;
  };
  CHECK(glass_c({}, 0.50, 0.0) == Approx(row.bare_c).margin(1.0));
  CHECK(glass_c({1.0, 0.05, 0.9, true}, 0.579, 0.126) == Approx(row.open_c).margin(1.0));
  CHECK(glass_c({1.0, 0.05, 0.9, false}, 0.579, 0.126) == Approx(row.sealed_c).margin(1.0));
}

TEST_CASE("Blind: the more of the pane it covers and the tighter it sits, the hotter the glass in the sun") {
  const Line section = line("vinyl", "metal", 0.012, 2);
  StepLoads loads = heat_lines::loads(2, 30.0, 24.0, 10.0);
  loads.absorbed = {heat_lines::on_faces(150.0), heat_lines::on_faces(300.0)};
  loads.shade_absorbed_w_m2 = 80.0;
  double before = 0.0;
  for (double closure : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const double vented = steady_center(section.glazing, loads, {closure, 0.05, 0.9, true}, section.air).mean_k[1];
    const double tight = steady_center(section.glazing, loads, {closure, 0.05, 0.9, false}, section.air).mean_k[1];
    CHECK(vented > before);
    CHECK(tight >= vented);
    before = vented;
  }
}

TEST_CASE("Blind: the balance settles wherever the day leads it") {
  // A blind's own balance was once settled to 1e-4 K only: the glass then swung by 3e-5 K for good, above the 1e-5 K at
  // which its own balance counts as settled, in about 1 state of 70 000 of a double unit: one year's run in fifteen.
  // Six such states, found by a search; with the tighter balance none in 400 000.
  struct State {
    double history1_k, history2_k, outdoor_k, sun_w_m2, shade_w_m2, weight;
  };
  const State state = GENERATE(
      State{303.87195400428027, 299.87758753122762, 298.55071588195858, 699.14418070111424, 129.81200827285647, 0.5},
      State{296.59552713739686, 300.73714516009204, 298.21790338084099, 662.82258504070342, 116.0477555077523, 0.5},
      State{299.18078106828034, 309.46406519738957, 295.42414283528922, 451.3426813762635, 94.898819588124752, 1.5},
      State{309.10976167186163, 308.94673387869261, 289.15462953373788, 627.87631254177541, 121.93090013228357, 1.5},
      State{295.28868908644654, 309.85103984829038, 288.50750538948921, 738.57281398959458, 123.19695274345577, 1.5},
      State{301.99501334922388, 307.14813204132952, 290.01368282698093, 674.79854270350188, 124.47000824846327, 0.5});
  Line section = line("vinyl", "metal", 0.012, 2, 0.003, 1.5);
  section.glazing.lites.back().emissivity_inner = 0.86;
  StepLoads loads = heat_lines::loads(2, 0.0, 24.0, 10.0);
  loads.outdoor_air_k = state.outdoor_k;
  loads.sky_k = state.outdoor_k - 12.0;
  loads.sky_view = 0.354;
  for (FaceSources& s : loads.absorbed) s = {0.02 * state.sun_w_m2, 0.1 * state.sun_w_m2, 0.05 * state.sun_w_m2};
  loads.shade_absorbed_w_m2 = state.shade_w_m2;
  const double weight = state.weight / 600.0;
  const internal::CenterHistory<double> stored{weight, {weight * state.history1_k, weight * state.history2_k}};
  const internal::LoadsOf<double> of = internal::loads_of(loads);
  internal::CenterOf<double> center{};
  internal::first_guess(section.glazing, of, center);
  CHECK_NOTHROW(internal::settle_center<double>(section.glazing, of, {1.0, 0.05, 0.9, true}, section.air, stored,
                                                {1e-5, 1e-6}, center));
}

TEST_CASE("Edge strip: days side by side come out as each does alone, to the last bit") {
  // Eleven days: a full group and one that is not; blinds, which are worked one by one; a frame so heavy that its days
  // close after different numbers of rounds.
  const std::array<double, 3> absorbed{0.3, 0.25, 0.2};
  for (const char* frame : {"aluminum", "masonry"}) {
    for (std::size_t lites : {1u, 2u, 3u}) {
      CAPTURE(frame, lites);
      Line section = line(frame, "metal", 0.012, lites);
      if (lites == 2) section.shade = {0.7, 0.05, 0.9, true};
      std::vector<std::vector<StepLoads>> days;
      for (int i = 0; i < 11; ++i) {
        const heat_lines::DayShape shape{-12.0 + 4.0 * i, 6.0, 21.0, 10.0, 300.0 + 60.0 * i, 0.6};
        days.push_back(heat_lines::clear_day(shape, std::span(absorbed).first(lites), 144));
      }
      std::vector<LineDay> together;
      march_days(section, days, 600.0, together);
      for (std::size_t i = 0; i < days.size(); ++i) {
        const LineDay alone = march_day(section, days[i], 600.0);
        CHECK(together[i].cell_k == alone.cell_k);
        CHECK(together[i].frame_k == alone.frame_k);
        CHECK(together[i].residual_w_m == alone.residual_w_m);
      }
    }
  }
}

TEST_CASE("Edge strip: a day followed aside from some step goes where its loads lead") {
  const std::array<double, 2> absorbed{0.2, 0.4}, in_shade{0.04, 0.08};
  constexpr std::size_t first = 42;  // the sun rises at six
  const heat_lines::DayShape shape{-8, 7, 21, 10, 900, 0.5};
  const auto lit = heat_lines::clear_day(shape, absorbed, 144), shaded = heat_lines::clear_day(shape, in_shade, 144);
  for (const char* frame : {"vinyl", "aluminum", "wood"}) {
    CAPTURE(frame);
    const Line section = line(frame, "metal", 0.012, 2);
    const std::vector<LineDay> days(1, march_day(section, lit, 600.0));
    const LineDay all_in_shade = march_day(section, shaded, 600.0);
    const auto largest = [&](const LineDay& aside, const LineDay& other) {
      double k = 0.0;
      for (std::size_t step = first; step < lit.size(); ++step)
        for (std::size_t lite = 0; lite < 2; ++lite)
          for (std::size_t cell = 0; cell < aside.depth_m.size(); ++cell)
            k = std::max(k, std::abs(aside.strip(step, lite)[cell] - other.strip(step, lite)[cell]));
      return k;
    };
    std::vector<LineDay> aside;
    const auto go_aside = [&](const std::vector<StepLoads>& loads) {
      const std::vector<StepLoads> rest(loads.begin() + first, loads.end());
      march_aside(section, days, {&rest, 1}, first, 600.0, aside);
    };
    go_aside(lit);
    CHECK(aside[0].tells_of(first));
    CHECK_FALSE(aside[0].tells_of(first - 1));
    CHECK(largest(aside[0], days[0]) < 1e-3);
    // Under the shade's loads: what the day before in the sun has left by then is a few hundredths of a kelvin.
    go_aside(shaded);
    CHECK(largest(aside[0], all_in_shade) < 0.1);
    CHECK(largest(aside[0], days[0]) > 5.0);
    CHECK(internal::largest_residual(aside) < 1e-6);
  }
}
