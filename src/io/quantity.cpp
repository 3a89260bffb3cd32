#include "sunstrain/io/quantity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "decimal.hpp"
#include "say.hpp"

namespace sunstrain {

namespace {

using Kind = JobKey::Kind;

constexpr double meters_per_inch = 0.0254, inches_per_foot = 12.0;
constexpr double kelvin_at_0_c = 273.15, kelvin_per_f = 5.0 / 9.0;
constexpr double rad_per_deg = std::numbers::pi / 180.0;
constexpr double w_m2k_per_btu_h_ft2_f = 1055.05585262 / (3600.0 * 0.3048 * 0.3048 * kelvin_per_f);
constexpr double largest_magnitude = 1e6;  // nothing about a window is larger, in any SI unit used here

// ---- text as phones and word processors write it ---------------------------------------------------

// Plain forms of the marks that keyboards put in by themselves.
constexpr std::array<std::pair<std::string_view, std::string_view>, 21> typed_marks{{
    {"\u201C", "\""},    {"\u201D", "\""},   {"\u2033", "\""},   {"\u2018", "'"},    {"\u2019", "'"},
    {"\u2032", "'"},     {"\u2212", "-"},    {"\u2013", "-"},    {"\u00A0", " "},    {"\u202F", " "},
    {"\u00B0", " deg "}, {"\u2044", "/"},    {"\u00BD", " 1/2"}, {"\u00BC", " 1/4"}, {"\u00BE", " 3/4"},
    {"\u215B", " 1/8"},  {"\u215C", " 3/8"}, {"\u215D", " 5/8"}, {"\u215E", " 7/8"}, {"\u00B2", "2"},
    {"\u00B7", " "},
}};

std::string plain(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const auto mark = std::find_if(typed_marks.begin(), typed_marks.end(),
                                   [&](const auto& m) { return text.substr(0, m.first.size()) == m.first; });
    if (mark != typed_marks.end()) {
      out += mark->second;
      text.remove_prefix(mark->first.size());
    } else {
      const char c = text.front();
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == '\t' ? ' ' : c;
      text.remove_prefix(1);
    }
  }
  const std::size_t first = out.find_first_not_of(' ');
  return first == std::string::npos ? "" : out.substr(first, out.find_last_not_of(' ') - first + 1);
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Reads a text from left to right.
struct Scanner {
  std::string_view rest;

  bool done() const { return rest.empty(); }
  char peek(std::size_t ahead = 0) const { return ahead < rest.size() ? rest[ahead] : '\0'; }
  void spaces() { rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size())); }
  bool take(char c) {
    if (peek() != c) return false;
    rest.remove_prefix(1);
    return true;
  }

  // An unsigned decimal number. from_chars alone would also take "inf", "nan" and a sign.
  std::optional<double> number() {
    if (!is_digit(peek()) && !(peek() == '.' && is_digit(peek(1)))) return std::nullopt;
    double value = 0.0;
    const auto [end, error] = decimal_from_chars(rest.data(), rest.data() + rest.size(), value);
    if (error != std::errc{}) throw BadInput("is too large or too small to be a measurement");
    rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
    return value;
  }
  // Letters, "%" or a quote mark up to the next space, digit or other sign.
  std::string word() {
    if (peek() == '"' || peek() == '\'' || peek() == '%') {
      const std::string sign(1, peek());
      rest.remove_prefix(1);
      return sign;
    }
    std::size_t n = 0;
    while (n < rest.size() && rest[n] >= 'a' && rest[n] <= 'z') ++n;
    const std::string letters(rest.substr(0, n));
    rest.remove_prefix(n);
    return letters;
  }
};

template <std::size_t N>
bool among(std::string_view word, const std::array<std::string_view, N>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

constexpr std::array<std::string_view, 4> inch_words{"in", "inch", "inches", "\""};
constexpr std::array<std::string_view, 4> foot_words{"ft", "foot", "feet", "'"};

[[noreturn]] void refuse(Kind kind, const Saying& problem) {
  throw BadInput(say("{}: write {}", problem, Saying(allowed_forms(kind))));
}

void expect_end(Scanner& in, Kind kind) {
  in.spaces();
  if (!in.done()) refuse(kind, "is not understood");
}

double signed_number(Scanner& in, Kind kind) {
  const bool negative = in.take('-');
  in.spaces();
  const std::optional<double> value = in.number();
  if (!value) refuse(kind, "is not a number");
  in.spaces();
  return negative ? -*value : *value;
}

// ---- lengths ---------------------------------------------------------------------------------------

double whole(Scanner& in, Kind kind) {
  const std::optional<double> value = in.number();
  if (!value || *value != std::floor(*value)) refuse(kind, "is not understood");
  return *value;
}

// "1/4" after its numerator was read; the slash comes next.
double fraction_of(double numerator, Scanner& in, Kind kind) {
  in.take('/');
  const double denominator = whole(in, kind);
  if (numerator != std::floor(numerator) || denominator < 2.0 || denominator > 64.0 || numerator >= denominator) {
    refuse(kind, "holds a fraction of an inch that cannot be");
  }
  return numerator / denominator;
}

// "37", "37.25", "1/4", "37 1/4" or "37-1/4"; `first` is the number already read.
double mixed_number(double first, Scanner& in, Kind kind) {
  if (in.peek() == '/') return fraction_of(first, in, kind);
  Scanner ahead = in;
  ahead.spaces();
  if (ahead.take('-')) ahead.spaces();
  if (!is_digit(ahead.peek())) return first;
  const double numerator = whole(ahead, kind);
  if (ahead.peek() != '/' || first != std::floor(first)) refuse(kind, "is not understood");
  const double part = fraction_of(numerator, ahead, kind);
  in = ahead;
  return first + part;
}

// The inches behind the feet: nothing, or "1 1/4 in" below twelve.
double inches_after_feet(double feet, Scanner& in, Kind kind) {
  in.spaces();
  if (in.take('-')) in.spaces();
  if (in.done()) return 0.0;
  const std::optional<double> first = in.number();
  if (!first || feet != std::floor(feet)) refuse(kind, "is not understood");
  const double inches = mixed_number(*first, in, kind);
  in.spaces();
  if (!among(in.word(), inch_words)) refuse(kind, "has no unit after the inches");
  if (inches >= inches_per_foot) refuse(kind, "has 12 inches or more beside the feet");
  return inches;
}

double length(std::string_view text, Kind kind) {
  Scanner in{text};
  const bool negative = in.take('-');
  in.spaces();
  const std::optional<double> first = in.number();
  if (!first) refuse(kind, "is not a length");
  const double value = mixed_number(*first, in, kind);
  in.spaces();
  if (in.done()) {
    if (value == 0.0) return 0.0;
    refuse(kind, "has no unit");
  }
  const std::string unit = in.word();
  double meters = 0.0;
  if (among(unit, inch_words)) {
    meters = value * meters_per_inch;
  } else if (among(unit, foot_words)) {
    meters = (value * inches_per_foot + inches_after_feet(value, in, kind)) * meters_per_inch;
  } else if (unit == "mm" && value == *first) {
    meters = value / 1000.0;
  } else if (unit == "cm" && value == *first) {
    meters = value / 100.0;
  } else if (unit == "m" && value == *first) {
    meters = value;
  } else {
    refuse(kind, "has a unit that is not known here");
  }
  expect_end(in, kind);
  return negative ? -meters : meters;
}

// ---- the other kinds --------------------------------------------------------------------------------

// "c", "deg c", "celsius" -> 'c'; nothing or anything else -> '\0'.
char temperature_unit(Scanner& in) {
  std::string word = in.word();
  if (word == "deg" || word == "degrees") {
    in.spaces();
    word = in.word();
  }
  if (word == "c" || word == "celsius" || word == "degc") return 'c';
  if (word == "f" || word == "fahrenheit" || word == "degf") return 'f';
  if (word == "k" || word == "kelvin") return 'k';
  return '\0';
}

double temperature(std::string_view text, Kind kind) {
  Scanner in{text};
  const double value = signed_number(in, kind);
  if (in.done()) refuse(kind, "has no unit");
  const char unit = temperature_unit(in);
  if (unit == '\0') refuse(kind, "has a unit that is not known here");
  expect_end(in, kind);
  if (kind == Kind::difference) return unit == 'f' ? value * kelvin_per_f : value;
  const double kelvin = unit == 'c'   ? value + kelvin_at_0_c
                        : unit == 'f' ? (value - 32.0) * kelvin_per_f + kelvin_at_0_c
                                      : value;
  if (kelvin < 0.0) refuse(kind, "is below absolute zero");
  return kelvin;
}

double fraction(std::string_view text) {
  Scanner in{text};
  const double value = signed_number(in, Kind::fraction);
  if (!in.done()) {
    const std::string word = in.word();
    if (word != "%" && word != "percent") refuse(Kind::fraction, "has a unit that is not known here");
    expect_end(in, Kind::fraction);
    return value / 100.0;
  }
  if (value > 100.0) refuse(Kind::fraction, "is more than the whole");
  if (value > 1.0) {
    throw BadInput(say("{0} could mean {1:.6g} or {0}: write \"{0} %\" or {1:.6g}", text, value / 100.0));
  }
  return value;
}

std::optional<double> compass(std::string_view text) {
  constexpr std::array<std::string_view, 16> points{"n", "nne", "ne", "ene", "e", "ese", "se", "sse",
                                                    "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"};
  const auto found = std::find(points.begin(), points.end(), text);
  if (found == points.end()) return std::nullopt;
  return static_cast<double>(found - points.begin()) * 22.5 * rad_per_deg;
}

double angle(std::string_view text) {
  if (const std::optional<double> facing = compass(text)) return *facing;
  Scanner in{text};
  const double degrees = signed_number(in, Kind::angle);
  constexpr std::array<std::string_view, 3> words{"deg", "degree", "degrees"};
  if (!in.done() && !among(in.word(), words)) refuse(Kind::angle, "has a unit that is not known here");
  expect_end(in, Kind::angle);
  return degrees * rad_per_deg;
}

double years(std::string_view text) {
  Scanner in{text};
  const double value = signed_number(in, Kind::years);
  if (in.done()) return value;
  constexpr std::array<std::string_view, 5> year_words{"years", "year", "yrs", "yr", "y"};
  constexpr std::array<std::string_view, 2> month_words{"months", "month"};
  const std::string word = in.word();
  expect_end(in, Kind::years);
  if (among(word, year_words)) return value;
  if (among(word, month_words)) return value / 12.0;
  refuse(Kind::years, "has a unit that is not known here");
}

// "9:30", "14:05", "2 pm", "9.5 h".
double hour_of_day(std::string_view text) {
  Scanner in{text};
  double value = signed_number(in, Kind::hour);
  if (in.take(':')) {
    const bool two_digits = is_digit(in.peek()) && is_digit(in.peek(1)) && !is_digit(in.peek(2)) && in.peek(2) != '.';
    const std::optional<double> minutes = two_digits ? in.number() : std::nullopt;
    if (!minutes || *minutes >= 60.0 || value != std::floor(value)) refuse(Kind::hour, "is no hour of the day");
    value += *minutes / 60.0;
    in.spaces();
  }
  const std::string word = in.word();
  expect_end(in, Kind::hour);
  if (word.empty() || word == "h") return value;
  if (word != "am" && word != "pm") refuse(Kind::hour, "has a unit that is not known here");
  if (value < 1.0 || value >= 13.0) refuse(Kind::hour, "is no hour of the day");
  return std::fmod(value, 12.0) + (word == "pm" ? 12.0 : 0.0);
}

// "W/m2K", "W/(m2 K)", "Btu/h ft2 F": the letters of the unit, without what stands between them.
double u_value(std::string_view text) {
  Scanner in{text};
  const double value = signed_number(in, Kind::u_value);
  if (in.done()) refuse(Kind::u_value, "has no unit");
  std::string unit(in.rest);
  for (const char* filler : {" ", "(", ")", "*", ".", "^", "deg"})
    for (std::size_t at; (at = unit.find(filler)) != std::string::npos;)
      unit.erase(at, std::string_view(filler).size());
  if (unit == "w/m2k") return value;
  if (unit == "btu/hft2f" || unit == "btu/hrft2f") return value * w_m2k_per_btu_h_ft2_f;
  refuse(Kind::u_value, "has a unit that is not known here");
}

double number(std::string_view text) {
  Scanner in{text};
  const double value = signed_number(in, Kind::number);
  expect_end(in, Kind::number);
  return value;
}

double by_kind(Kind kind, std::string_view text) {
  switch (kind) {
    case Kind::length:
    case Kind::thickness:
      return length(text, kind);
    case Kind::temperature:
    case Kind::difference:
      return temperature(text, kind);
    case Kind::fraction:
      return fraction(text);
    case Kind::angle:
      return angle(text);
    case Kind::years:
      return years(text);
    case Kind::u_value:
      return u_value(text);
    case Kind::hour:
      return hour_of_day(text);
    case Kind::number:
      return number(text);
    case Kind::text:
    case Kind::choice:
    case Kind::date:
      break;
  }
  throw std::logic_error("parse_quantity was asked for a kind that holds words");
}

}  // namespace

double parse_quantity(JobKey::Kind kind, std::string_view text) {
  const std::string typed = plain(text);
  if (typed.empty()) refuse(kind, "is empty");
  const double value = by_kind(kind, typed);
  if (!(std::abs(value) <= largest_magnitude)) throw BadInput("is too large to be a measurement");
  return value + 0.0;  // "-0" is 0
}

std::string parse_date(std::string_view text) {
  const std::string typed = plain(text);
  const bool shape = typed.size() == 10 && typed[4] == '-' && typed[7] == '-' &&
                     std::count_if(typed.begin(), typed.end(), is_digit) == 8;
  if (!shape) refuse(Kind::date, "is not a date");
  const int year = std::stoi(typed.substr(0, 4)), month = std::stoi(typed.substr(5, 2)),
            day = std::stoi(typed.substr(8));
  constexpr std::array<int, 12> days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12 || year < 1900) refuse(Kind::date, "is not a date");
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  const int last = days[static_cast<std::size_t>(month - 1)] + (month == 2 && leap ? 1 : 0);
  if (day < 1 || day > last) refuse(Kind::date, "is not a date");
  return typed;
}

std::string allowed_forms(JobKey::Kind kind) {
  switch (kind) {
    case Kind::length:
      return "a length with its unit (mm, cm, m, in, ft), such as 37 1/4 in, 3 ft 1 1/4 in or 0.946 m";
    case Kind::thickness:
      return "a thickness with its unit (mm, cm, m, in), such as 6 mm, 1/4 in or 0.223 in";
    case Kind::temperature:
      return "a temperature with its unit (C, F, K), such as 20 C or 68 F";
    case Kind::difference:
      return "a difference of temperatures with its unit (K, C, F), such as 12 K or 22 F";
    case Kind::fraction:
      return "a fraction 0 to 1 such as 0.45, or a percentage such as \"45 %\"";
    case Kind::angle:
      return "degrees such as 180 or \"180 deg\"";
    case Kind::years:
      return "years such as 12, \"12 years\" or \"8 months\"";
    case Kind::hour:
      return "an hour of the day such as 9:30, 14:05 or 2 pm";
    case Kind::u_value:
      return "a thermal transmittance with its unit, such as 1.3 W/m2K or 0.23 Btu/h ft2 F";
    case Kind::number:
      return "a plain number";
    case Kind::date:
      return "year-month-day such as 2025-02-21";
    case Kind::text:
      return "text in quotes";
    case Kind::choice:
      return "one of its words";
  }
  throw std::logic_error("a kind of job key without a name");
}

}  // namespace sunstrain
