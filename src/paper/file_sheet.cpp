// For the file: everything that was entered, taken, worked out, seen, read and shown.
#include "parts.hpp"
#include "sunstrain/report/to_do.hpp"

namespace sunstrain::paper {
namespace {

Html pair(const Html& a, const Html& b) {
  return element("div", element("div", a, classed("half")) + element("div", b, classed("half")), classed("pair")) +
         Html{"\n"};
}

Html lot(const Parts& p) {
  const Language& l = p.language();
  return p.papers.film_lot.empty()
             ? blanks({tell(l, "Lot or roll")})
             : element("p", element("b", tell(l, "Lot or roll") + ": ") + typed(p.papers.film_lot), classed("told"));
}

}  // namespace

Html file_sheet(const Parts& p) {
  const Language& l = p.language();
  Html all = element("h1", tell(l, "Window film on a pane: for the file")) + Html{"\n"};
  all += element(
      "div",
      element("div", facts(about(p)) + verdict_box(p, to_do(p.answer(), p.reference, true)), classed("third")) +
          element("div", pane_figure(p, true), classed("third")) + element("div", section_figure(p), classed("third")),
      classed("pair"));
  all += section(tell(l, "What was entered"), entered(p));
  all += section(tell(l, "Before and after film"), before_after(p) + glazing_table(p) + year_section(p));
  all += section(tell(l, "Why"), why(p, true));
  all += section(tell(l, "Guidance of the trade"), guidance_rules(p), "rules");
  all += section(tell(l, "Not known, and how it was taken"), not_known(p), "unknown");
  all += section(
      tell(l, "The worst hour"),
      pair(warmth_figure(p), edge_figure(p)) + pair(day_figure(p), warmth_table(p) + edge_table(p)) + day_table(p),
      "together");
  all += pair(
      section(tell(l, "Seen on site"), on_site(p)),
      section(tell(l, "The film that goes on"), lot(p)) + section(tell(l, "Terms of the cover in force"), covers(p)));
  all += section(tell(l, "Makers' guidance consulted"), consulted(p));
  all += section(tell(l, "Shown to"), shown_to(p.papers, l));
  return all + versions(p) + note(p.reference);
}

}  // namespace sunstrain::paper
