// sunstrain report: sheets on paper.
#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ctime>
#include <filesystem>
#include <optional>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "../io/tell.hpp"
#include "attached.hpp"
#include "command.hpp"
#include "ctrl_c.hpp"
#include "own_rules.hpp"
#include "pdf.hpp"
#include "report_panes.hpp"
#include "row_files.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/record/entry.hpp"
#include "table_in.hpp"

namespace sunstrain::cli {
namespace {

po::options_description options() {
  const auto text = [](const char* name) { return po::value<std::string>()->value_name(name); };
  po::options_description all("Options");
  all.add_options()("for", text("customer|file|maker"), "whom the sheet is for")(
      "output,o", text("FILE"), "FILE.html or FILE.pdf; html on standard output when left out")(
      "papers", text("PAPERS.toml"),
      "what goes on paper beside the job: customer, lot, what was seen, guidance, cover; what it leaves out can be "
      "filled in by hand")("date", text("YYYY-MM-DD"), "of the sheet; today when left out")(
      "paper", text("a4|letter"), "a4 when left out")("units", text("metric|inch"), "metric when left out")(
      "set", po::value<Texts>()->value_name("KEY=VALUE")->composing(), "over the file; repeat it")(
      "defaults", text("JOB.toml"), "beside a schedule: keys for every row which leaves them blank");
  add_rules_option(all);
  add_threads_option(all, worded("rows of a schedule worked at once; all cores when left out"));
  all.add_options()("help", "this page");
  return all;
}

Purpose purpose_of(const po::variables_map& given) {
  const std::string word = word_among(given, "for", {"customer", "file", "maker"}, "");
  if (word.empty()) throw BadInput("report: say whom it is for: --for customer, --for file or --for maker");
  return word == "customer" ? Purpose::customer : word == "file" ? Purpose::file : Purpose::maker;
}

std::string date_of(const po::variables_map& given) {
  const std::optional<std::string> day = day_given(given, "date");
  return day ? *day : fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
}

SheetStyle style_of(const po::variables_map& given) {
  const bool letter = word_among(given, "paper", {"a4", "letter"}, "a4") == "letter";
  return {purpose_of(given), units_of(given), letter ? PaperSize::letter : PaperSize::a4, date_of(given)};
}

// Whether the file is to be a PDF. Throws BadInput for another name than FILE.html and FILE.pdf.
bool wants_pdf(const po::variables_map& given) {
  if (given.count("output") == 0) return false;
  const std::string path = text_of(given, "output", "");
  if (path.empty()) throw BadInput("--output: names no file");
  const std::string name = lower_case(path);
  if (name.ends_with(".pdf")) return true;
  if (name.ends_with(".html") || name.ends_with(".htm")) return false;
  throw BadInput(say("--output = {}: allowed: FILE.html, FILE.pdf", sunstrain::quoted(path)));
}

Papers papers_of(const po::variables_map& given) {
  if (given.count("papers") == 0) return {};
  const std::string path = text_of(given, "papers", "");
  const std::string source = shown(path, longest_path);
  Papers papers = read_papers_toml(read_text_file(path), source);
  const std::filesystem::path beside = std::filesystem::path(path).parent_path();
  for (OnSite& seen : papers.on_site)
    for (Photo& photo : seen.photos) {
      const Attached file = read_attached((beside / photo.path).string(),
                                          say("{}, on_site: photos {}", source, sunstrain::quoted(photo.path)));
      photo.name = file.name;
      photo.bytes = file.bytes.size();
      photo.sha256 = record::sha256_hex(file.bytes);
    }
  return papers;
}

// What was seen on site is about a pane that is there.
void require_panes_named(const Papers& papers, const std::vector<std::string>& names) {
  for (const OnSite& seen : papers.on_site) {
    if (seen.pane.empty() || std::find(names.begin(), names.end(), seen.pane) != names.end()) continue;
    throw BadInput(say("--papers: on_site: pane = {}: no pane has this name (job.name){}", sunstrain::quoted(seen.pane),
                       nearest_hint(seen.pane, names)));
  }
}

std::string document_of(ReportPanes& panes, const Papers& papers, const Reference& reference, const SheetStyle& style) {
  if (panes.several)
    panes.sheets.insert(panes.sheets.begin(), summary_sheet(panes.title, panes.lines, panes.unanswered, panes.totals,
                                                            papers, reference, style));
  return sheet_document(panes.title, panes.sheets, reference, style);
}

std::string unanswered_text(const ReportPanes& panes, const Language& language) {
  std::string text;
  for (const UnansweredRow& row : panes.unanswered)
    text += tell(language, "No answer: {}: {}", shown(row.label), row.why) + "\n";
  return text;
}

// As PDF; nothing at Ctrl-C, which ends the renderer.
std::optional<std::string> printed(const std::string& html) {
  const CtrlC stop;
  try {
    return pdf_of(html);
  } catch (const std::runtime_error&) {
    if (stop.pressed()) return std::nullopt;
    throw;
  }
}

}  // namespace

std::string report_help(const Language& language) {
  return tell(language,
              "sunstrain report JOB.toml ... --for WHOM [options]: sheets on paper\n"
              "\n"
              "  sunstrain report stair.toml --for customer -o stair.html\n"
              "  sunstrain report stair.toml --for maker --paper letter -o stair.pdf\n"
              "  sunstrain report panes.csv --defaults site.toml --for file -o school.html\n"
              "\n"
              "customer: what was looked at, the answer in words, what was assumed, what to do\n"
              "and not to do. file: everything, with pictures, figures, sources and lines to\n"
              "fill in. maker: one page with what a maker's desk needs, and room for an answer.\n"
              "Several jobs, or a schedule (.csv, .tsv), make one document, a summary first.\n"
              "\n"
              "What people type by hand stands in a file of its own (--papers);\n"
              "examples/stair-papers.toml shows all of it.\n"
              "\n"
              "The html is one file that fetches nothing; it is the record. A PDF is a print of\n"
              "it, made by WeasyPrint (Debian: weasyprint), which nothing else needs.\n"
              "\n") +
         option_list(options(), language) +
         tell(language,
              "\nExit codes: 0 it was written; 2 bad input, or a row of a schedule has no answer\n(the document says "
              "so); 3 a fault of the program; 130 stopped by Ctrl-C, nothing\nwritten.\n");
}

Outcome report(const Words& words) {
  const po::variables_map given = read_options(words, options(), "job", "report");
  const SheetStyle style = style_of(given);
  const bool pdf = wants_pdf(given);
  const Reference reference = reference_of(given);
  const Papers papers = papers_of(given);
  const Texts files = texts_of(given, "job"), settings = texts_of(given, "set");
  if (files.empty() && settings.empty())
    throw BadInput("report: name a job file or a schedule, or give a job's keys with --set");
  if (pdf) require_pdf_renderer();
  const std::string output = text_of(given, "output", "");
  RowsOut{output};  // whether it can be written, before long work
  ReportPanes panes =
      report_panes({files, settings, defaults_of(given, reference), threads_of(given), papers, reference, style});
  const Outcome nothing{"", stopped, tell(reference.language, "Stopped; nothing was written.") + "\n"};
  if (panes.stopped) return nothing;
  require_panes_named(papers, panes.names);
  const std::string html = document_of(panes, papers, reference, style);
  const Exit exit = panes.fault ? fault : panes.unanswered.empty() ? ran : bad_input;
  const std::string aside = unanswered_text(panes, reference.language);
  if (output.empty()) return {html, exit, aside};
  const std::optional<std::string> bytes = pdf ? printed(html) : html;
  if (!bytes) return nothing;
  RowsOut out(output);
  out.write(*bytes);
  out.finish();
  return {"", exit, aside};
}

}  // namespace sunstrain::cli
