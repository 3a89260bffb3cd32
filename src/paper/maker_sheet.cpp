// For the desk of the film's or the glass's maker: what it takes to answer a question about this pane, and room for the
// answer.
#include "../report/words.hpp"
#include "parts.hpp"
#include "sunstrain/report/to_do.hpp"

namespace sunstrain::paper {

Html maker_sheet(const Parts& p) {
  const Language& l = p.language();
  Html all = element("h1", tell(l, "Question to the maker of the film or of the glass")) + Html{"\n"};
  all += element("p", tell(l, "May this film go on this pane? Please answer for the pane as it is described here."),
                 classed("lead"));
  all += element(
      "div",
      element("div",
              section(tell(l, "Which pane"), facts(about(p)) + verdict_box(p, to_do(p.answer(), p.reference, false))),
              classed("third")) +
          element("div", pane_figure(p, true), classed("third")) + element("div", section_figure(p), classed("third")),
      classed("pair"));
  all += section(tell(l, "What is known"), entered(p));
  all += section(tell(l, "What is not known"), not_known_briefly(p), "unknown");
  all += section(tell(l, "What was worked out"), before_after(p) + why(p, false));
  if (!p.papers.guidance.empty()) all += section(tell(l, "Makers' guidance consulted"), consulted(p));
  all += section(tell(l, "The maker's answer"),
                 blanks({tell(l, "Yes / no / on these conditions"), "", ""}) +
                     element("div",
                             element("div", blanks({tell(l, "Name"), tell(l, "Company")}), classed("half")) +
                                 element("div", blanks({tell(l, "Date"), tell(l, "Your reference")}), classed("half")),
                             classed("pair")),
                 "answer");
  return all + note(p.reference);
}

}  // namespace sunstrain::paper
