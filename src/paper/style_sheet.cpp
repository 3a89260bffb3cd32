// How the sheets look, on a screen and on paper.
#include <fmt/format.h>

#include "parts.hpp"

namespace sunstrain::paper {
namespace {

constexpr const char* rules = R"css(
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 0; color: #111; background: #fff; font: 8pt/1.32 "Liberation Sans", Arimo, Arial, Helvetica, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 14pt; line-height: 1.15; margin: 0 0 5pt; padding-bottom: 3pt; border-bottom: 1.6pt solid #111; }
h2 { font-size: 9pt; margin: 7pt 0 2pt; break-after: avoid; }
p { margin: 0 0 2pt; }
ul { margin: 0; padding: 0 0 0 10pt; }
li { margin: 0 0 1.5pt; }
small, .small { font-size: 7pt; color: #333; }
code { font-family: "Liberation Mono", Cousine, "Courier New", monospace; font-size: 6.6pt; }
article { break-before: page; }
article:first-child { break-before: auto; }

.pair { display: table; width: 100%; table-layout: fixed; border-collapse: collapse; break-inside: avoid; }
.half, .third { display: table-cell; vertical-align: top; padding-right: 9pt; }
.half:last-child, .third:last-child { padding-right: 0; }
.half { width: 50%; }

.facts, .entered, .inline { margin: 0; }
.facts > div { display: table-row; }
.facts dt, .facts dd { display: table-cell; padding: 0 6pt 1.5pt 0; }
.facts dt { color: #444; white-space: nowrap; }
dd { margin: 0; }
.facts dd { font-weight: bold; }
.entered { columns: 3; column-gap: 12pt; }
.entered > div { break-inside: avoid; border-bottom: 0.4pt solid #bbb; padding: 0.6pt 0; }
.entered dt, .entered dd, .inline dt, .inline dd, .inline > div { display: inline; }
.entered dt { color: #444; }
.entered dt::after, .inline dt::after { content: ":"; }
.inline > div { margin-right: 9pt; }
.inline { display: inline; }

.verdict { display: table; width: 100%; border: 1.4pt solid #111; margin: 4pt 0; break-inside: avoid; }
.verdict > div { display: table-cell; vertical-align: middle; padding: 3pt 5pt; }
.verdict .mark { width: 42pt; padding-right: 0; }
.verdict p { margin: 0; }
.verdict .word { font-size: 13pt; font-weight: bold; }
.verdict-line { white-space: nowrap; }
.verdict-line svg { vertical-align: -2pt; }
svg { max-width: 100%; height: auto; }

table { width: 100%; border-collapse: collapse; margin: 1pt 0 4pt; break-inside: avoid; }
caption { text-align: left; font-size: 7pt; color: #333; padding-bottom: 1pt; }
th, td { text-align: left; vertical-align: top; padding: 1pt 5pt 1pt 0; border-bottom: 0.4pt solid #bbb; font-weight: normal; }
thead th, thead td { border-bottom: 0.8pt solid #111; color: #333; font-size: 7pt; vertical-align: bottom; }
tr { break-inside: avoid; }
.numbers th, .numbers td { text-align: right; font-size: 7.2pt; }
.numbers tbody th, .numbers thead > tr > :first-child { text-align: left; }
.unknowns, .panes { break-inside: auto; }
.unknowns td, .unknowns th { font-size: 7.2pt; }
.unknowns th:first-child { width: 22%; }
.unknowns th:nth-child(2), .unknowns th:nth-child(3) { width: 15%; }
.lines td, .lines th { border: 0.5pt solid #777; padding: 2pt 3pt; }
.lines tbody th, .lines tbody td { height: 15pt; }
.signatures tbody th, .signatures tbody td { height: 20pt; vertical-align: bottom; }
.totals { width: auto; }
.totals th, .totals td { padding-right: 16pt; }
.run-in { padding: 0; font-size: 7pt; color: #333; }
.run-in li { display: inline; }
.run-in li:not(:last-child)::after { content: "; "; }
.plain, .legend, .photos { list-style: none; padding: 0; font-size: 7pt; }
.blank { display: table; width: 100%; margin: 0; }
.blank > span { display: table-cell; white-space: nowrap; padding: 8pt 4pt 0 0; width: 1%; }
.blank > i { display: table-cell; border-bottom: 0.6pt solid #111; }
.told { margin-bottom: 3pt; }
.note { border-top: 0.8pt solid #111; margin-top: 5pt; padding-top: 3pt; font-size: 7.2pt; break-inside: avoid; }
.lead { font-size: 9.5pt; }
.rules li { font-size: 7.4pt; }

figure { margin: 0; break-inside: avoid; }
figure svg { display: block; }
figcaption { font-size: 7pt; color: #333; line-height: 1.25; }

.customer { font-size: 9pt; }
.customer h1 { font-size: 16pt; }
.customer h2 { font-size: 10.5pt; }

@media screen {
  body { max-width: 190mm; padding: 8mm; font-size: 10pt; }
  article { padding-bottom: 12mm; }
}
)css";

}  // namespace

std::string style_sheet(PaperSize size, const Language& language) {
  const char* paper = size == PaperSize::a4 ? "A4" : "letter";
  return fmt::format(
             "@page {{ size: {} portrait; margin: 11mm 13mm 13mm; @bottom-right {{ content: \"{} \" counter(page) \" / "
             "\" "
             "counter(pages); font: 7pt \"Liberation Sans\", Arimo, Arial, sans-serif; }} }}\n",
             paper, tell(language, "page")) +
         (rules + 1);
}

}  // namespace sunstrain::paper
