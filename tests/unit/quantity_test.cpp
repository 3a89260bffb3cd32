#include "sunstrain/io/quantity.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

using namespace sunstrain;
using Kind = JobKey::Kind;

namespace {

// What the parser says of a text that it refuses; empty when it takes it.
std::string refusal(Kind kind, const std::string& text) {
  try {
    parse_quantity(kind, text);
  } catch (const BadInput& error) {
    CHECK(std::string(error.what()).find('\n') == std::string::npos);
    return error.what();
  }
  return {};
}

bool says(const std::string& message, const std::string& part) {
  INFO(message);
  CHECK(message.find(part) != std::string::npos);
  return message.find(part) != std::string::npos;
}

double inches(double n) { return n * 0.0254; }  // exact: the international inch

}  // namespace

TEST_CASE("lengths as a tape is read") {
  const auto length = [](const char* text) { return parse_quantity(Kind::length, text); };
  const std::pair<const char*, double> cases[] = {
      {"37 1/4 in", inches(37.25)},
      {"37-1/4\"", inches(37.25)},
      {"37.25 in", inches(37.25)},
      {"37 in", inches(37)},
      {"37in", inches(37)},
      {"37 inches", inches(37)},
      {"1/4 in", inches(0.25)},
      {"15/16\"", inches(0.9375)},
      {"3 ft 1 1/4 in", inches(37.25)},
      {"3' 1 1/4\"", inches(37.25)},
      {"3'1-1/4\"", inches(37.25)},
      {"3'-1 1/4\"", inches(37.25)},
      {"3 ft", inches(36)},
      {"3.5 feet", inches(42)},
      {"6' 0\"", inches(72)},
      {"0.946 m", 0.946},
      {".946 m", 0.946},
      {"87.6 cm", 0.876},
      {"876mm", 0.876},
      {"6 MM", 0.006},
      {"6 Mm", 0.006},
      {" \t 6   mm ", 0.006},
      {"0", 0.0},
      {"-0", 0.0},
      {"0 mm", 0.0},
      {"-430 m", -430.0},
      {"- 1/2 in", inches(-0.5)},
      {"1e-2 m", 0.01},
      {"1.5e+1 m", 15.0},
      {"37 - 1/4 in", inches(37.25)},
  };
  for (const auto& [text, meters] : cases) {
    CAPTURE(text);
    CHECK(length(text) == Approx(meters).epsilon(1e-14).margin(0.0));
  }
  CHECK_FALSE(std::signbit(length("-0")));
}

TEST_CASE("lengths as phones and word processors write them") {
  CHECK(parse_quantity(Kind::length, "3\u2019 1 1/4\u201D") == Approx(inches(37.25)));
  CHECK(parse_quantity(Kind::length, "3\u2032 1\u00BC\u2033") == Approx(inches(37.25)));
  CHECK(parse_quantity(Kind::length, "37\u00BD in") == Approx(inches(37.5)));
  CHECK(parse_quantity(Kind::length, "37\u00A01\u20444 in") == Approx(inches(37.25)));
  CHECK(parse_quantity(Kind::temperature, "\u22124 \u00B0F") == Approx(253.15));
  CHECK(parse_quantity(Kind::angle, "180\u00B0") == Approx(std::numbers::pi));
}

TEST_CASE("a length needs its unit, and the message names the units") {
  for (const char* text : {"37", "37 1/4", "0.946", "1/4", "3 ft 1 1/4", "3' 1", "1e3"}) {
    CAPTURE(text);
    const std::string message = refusal(Kind::length, text);
    CHECK(says(message, "no unit"));
    CHECK(says(message, "mm, cm, m, in, ft"));
  }
}

TEST_CASE("texts that are no length") {
  for (const char* text :
       {"",          " ",          "in",          "mm",        "abc",      "37 1/4 mm", "37.5 1/4 in", "37 5/4 in",
        "37 4/4 in", "37 1/0 in",  "1/1 in",      "1/65 in",   "1.5/4 in", "1/ in",     "/4 in",       "37 1/4/2 in",
        "37 1 in",   "3 ft 12 in", "3.5 ft 1 in", "3 ft 1 mm", "3' 1'",    "1\" 3'",    "37 in in",    "37 in 3",
        "6 mm 2",    "5 yd",       "5 km",        "5 feets",   "0,946 m",  "1 000 mm",  "--3 mm",      "+3 mm",
        "3..5 mm",   "3.5.1 mm",   ". mm",        "0x10 mm",   "6 mm\nx",  "\x01",      "37\"\"",      "''",
        "\"",        "6 m m",      "9e",          "\u0665 mm"}) {
    CAPTURE(text);
    CHECK_FALSE(refusal(Kind::length, text).empty());
  }
}

TEST_CASE("numbers that are no measurement are refused in every kind") {
  for (const Kind kind : {Kind::length, Kind::thickness, Kind::temperature, Kind::difference, Kind::fraction,
                          Kind::angle, Kind::u_value, Kind::years, Kind::number}) {
    const std::string unit = kind == Kind::length || kind == Kind::thickness         ? " m"
                             : kind == Kind::temperature || kind == Kind::difference ? " K"
                             : kind == Kind::fraction                                ? " %"
                             : kind == Kind::u_value                                 ? " W/m2K"
                                                                                     : "";
    for (const char* text : {"nan", "NaN", "inf", "-inf", "Infinity", "1e308", "-1e308", "1e309", "1e99999", "1e-99999",
                             "1e9", "0x1p3", "", "-", ".", "1e", "- -1", "%"}) {
      CAPTURE(text, static_cast<int>(kind));
      CHECK_FALSE(refusal(kind, text + unit).empty());
      CHECK_FALSE(refusal(kind, std::string(400, '9') + unit).empty());
    }
  }
}

TEST_CASE("thermal transmittances") {
  CHECK(parse_quantity(Kind::u_value, "1.3 W/m2K") == 1.3);
  CHECK(parse_quantity(Kind::u_value, "1.3 W/(m\u00B2\u00B7K)") == 1.3);
  CHECK(parse_quantity(Kind::u_value, "1.3 w/m2 k") == 1.3);
  // 1 Btu/(h ft2 F) is 5.678263 W/m2K: NIST Special Publication 811, appendix B (recalled).
  CHECK(parse_quantity(Kind::u_value, "1 Btu/h ft2 F") == Approx(5.678263).epsilon(1e-6));
  CHECK(parse_quantity(Kind::u_value, "0.5 BTU/(hr\u00B7ft\u00B2\u00B7\u00B0F)") == Approx(2.839132).epsilon(1e-6));
  CHECK(says(refusal(Kind::u_value, "1.3"), "no unit"));
  CHECK(says(refusal(Kind::u_value, "1.3 W/mK"), "not known here"));
  CHECK(format_in_unit(Kind::u_value, 1.3, "W/m2K") == "1.3 W/m2K");
}

TEST_CASE("temperatures and their differences") {
  CHECK(parse_quantity(Kind::temperature, "20 C") == Approx(293.15));
  CHECK(parse_quantity(Kind::temperature, "68 F") == Approx(293.15));
  CHECK(parse_quantity(Kind::temperature, "-4F") == Approx(253.15));
  CHECK(parse_quantity(Kind::temperature, "-40 c") == Approx(parse_quantity(Kind::temperature, "-40 f")));
  CHECK(parse_quantity(Kind::temperature, "293 K") == 293.0);
  CHECK(parse_quantity(Kind::temperature, "20 deg C") == Approx(293.15));
  CHECK(parse_quantity(Kind::temperature, "20.5 celsius") == Approx(293.65));
  CHECK(parse_quantity(Kind::difference, "18 F") == Approx(10.0));
  CHECK(parse_quantity(Kind::difference, "10 C") == 10.0);
  CHECK(parse_quantity(Kind::difference, "-2 K") == -2.0);
  CHECK(says(refusal(Kind::temperature, "20"), "no unit"));
  CHECK(says(refusal(Kind::temperature, "-1 K"), "absolute zero"));
  CHECK(says(refusal(Kind::temperature, "-460 F"), "absolute zero"));
  for (const char* text : {"20 R", "C", "20 C C", "20 deg", "1/2 C", "20 CF"}) {
    CAPTURE(text);
    CHECK_FALSE(refusal(Kind::temperature, text).empty());
  }
}

TEST_CASE("a bare percentage is refused with both readings") {
  CHECK(parse_quantity(Kind::fraction, "0.45") == 0.45);
  CHECK(parse_quantity(Kind::fraction, ".45") == 0.45);
  CHECK(parse_quantity(Kind::fraction, "45 %") == 0.45);
  CHECK(parse_quantity(Kind::fraction, "45%") == 0.45);
  CHECK(parse_quantity(Kind::fraction, "45 percent") == 0.45);
  CHECK(parse_quantity(Kind::fraction, "0.5 %") == 0.005);
  CHECK(parse_quantity(Kind::fraction, "1") == 1.0);
  CHECK(parse_quantity(Kind::fraction, "100 %") == 1.0);
  CHECK(refusal(Kind::fraction, "45") == "45 could mean 0.45 or 45: write \"45 %\" or 0.45");
  CHECK(refusal(Kind::fraction, "1.2") == "1.2 could mean 0.012 or 1.2: write \"1.2 %\" or 0.012");
  CHECK(says(refusal(Kind::fraction, "450"), "more than the whole"));
  for (const char* text : {"0,45", "45 % %", "% 45", "45 %o", "0.45 m", "1/2", "about 0.4"}) {
    CAPTURE(text);
    CHECK_FALSE(refusal(Kind::fraction, text).empty());
  }
}

TEST_CASE("angles, years, numbers and dates") {
  using std::numbers::pi;
  CHECK(parse_quantity(Kind::angle, "180") == Approx(pi));
  CHECK(parse_quantity(Kind::angle, "180 deg") == Approx(pi));
  CHECK(parse_quantity(Kind::angle, "-93.1 degrees") == Approx(-93.1 * pi / 180));
  CHECK(parse_quantity(Kind::angle, "N") == 0.0);
  CHECK(parse_quantity(Kind::angle, "se") == Approx(0.75 * pi));
  CHECK(parse_quantity(Kind::angle, "NNW") == Approx(337.5 * pi / 180));
  for (const char* text : {"SW W", "SSS", "3.1 rad", "180 grad", "S 20", "20 S"}) {
    CAPTURE(text);
    CHECK_FALSE(refusal(Kind::angle, text).empty());
  }
  CHECK(parse_quantity(Kind::years, "12 years") == 12.0);
  CHECK(parse_quantity(Kind::years, "12") == 12.0);
  CHECK(parse_quantity(Kind::years, "1 year") == 1.0);
  CHECK(parse_quantity(Kind::years, "8 months") == Approx(2.0 / 3.0));
  CHECK_FALSE(refusal(Kind::years, "12 days").empty());
  CHECK_FALSE(refusal(Kind::years, "since 1998").empty());
  CHECK(parse_quantity(Kind::number, "-6.5") == -6.5);
  CHECK_FALSE(refusal(Kind::number, "6 h").empty());

  CHECK(parse_date("2024-02-29") == "2024-02-29");
  CHECK(parse_date(" 2025-12-31 ") == "2025-12-31");
  for (const char* text : {"", "2025-02-29", "2100-02-29", "2025-13-01", "2025-00-10", "2025-04-31", "2025-1-1",
                           "21/02/2025", "0000-01-01", "2025-02-21T10:00", "-025-02-21", "2025_02_21"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(parse_date(text), BadInput);
  }
}

TEST_CASE("a kind that holds words has no number") {
  CHECK_THROWS_AS(parse_quantity(Kind::text, "5"), std::logic_error);
  CHECK_THROWS_AS(parse_quantity(Kind::choice, "5"), std::logic_error);
  CHECK_THROWS_AS(parse_quantity(Kind::date, "2025-02-21"), std::logic_error);
}

TEST_CASE("lengths are printed to the sixteenth of an inch or the millimeter") {
  CHECK(format_length(inches(37.25), Units::inch) == "37 1/4 in");
  CHECK(format_length(inches(37.0), Units::inch) == "37 in");
  CHECK(format_length(inches(0.0625), Units::inch) == "1/16 in");
  CHECK(format_length(inches(37.96), Units::inch) == "37 15/16 in");
  CHECK(format_length(inches(37.98), Units::inch) == "38 in");  // rounds up into the next inch
  CHECK(format_length(0.0, Units::inch) == "0 in");
  CHECK(format_length(inches(-0.5), Units::inch) == "-1/2 in");
  CHECK(format_length(inches(-0.01), Units::inch) == "0 in");
  CHECK(format_length(0.946, Units::metric) == "946 mm");
  CHECK(format_length(-0.0001, Units::metric) == "0 mm");
  CHECK(format_thickness(0.006, Units::metric) == "6 mm");
  CHECK(format_thickness(0.00566, Units::metric) == "5.66 mm");
  CHECK(format_thickness(0.006, Units::inch) == "0.236 in");
  CHECK(format_temperature(293.15, Units::metric) == "20 C");
  CHECK(format_temperature(293.15, Units::inch) == "68 F");
  CHECK(format_temperature(273.1, Units::metric) == "0 C");
  CHECK(format_difference(18.0, Units::metric) == "18 K");
  CHECK(format_difference(18.0, Units::inch) == "32 F");
  CHECK(format_fraction(0.385) == "38.5 %");
  CHECK(format_fraction(0.45) == "45 %");
  CHECK(format_angle(std::numbers::pi) == "180 deg");
}

TEST_CASE("what is printed can be typed in again") {
  for (int sixteenth = 0; sixteenth <= 16 * 150; ++sixteenth) {
    const double length = inches(sixteenth / 16.0);
    const std::string text = format_length(length, Units::inch);
    CAPTURE(text);
    REQUIRE(parse_quantity(Kind::length, text) == Approx(length).margin(1e-12));
  }
  for (int mm = 0; mm <= 4000; mm += 7) {
    REQUIRE(parse_quantity(Kind::length, format_length(mm / 1000.0, Units::metric)) ==
            Approx(mm / 1000.0).margin(1e-12));
  }
  for (int f = -40; f <= 120; ++f) {
    const double kelvin = (f - 32) / 1.8 + 273.15;
    REQUIRE(parse_quantity(Kind::temperature, format_temperature(kelvin, Units::inch)) == Approx(kelvin));
  }
}

TEST_CASE("a value in the printed unit of its key") {
  CHECK(format_in_unit(Kind::thickness, 0.006, "mm") == "6 mm");
  CHECK(format_in_unit(Kind::length, 12.0, "m") == "12 m");
  CHECK(format_in_unit(Kind::length, inches(1.5), "in") == "1.5 in");
  CHECK(format_in_unit(Kind::temperature, 253.15, "C") == "-20 C");
  CHECK(format_in_unit(Kind::temperature, 253.15, "F") == "-4 F");
  CHECK(format_in_unit(Kind::difference, 10.0, "F") == "18 F");
  CHECK(format_in_unit(Kind::difference, 10.0, "K") == "10 K");
  CHECK(format_in_unit(Kind::fraction, 0.25, "%") == "25 %");
  CHECK(format_in_unit(Kind::fraction, 0.02, "-") == "0.02");
  CHECK(format_in_unit(Kind::number, -6.0, "h") == "-6 h");
  CHECK_THROWS_AS(format_in_unit(Kind::number, 1.0, "furlong"), std::logic_error);
}

TEST_CASE("quantity: hours of the day as a clock and as people have them") {
  const auto hour = [](const char* text) { return parse_quantity(Kind::hour, text); };
  CHECK(hour("9:30") == 9.5);
  CHECK(hour("14:05") == Approx(14.0 + 5.0 / 60.0));
  CHECK(hour("9.5 h") == 9.5);
  CHECK(hour("7") == 7.0);
  CHECK(hour("2 pm") == 14.0);
  CHECK(hour("2:30PM") == 14.5);
  CHECK(hour("12 am") == 0.0);
  CHECK(hour("12:15 am") == 0.25);
  CHECK(hour("12 pm") == 12.0);
  for (const char* text : {"9:60", "9:5", "9:305", "9.5:30", "9:", "14 pm", "0 am", "9:30:15", "9:30.5"})
    CHECK(says(refusal(Kind::hour, text), "2 pm"));
  CHECK(says(refusal(Kind::hour, "9 o'clock"), "2 pm"));
  CHECK(says(refusal(Kind::hour, "noon"), "not a number"));
  CHECK(format_hour(9.5) == "9:30");
  CHECK(format_hour(0.0) == "0:00");
}
