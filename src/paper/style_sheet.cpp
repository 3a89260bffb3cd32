// How the sheets look, on a screen and on paper.
#include <fmt/format.h>

#include "parts.hpp"

namespace sunstrain::paper {
namespace {

constexpr const char* rules = R"css(
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 0; color: #111; background: #fff; font: 7.8pt/1.28 "Liberation Sans", Arimo, Arial, Helvetica, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 14pt; line-height: 1.15; margin: 0 0 5pt; padding-bottom: 3pt; border-bottom: 1.6pt solid #111; }
h2 { font-size: 1.15em; margin: 5pt 0 1.5pt; break-after: avoid; }
p { margin: 0 0 2pt; }
ul { margin: 0; padding: 0 0 0 12pt; }
li { margin: 0 0 1pt; }
small, .small { font-size: 0.9em; color: #333; }
code { font-family: "Liberation Mono", Cousine, "Courier New", monospace; font-size: 0.79em; }
article { break-before: page; }
article:first-child { break-before: auto; }

.pair { display: table; width: 100%; table-layout: fixed; border-collapse: collapse; break-inside: avoid; }
.half, .third { display: table-cell; vertical-align: top; padding-right: 9pt; }
.half:last-child, .third:last-child { padding-right: 0; }
.half { width: 50%; }

.facts, .entered, .inline { margin: 0; padding: 0; list-style: none; }
.facts { display: table; }
.facts li { display: table-row; }
.facts span { display: table-cell; padding: 0 6pt 1.2pt 0; }
.facts span:first-child { white-space: nowrap; }
.facts span:last-child { font-weight: bold; }
.facts span:first-child, .entered span:first-child { color: #444; }
.entered { columns: 4; column-gap: 10pt; }
.entered li { break-inside: avoid; border-bottom: 0.4pt solid #bbb; padding: 0.4pt 0; margin: 0; font-size: 0.92em; }
.entered span:first-child::after, .inline span:first-child::after { content: ":"; }
.inline, .inline li { display: inline; }
.inline li { margin-right: 7pt; }
.glazing { margin-bottom: 2pt; }

.verdict { display: table; width: 100%; border: 1.4pt solid #111; margin: 4pt 0; break-inside: avoid; }
.verdict > div { display: table-cell; vertical-align: middle; padding: 3pt 5pt; }
.verdict .mark { width: 42pt; padding-right: 0; }
.verdict p { margin: 0; }
.verdict .word { font-size: 13pt; font-weight: bold; }
.verdict-line { white-space: nowrap; }
.verdict-line svg { vertical-align: -2pt; }
svg { max-width: 100%; height: auto; }

table { width: 100%; border-collapse: collapse; margin: 1pt 0 4pt; break-inside: avoid; }
caption { text-align: left; font-size: 0.9em; color: #333; padding-bottom: 1pt; }
th, td { text-align: left; vertical-align: top; padding: 1pt 5pt 1pt 0; border-bottom: 0.4pt solid #bbb; font-weight: normal; }
thead th, thead td { border-bottom: 0.8pt solid #111; color: #333; font-size: 0.9em; vertical-align: bottom; }
tr { break-inside: avoid; }
.numbers th, .numbers td { text-align: right; font-size: 0.9em; padding: 0.5pt 0 0.5pt 4pt; }
.before-after td, .before-after tbody th { white-space: nowrap; }
.before-after th { padding-left: 5pt; }
.numbers tbody th, .numbers thead > tr > :first-child { text-align: left; }
.unknowns, .panes { break-inside: auto; }
.unknowns td, .unknowns th { font-size: 0.92em; }
.unknowns th:first-child { width: 22%; }
.unknowns th:nth-child(2), .unknowns th:nth-child(3) { width: 15%; }
.lines td, .lines th { border: 0.5pt solid #777; padding: 2pt 3pt; }
.lines tbody th, .lines tbody td { height: 14pt; }
.signatures tbody th, .signatures tbody td { height: 18pt; vertical-align: bottom; }
.panes td:nth-child(4) { padding-right: 18pt; }
.totals { width: auto; }
.totals th, .totals td { padding-right: 16pt; }
.run-in { padding: 0; font-size: 0.9em; line-height: 1.22; color: #222; }
.run-in li { display: inline; }
.run-in li:not(:last-child)::after { content: "; "; }
.plain, .legend, .photos { list-style: none; padding: 0; font-size: 0.88em; line-height: 1.22; }
.blank { display: table; width: 100%; margin: 0; }
.blank > span { display: table-cell; white-space: nowrap; padding: 8pt 4pt 0 0; width: 1%; }
.blank > i { display: table-cell; border-bottom: 0.6pt solid #111; }
.told { margin-bottom: 3pt; }
.note { border-top: 0.8pt solid #111; margin-top: 5pt; padding-top: 3pt; font-size: 0.92em; break-inside: avoid; }
.lead { font-size: 1.2em; }
.together { break-inside: avoid; }
.assumed p { font-size: 0.92em; }
.rules li { font-size: 0.95em; }

figure { margin: 0; break-inside: avoid; }
figure svg { display: block; }
figcaption { font-size: 0.87em; color: #333; line-height: 1.25; }
figcaption .run-in { display: inline; font-size: 1em; }

.customer { font-size: 8.4pt; }
.customer h1 { font-size: 15pt; }
.customer h2 { margin-top: 6pt; }
.customer .run-in { font-size: 0.92em; }

.dense { font-size: 7pt; line-height: 1.2; }
.customer.dense { font-size: 7.6pt; }
.dense.smallest { font-size: 6.5pt; }
.customer.smallest { font-size: 7pt; }
.dense h2, .customer.dense h2 { margin: 3pt 0 1pt; }
.dense li { margin: 0; }
.dense .blank > span { padding-top: 6pt; }
.panes thead th, .panes td:nth-child(3) { white-space: nowrap; }

@media screen {
  body { max-width: 190mm; padding: 8mm; font-size: 10pt; }
  article { padding-bottom: 12mm; }
}
@media screen and (max-width: 42em) {
  body { padding: 4mm; }
  .pair, .half, .third { display: block; width: auto; padding: 0; }
  .entered { columns: 1; }
  .facts span:first-child { white-space: normal; }
  section, article > div { overflow-x: auto; }
}
)css";

}  // namespace

std::string style_sheet(PaperSize size, const Language& language) {
  const char* paper = size == PaperSize::a4 ? "A4" : "letter";
  return fmt::format(
             "@page {{ size: {} portrait; margin: 10mm 12mm 12mm; @bottom-right {{ content: \"{} \" counter(page) \" / "
             "\" "
             "counter(pages); font: 7pt \"Liberation Sans\", Arimo, Arial, sans-serif; }} }}\n",
             paper, tell(language, "page")) +
         (rules + 1);
}

}  // namespace sunstrain::paper
