// Internal: figures and names as a person reads them, and the wrapping of lines.
#pragma once

#include <string>
#include <string_view>

#include "../io/tell.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/io/quantity.hpp"

namespace sunstrain::report {

std::string verdict_word(Verdict verdict);                                        // "go", of JSON and tables
std::string verdict_words(const Language& language, Verdict verdict);             // the same as a reader is told it
std::string verdict_capitals(const Language& language, Verdict verdict);          // "GO"
std::string verdict_mark(const Language& language, Verdict verdict, bool color);  // " GO [  ] ", on its color or plain
std::size_t verdict_mark_width(const Language& language);                         // columns of the widest mark
std::string stress_text(double stress_pa, Units units);                           // "14.6 MPa", "2120 psi"
std::string stress_number(double stress_pa, Units units);                         // "14.6", "2120"
std::string stress_unit(Units units);                                             // "MPa", "psi"
double shown_stress(double stress_pa, Units units);                               // in that unit
double shown_warmth(double kelvin, Units units);                                  // in C or F
std::string percent_text(double fraction);                                        // "39 %"
std::string month_word(const Language& language, int month);                      // "January"
std::string moment_text(const Language& language, const Moment& moment);          // "cold clear January, 11:35"
// "the pane", "outer lite", "inner lite"
std::string lite_name(const Language& language, std::size_t lite, std::size_t lites);
// The same of a.lites, or "inner lite, outer ply".
std::string sheet_name(const Language& language, const Assessment& a, std::size_t index);
std::string side_word(Side side);                           // "bottom", of JSON
std::string end_word(const Language& language, Side side);  // where positions along it begin: "left", "lower"
std::string key_words(const Language& language, std::string_view key);  // "lite.2.coating" -> "lite 2 coating"
std::string odds_text(const Language& language, double probability);    // "1 in 800", "under 1 in a million"
std::string odds_text(const Language& language, const Odds& odds);      // "1 in 800 to 1 in 90"
std::string warmth_text(double kelvin, int digits, Units units);        // "40 C", "104 F"
std::string rule_name(const Language& language, const Rule& rule);      // "C3", "your rule Q1"
std::string rule_words(const Language& language, const Rule& rule);     // "rule C3", "your rule Q1"
std::string tables_words(const Reference& reference);                   // "Tables 0f3a...", and the user's own rules
std::string value_text(const Reference& reference, const std::string& key, const Value& value, Units units);
// The rules that spoke about an answer and those that an unknown leaves open beside them; ids, the user's own apart.
struct RuleIds {
  std::vector<std::string> built_in, own;
};
RuleIds rule_ids(const std::vector<Rule>& fired, const std::vector<OpenRule>& open);
// "5 mm to 7 mm", "none or low-e-soft": of a key that is known in part.
std::string value_text(const Reference& reference, const std::string& key, const PartlyKnown& known, Units units);
// A rule that hangs on what is open: "if lite 1 kind is wired, W2: ..."
std::string open_rule_text(const OpenRule& open, const Reference& reference, Units units);

// A change of the ratio per SI unit of a key, in steps that a person would take: "+0.024 per 1 %".
std::string slope_text(const Language& language, const JobKey& key, double slope, Units units);

// Label on the left, two figures in columns on the right; a label too long for that has a line of its own.
inline constexpr int label_columns = 11;  // that an answer's labels take
std::string figure_row(const std::string& label, const std::string& before, const std::string& after, int width);

// A name from column `margin` on, where the caller stands, and figures at the right edge; a name too long for that has
// lines of its own before them.
std::string named_row(const std::string& name, std::size_t margin, const std::string& figures, int width);

// Text in lines of at most `width` columns; the first begins with `label` set in a column of `indent`, the others
// with `indent` blanks.
std::string labeled(std::string_view label, std::string_view text, int indent, int width);
// Columns that a UTF-8 text takes (one a code point; the texts use no wide ones).
std::size_t columns(std::string_view text);

}  // namespace sunstrain::report
