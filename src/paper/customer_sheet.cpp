// For the owner of the pane: what was looked at, the answer in words, what was assumed, what to do and what not. No
// stress and no odds. What to do and what to keep is common practice of the trade, no source.
#include "../report/words.hpp"
#include "parts.hpp"
#include "sunstrain/report/reasons.hpp"

namespace sunstrain::paper {
namespace {

std::string answer_words(Verdict verdict, const Language& l) {
  switch (verdict) {
    case Verdict::go:
      return tell(l, "Nothing was found against this film on this pane in what was looked at.");
    case Verdict::caution:
      return tell(l, "No film goes on yet: what stands below is settled first, or the film's maker is asked.");
    case Verdict::refer:
      return tell(l, "No film goes on as things stand: the maker of the film or of the glass decides about this pane.");
  }
  return {};
}

Html dos(const Language& l) {
  return sentences(
      {tell(l, "Keep blinds and curtains a hand's breadth off the glass, open at the top and at the bottom."),
       tell(l,
            "Keep a shutter or an awning all the way up or all the way down while the sun is on the pane, "
            "never part of the way."),
       tell(l, "Keep furniture, cushions and boxes away from the glass, so that air gets to it."),
       tell(l,
            "Ask us before the room, its heating or its shade changes, and before more film, a sign or paint "
            "goes on."),
       tell(l, "Ask the maker of the window what film does to its warranty, and keep the answer.")});
}

Html do_nots(const Language& l) {
  return sentences(
      {tell(l, "No stickers, posters, paint or signs on the glass."),
       tell(l,
            "No heater, lamp or hot air close to the glass or blowing at it, and no cold air from a unit at "
            "glass that the sun has warmed."),
       tell(l, "No cold water on glass that is hot from the sun."),
       tell(l, "No blade and no scraper on the film or along the edge of the glass.")});
}

Html if_it_cracks(const Language& l) {
  return sentences(
      {tell(l,
            "Keep people away from it and out from under it. Do not touch or tape it; do not take it out by "
            "yourself."),
       tell(l,
            "Write down the day and hour when it was found, the weather of that day and of the night before, "
            "and how the blinds hung."),
       tell(l,
            "Photograph all of it, from both sides, and close up the place at the edge where the crack "
            "begins, with a ruler beside it."),
       tell(l,
            "Do not throw the glass away. Have it taken out with both sides present; mark which face was "
            "inside and which edge was on top; keep the piece where the crack begins with 15 cm (6 in) "
            "around it."),
       tell(l, "Then call us.")});
}

Html looked_at(const Parts& p) {
  Named rows = about(p);
  rows.emplace_back(tell(p.language(), "Size"), text(size_words(p.answer().job, p.units(), p.language())));
  return facts(rows);
}

}  // namespace

Html customer_sheet(const Parts& p) {
  const Language& l = p.language();
  Html all = element("h1", tell(l, "Window film on your pane")) + Html{"\n"};
  all += element("div",
                 element("div", looked_at(p) + verdict_box(p, answer_words(p.answer().verdict, l)), classed("half")) +
                     element("div", pane_figure(p, false), classed("half")),
                 classed("pair"));
  all += section(tell(l, "What was looked at"), entered_in_plain(p));
  all += section(tell(l, "Why"), sentences(plain_reasons_of(p.answer(), p.reference, p.units())));
  all += section(tell(l, "What was assumed"), assumed(p), "assumed");
  all += element("div",
                 element("div", section(tell(l, "Please do"), dos(l)), classed("half")) +
                     element("div", section(tell(l, "Please do not"), do_nots(l)), classed("half")),
                 classed("pair"));
  all += section(tell(l, "If a pane ever cracks"), if_it_cracks(l), "cracks");
  all += section(tell(l, "Shown to"), shown_to(p.papers, l));
  return all + record_line(p.papers, l) + note(p.reference);
}

}  // namespace sunstrain::paper
