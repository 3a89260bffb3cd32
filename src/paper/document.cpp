// The document, and the first page of one with several panes.
#include <fmt/format.h>

#include <array>

#include "../report/type_answer.hpp"
#include "../report/words.hpp"
#include "parts.hpp"
#include "sunstrain/report/reasons.hpp"

namespace sunstrain {
namespace {

using namespace paper;

const char* purpose_word(Purpose purpose) {
  return purpose == Purpose::customer ? "customer" : purpose == Purpose::file ? "file" : "maker";
}

// How small a sheet is set, so that it stays on its one page, or the file's on two: by the letters on it against those
// that go there at the usual size of print.
std::string set_as(const Html& sheet, const SheetStyle& style) {
  constexpr double letter_share = 0.93, far_more = 1.22;
  const double at_usual = style.purpose == Purpose::customer ? 3500.0
                          : style.purpose == Purpose::file   ? 8000.0
                                                             : 3300.0;
  const double most = at_usual * (style.size == PaperSize::letter ? letter_share : 1.0);
  const auto letters = static_cast<double>(visible_letters(sheet));
  return letters > far_more * most ? " dense smallest" : letters > most ? " dense" : "";
}

std::string heading(Purpose purpose, const Language& l) {
  switch (purpose) {
    case Purpose::customer:
      return tell(l, "Window film on your panes");
    case Purpose::file:
      return tell(l, "Window film on these panes: for the file");
    case Purpose::maker:
      return tell(l, "Questions to the maker of the film or of the glass");
  }
  return {};
}

Html lines_table(const std::vector<SheetLine>& lines, const Language& l, bool with_figures) {
  Table t;
  t.kind = "panes";
  t.heads = {tell(l, "Pane"), tell(l, "How many"), tell(l, "Size"), tell(l, "Answer")};
  if (with_figures) t.heads.push_back(tell(l, "Share"));
  t.heads.push_back(tell(l, "Why"));
  for (const SheetLine& line : lines) {
    std::vector<Html> cells{typed(line.label), text(fmt::format("{:.0f}", line.quantity)), text(line.size),
                            verdict_line(l, line.verdict)};
    if (with_figures) cells.push_back(text(share_words(line.ratio)));
    cells.push_back(text(line.reason));
    t.rows.push_back(std::move(cells));
  }
  return table(t);
}

Html by_verdict(const std::vector<SheetLine>& lines, const Language& l) {
  Table t;
  t.kind = "panes totals";
  t.heads = {tell(l, "Answer"), tell(l, "types"), tell(l, "How many")};
  for (const Verdict verdict : {Verdict::go, Verdict::caution, Verdict::refer}) {
    std::size_t types = 0;
    double panes = 0.0;
    for (const SheetLine& line : lines)
      if (line.verdict == verdict) {
        ++types;
        panes += line.quantity;
      }
    t.rows.push_back({verdict_line(l, verdict), text(fmt::format("{}", types)), text(fmt::format("{:.0f}", panes))});
  }
  return table(t);
}

}  // namespace

std::string pane_sheet(const SheetPane& pane, const Papers& papers, const Reference& reference,
                       const SheetStyle& style) {
  const Parts parts{pane, papers, reference, style};
  const Html sheet = style.purpose == Purpose::customer ? customer_sheet(parts)
                     : style.purpose == Purpose::file   ? file_sheet(parts)
                                                        : maker_sheet(parts);
  return element("article", sheet, classed(purpose_word(style.purpose) + set_as(sheet, style))).code + "\n";
}

SheetLine sheet_line(const SheetPane& pane, const Reference& reference, const SheetStyle& style) {
  const Assessment& a = pane.answer;
  const std::string reason = style.purpose == Purpose::customer ? plain_reasons_of(a, reference, style.units).front()
                                                                : reasons_of(a, reference, style.units).front().text;
  return {pane_name(pane, reference.language),
          size_words(a.job, style.units, reference.language),
          reason,
          pane.quantity,
          a.verdict,
          a.stress_ratio};
}

std::string summary_sheet(const std::string& title, const std::vector<SheetLine>& lines,
                          const std::vector<UnansweredRow>& unanswered, const std::vector<std::string>& totals,
                          const Papers& papers, const Reference& reference, const SheetStyle& style) {
  const Language& l = reference.language;
  Named rows{{tell(l, "Panes of"), typed(title)}};
  add_typed(rows, tell(l, "Customer"), papers.customer);
  add_typed(rows, tell(l, "Address"), papers.address);
  add_typed(rows, tell(l, "Made by"), made_by_words(papers));
  add_typed(rows, tell(l, "Date of this sheet"), style.date);
  Html all = element("h1", heading(style.purpose, l)) + Html{"\n"};
  all += element("div",
                 element("div", facts(rows), classed("half")) + element("div", by_verdict(lines, l), classed("half")),
                 classed("pair"));
  all += section(tell(l, "Every pane"), lines_table(lines, l, style.purpose != Purpose::customer));
  if (!unanswered.empty()) {
    std::vector<Html> items;
    for (const UnansweredRow& row : unanswered)
      items.push_back(element("b", typed(row.label)) + text(": ") + text(row.why));
    all += section(tell(l, "No answer"), list(items));
  }
  if (style.purpose == Purpose::file && !totals.empty()) all += section(tell(l, "The whole"), sentences(totals));
  if (style.purpose != Purpose::maker) all += section(tell(l, "Shown to"), shown_to(papers, l));
  return element("article", all + note(reference), classed(fmt::format("summary {}", purpose_word(style.purpose))))
             .code +
         "\n";
}

std::string sheet_document(const std::string& title, const std::vector<std::string>& sheets, const Reference& reference,
                           const SheetStyle& style) {
  std::string code = fmt::format(
      "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n"
      "<style>\n{}</style>\n</head>\n<body>\n<main>\n",
      reference.language.code, escaped(title), style_sheet(style.size, reference.language));
  for (const std::string& sheet : sheets) code += sheet;
  return code + "</main>\n</body>\n</html>\n";
}

}  // namespace sunstrain
