// What people typed beside the job, and lines to write on where they typed nothing.
#include <fmt/format.h>

#include "../report/words.hpp"
#include "parts.hpp"
#include "sunstrain/report/safety_note.hpp"

namespace sunstrain::paper {
namespace {

std::string joined_by(const std::vector<std::string>& parts, const char* between) {
  std::string all;
  for (const std::string& part : parts)
    if (!part.empty()) all += (all.empty() ? "" : between) + part;
  return all;
}

// What was typed, or a line to write on.
Html told_or_blank(const std::string& name, const std::string& value) {
  if (value.empty()) return blanks({name});
  return element("p", element("b", name + ": ") + typed(value), classed("told"));
}

Html photo_words(const Photo& photo, const Language& language) {
  return typed(photo.name) + text(tell(language, " ({} bytes), SHA-256 ", photo.bytes)) + element("code", photo.sha256);
}

Html one_on_site(const OnSite& seen, const Language& l) {
  Html all =
      told_or_blank(tell(l, "Condition of the edges"), seen.edges) + told_or_blank(tell(l, "Damage"), seen.damage);
  if (!seen.notes.empty()) all += told_or_blank(tell(l, "Notes"), seen.notes);
  if (seen.photos.empty()) return all + blanks({tell(l, "Photos, by name")});
  std::vector<Html> rows;
  for (const Photo& photo : seen.photos) rows.push_back(photo_words(photo, l));
  return all + element("p", element("b", tell(l, "Photos"))) + list(rows, "photos");
}

}  // namespace

std::string made_by_words(const Papers& papers) {
  return joined_by({papers.made_by, papers.company, papers.contact}, ", ");
}

Html on_site(const Parts& p) {
  const std::string name = word_of(p.answer().job, "job.name").value_or("");
  Html all;
  for (const OnSite& seen : p.papers.on_site)
    if (seen.pane.empty() || seen.pane == name) all += one_on_site(seen, p.language());
  return all.empty() ? one_on_site({}, p.language()) : all;
}

Html consulted(const Parts& p) {
  const Language& l = p.language();
  Table t;
  t.kind = "lines";
  t.row_heads = false;
  t.heads = {tell(l, "whose"), tell(l, "reference"), tell(l, "edition"), tell(l, "date"), tell(l, "answer")};
  for (const Consulted& one : p.papers.guidance)
    t.rows.push_back({typed(one.whose), typed(one.reference), typed(one.edition), typed(one.date), typed(one.answer)});
  if (t.rows.empty()) t.rows.assign(2, std::vector<Html>(5, Html{"&#160;"}));
  return table(t);
}

Html covers(const Parts& p) {
  const Language& l = p.language();
  if (p.papers.covers.empty()) return blanks({tell(l, "Whose, reference, edition, date"), tell(l, "Terms"), ""});
  Html all;
  for (const Cover& cover : p.papers.covers) {
    const std::string of = joined_by({cover.of, cover.reference, cover.edition, cover.date}, ", ");
    const Html head = of.empty() ? Html{} : element("b", typed(of)) + Html{" "};
    all += element("p", head + typed(cover.terms), classed("told"));
  }
  return all;
}

Html shown_to(const Papers& papers, const Language& l) {
  Table t;
  t.kind = "lines signatures";
  t.row_heads = false;
  t.heads = {tell(l, "shown to"), tell(l, "date"), tell(l, "signature")};
  for (const std::string& name : papers.shown_to) t.rows.push_back({typed(name), Html{"&#160;"}, Html{"&#160;"}});
  while (t.rows.size() < 2) t.rows.push_back(std::vector<Html>(3, Html{"&#160;"}));
  return table(t) +
         element("p", tell(l, "Signed means: this sheet was shown to me and gone through with me. It means no more."),
                 classed("small"));
}

Html record_line(const Papers& papers, const Language& l) {
  if (papers.record_head.empty()) return {};
  const Html entries =
      papers.record_entries.empty() ? Html{} : text(tell(l, ", entries: ")) + typed(papers.record_entries);
  return element(
      "p", element("b", tell(l, "Head of the record") + ": ") + element("code", typed(papers.record_head)) + entries,
      classed("small"));
}

Html versions(const Parts& p) {
  const Language& l = p.language();
  std::string words =
      tell(l, "sunstrain {}. {}. Times are local standard time.", SUNSTRAIN_VERSION, report::tables_words(p.reference));
  words += " " + tell(l,
                      "Where the equations and figures come from: reference/theory.md and the tables of reference/, "
                      "every row with its source; what they do not cover: reference/limits.md.");
  words += " " + tell(l, "The html file of this sheet is the record; a PDF is a print of it.");
  return element("p", words, classed("small")) + record_line(p.papers, l);
}

Html note(const Reference& reference) {
  return element("p", element("b", tell(reference.language, "Note") + ": ") + text(safety_note(reference)),
                 classed("note"));
}

}  // namespace sunstrain::paper
