// Internal: what every part of a sheet is made from, and the words and figures that several parts use.
#pragma once

#include <string>

#include "../io/tell.hpp"
#include "../report/words.hpp"
#include "html.hpp"
#include "sunstrain/paper/sheet.hpp"

namespace sunstrain::paper {

using report::shown_stress, report::shown_warmth, report::stress_unit;

struct Parts {
  const SheetPane& pane;
  const Papers& papers;
  const Reference& reference;
  const SheetStyle& style;

  const Assessment& answer() const { return pane.answer; }
  const WorstHour& hour() const { return pane.hour; }
  const Language& language() const { return reference.language; }
  Units units() const { return style.units; }
  const LiteFigures& worst() const { return answer().lites[answer().governing_lite].after; }
};

std::string warmth_unit(Units units);                                            // "°C"
std::string warmth_words(double kelvin, int digits, Units);                      // "40.2 °C"
std::string share_words(double ratio);                                           // "1.05"
void add_typed(Named& rows, const std::string& name, const std::string& value);  // nothing where nothing was typed

// "stair window, Tallow Lane pottery", or what else tells the pane.
std::string pane_name(const SheetPane& pane, const Language& language);
std::string size_words(const Job& job, Units units, const Language& language);  // "946 mm wide, 1575 mm high"

// ---- pictures, each with its caption ------------------------------------------------------------------------------

// The pane to scale, seen from outdoors, with its shadow in the worst hour; with_stress: and where it is stretched
// most.
Html pane_figure(const Parts& parts, bool with_stress);
// What the pane is made of, cut through above its sill.
Html section_figure(const Parts& parts);
Html warmth_figure(const Parts& parts);
Html edge_figure(const Parts& parts);
Html day_figure(const Parts& parts);
// The same in figures.
Html warmth_table(const Parts& parts);
Html edge_table(const Parts& parts);
Html day_table(const Parts& parts);

// ---- sections -------------------------------------------------------------------------------------------------------

Html verdict_box(const Parts& parts, const std::string& words);
Html verdict_line(const Language& language, Verdict verdict);  // the mark and the word, in a line
Html before_after(const Parts& parts);
Html glazing_table(const Parts& parts);
Html year_section(const Parts& parts);       // of a weather file; empty without one
Html entered(const Parts& parts);            // what was entered, key by key
Html entered_in_plain(const Parts& parts);   // the same without a film's sheet and a place's weather
Html not_known(const Parts& parts);          // every unknown and how it was taken
Html not_known_briefly(const Parts& parts);  // the same, run on
Html assumed(const Parts& parts);            // the same in a few sentences
// with_source: with where each comes from, and without what the section of rules says anyway.
Html why(const Parts& parts, bool with_source);
Html guidance_rules(const Parts& parts);
std::string made_by_words(const Papers& papers);  // who, of which company, where
Html on_site(const Parts& parts);
Html consulted(const Parts& parts);
Html covers(const Parts& parts);
Html shown_to(const Papers& papers, const Language& language);
// What sunstrain record printed, to hold the record against later; empty where nobody typed it.
Html record_line(const Papers& papers, const Language& language);
Html versions(const Parts& parts);
Html note(const Reference& reference);
// "What it is about": pane, customer, date and so on, as far as they are known.
Named about(const Parts& parts);

// ---- the three sheets -----------------------------------------------------------------------------------------------

Html customer_sheet(const Parts& parts);
Html file_sheet(const Parts& parts);
Html maker_sheet(const Parts& parts);

std::string style_sheet(PaperSize size, const Language& language);

}  // namespace sunstrain::paper
