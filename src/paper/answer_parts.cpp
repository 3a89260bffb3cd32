// The answer, its figures before and after film, and why it is what it is.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "../report/sealed_text.hpp"
#include "../report/words.hpp"
#include "drawing.hpp"
#include "parts.hpp"
#include "sunstrain/report/reasons.hpp"
#include "sunstrain/report/to_do.hpp"

namespace sunstrain::paper {
namespace {

// The outline of a pane: whole, with a nick in its edge, or with an arrow leaving it.
constexpr std::array<const char*, 3> marks{"M8 8H40V40H8Z", "M8 8H26L29 14L32 8H40V40H8Z",
                                           "M32 8H8V40H40V28M20 28L42 6M30 6H42V18"};

Html mark(Verdict verdict, int size) {
  return {
      fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 48 48\" width=\"{0}\" height=\"{0}\" "
                  "aria-hidden=\"true\"><path d=\"{1}\" fill=\"none\" stroke=\"#111\" stroke-width=\"5\"/></svg>",
                  size, marks.at(static_cast<std::size_t>(verdict)))};
}

Html two(const std::string& before, const std::string& after) {
  return text(before) + Html{" &#8594; "} + element("b", after);
}

std::vector<Html> sheet_row(const Parts& p, std::size_t index) {
  const Language& l = p.language();
  const Units u = p.units();
  const LiteFigures &b = p.answer().lites[index].before, &f = p.answer().lites[index].after;
  // The unit stands over the column.
  const auto stress = [&](double pa) { return report::stress_number(pa, u); };
  const auto warm = [&](double k) { return fmt::format("{:.1f}", shown_warmth(k, u)); };
  const bool governs = index == p.answer().governing_lite;
  return {text(report::sheet_name(l, p.answer(), index) + (governs ? " *" : "")),
          two(report::percent_text(b.absorbed_fraction), report::percent_text(f.absorbed_fraction)),
          two(warm(b.center_k), warm(f.center_k)),
          two(warm(b.edge_k), warm(f.edge_k)),
          two(stress(b.peak_stress_pa), stress(f.peak_stress_pa)),
          two(stress(b.peak_stress_middle_pa), stress(f.peak_stress_middle_pa)),
          text(fmt::format("{} / {}", stress(f.allowable_pa), stress(f.refer_pa))),
          two(share_words(b.stress_ratio), share_words(f.stress_ratio))};
}

Html where_and_odds(const Parts& p) {
  const Language& l = p.language();
  std::vector<Html> rows;
  for (std::size_t i = 0; i < p.answer().lites.size(); ++i) {
    const LiteFigures &b = p.answer().lites[i].before, &f = p.answer().lites[i].after;
    const std::string name = report::sheet_name(l, p.answer(), i);
    rows.push_back(element("b", name + ": ") +
                   text(tell(l, "worst hour, no film: {}; with film: {}", report::moment_text(l, b.when),
                             report::moment_text(l, f.when)) +
                        "; " +
                        tell(l, "peak on the {} edge, {} from its {} end", told(l, report::side_word(f.side)),
                             format_length(f.position_m, p.units()), report::end_word(l, f.side)) +
                        "; " + tell(l, "odds of a break, no film: {}", report::odds_text(l, b.odds)) + "; " +
                        tell(l, "odds of a break, with film: {}", report::odds_text(l, f.odds)) + "."));
  }
  return list(rows, "plain");
}

}  // namespace

Html verdict_line(const Language& language, Verdict verdict) {
  return element("span", mark(verdict, 13) + element("b", " " + report::verdict_capitals(language, verdict)),
                 classed("verdict-line"));
}

Html verdict_box(const Parts& p, const std::string& words) {
  return element("div",
                 element("div", mark(p.answer().verdict, 40), classed("mark")) +
                     element("div",
                             element("p", report::verdict_capitals(p.language(), p.answer().verdict), classed("word")) +
                                 element("p", words)),
                 classed("verdict")) +
         Html{"\n"};
}

Html before_after(const Parts& p) {
  const Language& l = p.language();
  Table t;
  t.caption = tell(l, "Each sheet of glass, without film and then with film; * the one that governs");
  t.kind = "numbers before-after";
  t.heads = {"",
             tell(l, "takes up of the sun"),
             tell(l, "middle, at the peak") + ", " + warmth_unit(p.units()),
             tell(l, "edge, at the peak") + ", " + warmth_unit(p.units()),
             tell(l, "edge stress, bad end") + ", " + stress_unit(p.units()),
             tell(l, "edge stress, middle run") + ", " + stress_unit(p.units()),
             tell(l, "go line / refer line") + ", " + stress_unit(p.units()),
             tell(l, "share of the go line")};
  for (std::size_t i = 0; i < p.answer().lites.size(); ++i) t.rows.push_back(sheet_row(p, i));
  return table(t);
}

Html glazing_table(const Parts& p) {
  const Language& l = p.language();
  const GlazingFigures &b = p.answer().before, &f = p.answer().after;
  const auto both = [](double x, double y) { return two(fmt::format("{:.2f}", x), fmt::format("{:.2f}", y)); };
  const Named rows{{tell(l, "lets through of the sun"), both(b.solar_transmittance, f.solar_transmittance)},
                   {tell(l, "throws back of the sun"), both(b.solar_reflectance, f.solar_reflectance)},
                   {tell(l, "SHGC (summer)"), both(b.shgc, f.shgc)},
                   {tell(l, "U, EN 673 (W/m2K)"), both(b.u_value_w_m2k, f.u_value_w_m2k)}};
  Html all =
      element("div", element("b", tell(l, "The whole glazing") + ": ") + facts(rows, "inline"), classed("glazing"));
  const std::string sealed = report::sealed_text(p.answer(), p.reference, p.units());
  all += where_and_odds(p);
  all += element("p",
                 tell(l,
                      "Odds: on one worst-case day; an upper estimate, not a prediction for this pane. Ordinary "
                      "unfilmed coated units carry as much on every clear winter day and do not break at that rate."),
                 classed("small"));
  if (!sealed.empty()) all += element("p", element("b", tell(l, "Sealed") + ": ") + text(sealed), classed("small"));
  return all;
}

Html why(const Parts& p, bool with_source) {
  const Language& l = p.language();
  std::vector<Html> rows;
  for (const Reason& reason : reasons_of(p.answer(), p.reference, p.units())) {
    if (with_source && reason.kind == "guidance") continue;
    rows.push_back(text(reason.text) + (with_source ? element("small", " [" + reason.source + "]") : Html{}));
  }
  Html all = list(rows);
  const std::vector<std::string> helps = helps_of(p.answer(), p.reference, p.units());
  if (!helps.empty()) all += element("p", element("b", tell(l, "Would help"))) + sentences(helps);
  return all;
}

Html guidance_rules(const Parts& p) {
  const Language& l = p.language();
  Html all = element("p", tell(l, "{}; figures alone: {}.", report::verdict_words(l, p.answer().guidance),
                               report::verdict_words(l, p.answer().figures)));
  std::vector<Html> rows;
  for (const Rule& rule : p.answer().rules)
    rows.push_back(element("b", report::rule_name(l, rule) + ": ") + text(rule.text) +
                   element("small", " [" + rule.source.text + "]"));
  for (const OpenRule& open : p.answer().open_rules)
    rows.push_back(text(report::open_rule_text(open, p.reference, p.units())) +
                   element("small", " [" + open.rule.source.text + "]"));
  return rows.empty() ? all : all + list(rows);
}

Html year_section(const Parts& p) {
  if (!p.answer().weather) return {};
  const Language& l = p.language();
  const WeatherAnswer& w = *p.answer().weather;
  Table t;
  t.caption = tell(l, "The year of {} ({:.0f} h)", w.source, w.hours);
  t.kind = "numbers";
  t.heads = {"", tell(l, "no film"), tell(l, "with film")};
  for (std::size_t i = 0; i < w.after.lites.size(); ++i) {
    const YearLite &b = w.before.lites[i], &f = w.after.lites[i];
    const std::string name = report::sheet_name(l, p.answer(), i);
    t.rows.push_back({text(name + ": " + tell(l, "share of the go line")), text(share_words(b.stress_ratio)),
                      text(share_words(f.stress_ratio))});
    for (std::size_t r = 0; r < year_ratios.size(); ++r)
      t.rows.push_back({text(name + ": " + tell(l, "at {:.2f} of the go line or more", year_ratios[r])),
                        text(fmt::format("{:.0f} h", b.hours[r])), text(fmt::format("{:.0f} h", f.hours[r]))});
  }
  Html all = table(t);
  std::vector<std::string> remarks;
  for (const std::string& remark : w.remarks) remarks.push_back(tell(l, "about the file: {}", remark));
  return remarks.empty() ? all : all + sentences(remarks);
}

}  // namespace sunstrain::paper
