// Paper: one self-contained html document for the owner of a pane, for the file, or for the desk of a maker. It fetches
// nothing and runs nothing; every text that a user typed stands in it as text.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/paper/papers.hpp"
#include "sunstrain/worst_hour.hpp"

namespace sunstrain {

enum class Purpose { customer, file, maker };
enum class PaperSize { a4, letter };

struct SheetStyle {
  Purpose purpose = Purpose::customer;
  Units units = Units::metric;
  PaperSize size = PaperSize::a4;
  std::string date;  // of the sheet, as it is to stand there
};

// A pane and its answer.
struct SheetPane {
  std::string label;  // "line 7, classroom"; empty for a pane alone
  double quantity = 1.0;
  Assessment answer;  // as assess() returned it
  WorstHour hour;     // worst_hour() of it, map_fields either way
};

// Fields of SheetPane::hour's map, along and across: as many as the pictures draw.
inline constexpr std::size_t map_fields = 73;

// A row of a schedule that has no answer, and why.
struct UnansweredRow {
  std::string label, why;
};

// A pane's sheet, to be put into a document: text of it depends on nothing but its arguments, so that many can be made
// at once. One or two pages.
std::string pane_sheet(const SheetPane& pane, const Papers& papers, const Reference& reference,
                       const SheetStyle& style);

// What the first page says of a pane among several.
struct SheetLine {
  std::string label, size, reason;
  double quantity = 1.0;
  Verdict verdict = Verdict::go;
  double ratio = 0.0;
};
SheetLine sheet_line(const SheetPane& pane, const Reference& reference, const SheetStyle& style);

// The first page of a document of several panes. `totals`: what a schedule's summary says of the whole (file alone).
std::string summary_sheet(const std::string& title, const std::vector<SheetLine>& lines,
                          const std::vector<UnansweredRow>& unanswered, const std::vector<std::string>& totals,
                          const Papers& papers, const Reference& reference, const SheetStyle& style);

// The document of the sheets, in their order. `title` is its name, of one pane or of the whole.
std::string sheet_document(const std::string& title, const std::vector<std::string>& sheets, const Reference& reference,
                           const SheetStyle& style);

}  // namespace sunstrain
