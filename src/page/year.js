// The year of the pane that is being checked: the share of what the edge bears by month and hour, drawn, with a table
// behind it.

const yearMonths = () => [t("January"), t("February"), t("March"), t("April"), t("May"), t("June"), t("July"), t("August"), t("September"), t("October"), t("November"), t("December")];

// Eleven colors on a straight line through CIELAB (CIE 1976, D65), so that equal steps look equally large: light yellow
// to dark blue, which every kind of color sight tells apart, as does a gray print.
const yearClasses = 11, yearStep = 0.2;  // the last is open: 2.00 and more
const yearEnds = { low: [96, -4, 30], high: [24, 14, -42] };

function srgbOfLab([lightness, a, b]) {
  const middle = (lightness + 16) / 116;
  const back = (f) => (f > 6 / 29 ? f ** 3 : 3 * (6 / 29) ** 2 * (f - 4 / 29));
  const [x, y, z] = [0.95047 * back(middle + a / 500), back(middle), 1.08883 * back(middle - b / 200)];
  const linear = [3.2406 * x - 1.5372 * y - 0.4986 * z, -0.9689 * x + 1.8758 * y + 0.0415 * z, 0.0557 * x - 0.204 * y + 1.057 * z];
  const bent = linear.map((c) => (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055));
  return `rgb(${bent.map((c) => Math.round(255 * Math.min(1, Math.max(0, c)))).join(" ")})`;
}

const yearColors = Array.from({ length: yearClasses }, (_, i) =>
  srgbOfLab(yearEnds.low.map((from, axis) => from + ((yearEnds.high[axis] - from) * i) / (yearClasses - 1))));
const yearColor = (ratio) => yearColors[Math.min(yearClasses - 1, Math.floor(ratio / yearStep + 1e-9))];
const overLine = (ratio) => ratio > 1;

const hourText = (hour) => `${hour}:00`;
const hourSpan = (hour) => t("{} to {}", hourText(hour), hourText(hour + 1));

function highestHour(ratios) {
  let worst = { ratio: -1 };
  ratios.forEach((hours, month) => hours.forEach((ratio, hour) => {
    if (ratio > worst.ratio) worst = { ratio, month, hour };
  }));
  return worst;
}

// ---- the picture -------------------------------------------------------------------------------

const yearCell = { width: 12, height: 18, left: 34, top: 16 };
const cellX = (hour) => yearCell.left + hour * yearCell.width, cellY = (month) => yearCell.top + month * yearCell.height;

function hatching() {
  const pattern = drawn("pattern", { id: "year-over", width: 5, height: 5, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" });
  pattern.append(drawn("rect", { width: 1.4, height: 5, fill: "#fff" }), drawn("rect", { x: 1.4, width: 0.7, height: 5, fill: "#000" }));
  const defs = drawn("defs");
  defs.append(pattern);
  return defs;
}

// Along the sides where an hour past the line meets one that is not.
function goLine(ratios) {
  const over = (month, hour) => overLine(ratios[month]?.[hour] ?? 0);
  let path = "";
  for (let month = 0; month <= 12; ++month) {
    for (let hour = 0; hour <= 24; ++hour) {
      if (hour < 24 && over(month, hour) !== over(month - 1, hour)) path += `M${cellX(hour)} ${cellY(month)}h${yearCell.width}`;
      if (month < 12 && over(month, hour) !== over(month, hour - 1)) path += `M${cellX(hour)} ${cellY(month)}v${yearCell.height}`;
    }
  }
  return ["casing", "edge"].map((name) => drawn("path", { d: path, class: name }));
}

function yearPicture(ratios) {
  const worst = highestHour(ratios);
  const said = t("Highest in {}, {}: {} of what the edge bears.", yearMonths()[worst.month], hourSpan(worst.hour), worst.ratio.toFixed(2));
  const svg = drawn("svg", { viewBox: `0 0 ${cellX(24) + 10} ${cellY(12) + 4}`, class: "year", role: "img", "aria-label": `${t("The load by month and hour.")} ${said}` });
  svg.append(hatching());
  for (const hour of [0, 3, 6, 9, 12, 15, 18, 21, 24]) svg.append(drawn("text", { x: cellX(hour), y: 11, "text-anchor": "middle" }, String(hour)));
  ratios.forEach((hours, month) => {
    svg.append(drawn("text", { x: yearCell.left - 4, y: cellY(month) + 13, "text-anchor": "end" }, yearMonths()[month].slice(0, 3)));
    hours.forEach((ratio, hour) => {
      const at = { x: cellX(hour), y: cellY(month), width: yearCell.width, height: yearCell.height };
      svg.append(drawn("rect", { ...at, fill: yearColor(ratio) }));
      if (overLine(ratio)) svg.append(drawn("rect", { ...at, fill: "url(#year-over)" }));
    });
  });
  const ring = { cx: cellX(worst.hour) + yearCell.width / 2, cy: cellY(worst.month) + yearCell.height / 2, r: 9 };
  svg.append(...goLine(ratios), drawn("circle", { ...ring, class: "casing" }), drawn("circle", { ...ring, class: "ring" }));
  return [svg, element("p", said)];
}

function yearLegend() {
  const svg = drawn("svg", { viewBox: "0 0 326 34", class: "year", role: "img", "aria-label": t("Colors: light is 0.00, dark is 2.00 and more of what the edge bears; hatched is more than 1.00.") });
  const width = 26;
  yearColors.forEach((color, i) => {
    const at = { x: 8 + i * width, y: 2, width, height: 16 };
    svg.append(drawn("rect", { ...at, fill: color }));
    if (i * yearStep >= 1 - 1e-9) svg.append(drawn("rect", { ...at, fill: "url(#year-over)" }));
    svg.append(drawn("text", { x: at.x, y: 31, "text-anchor": "middle" }, (i * yearStep).toFixed(1)));
  });
  const line = 8 + (1 / yearStep) * width;
  for (const name of ["casing", "edge"]) svg.append(drawn("path", { d: `M${line} 0v20`, class: name }));
  return [svg, element("p", t("Outlined and hatched: more than the edge bears (1.00). Ringed: the highest hour."))];
}

// ---- the table behind it -----------------------------------------------------------------------

function yearTable(ratios) {
  const table = element("table"), head = element("tr"), body = element("tbody"), top = element("thead");
  table.append(element("caption", t("Share of what the edge bears; * more than 1.00")));
  head.append(element("th", t("Hour"), { scope: "col" }));
  for (const month of yearMonths()) head.append(element("th", month.slice(0, 3), { scope: "col" }));
  for (let hour = 0; hour < 24; ++hour) {
    const row = element("tr");
    row.append(element("th", hourText(hour), { scope: "row" }));
    for (const hours of ratios) row.append(element("td", hours[hour].toFixed(2) + (overLine(hours[hour]) ? "*" : "")));
    body.append(row);
  }
  top.append(head);
  table.append(top, body);
  const region = element("div", "", { class: "wide", role: "region", tabindex: "0", "aria-label": t("The year as a table") });
  region.append(table);
  const fold = element("details");
  fold.append(element("summary", t("The year as a table")), region);
  return fold;
}

// ---- the view ----------------------------------------------------------------------------------

let yearOf = null, yearTold = null, yearWork = null, yearFilmed = true;

function pickFilmed() {
  const set = element("fieldset", "", { class: "question" }), taps = element("div", "", { class: "taps" });
  for (const [filmed, word] of [[true, t("With film")], [false, t("Without film")]]) {
    const tap = element("label", "", { class: "tap" });
    const input = element("input", "", { type: "radio", name: "year-film", value: String(filmed) });
    input.checked = filmed === yearFilmed;
    input.addEventListener("change", () => {
      yearFilmed = filmed;
      drawYear();
    });
    tap.append(input, element("span", word));
    taps.append(tap);
  }
  set.append(element("legend", t("Which year?")), taps);
  return set;
}

function yearNotes({ raised_by, ratio, sheet, safety_note }) {
  const lines = [t("Of the sheet that governs: {}. Of each month the worse of its two clear design days, what nobody knows at its worst. Standard time: in summer the clock says an hour more.", sheet)];
  if (raised_by > 1) lines.push(t("The worst hour was followed in full as well, and came out higher there: {}. That figure counts for the verdict.", ratio.toFixed(2)));
  return [...lines.map((line) => element("p", line)), element("p", safety_note, { class: "note" })];
}

function drawYear() {
  const ratios = yearFilmed ? yearTold.after : yearTold.before;
  const head = element("p", "", { class: "verdict" });
  const word = verdictWord(yearTold.verdict);
  head.append(verdictMark(yearTold.verdict), element("strong", word, { class: "word" }), element("span", t("With film the edge takes {} of what it bears.", yearTold.ratio.toFixed(2))));
  by("year-picture").replaceChildren(head, element("h3", yearFilmed ? t("With film") : t("Without film")), ...yearPicture(ratios), ...yearLegend(), yearTable(ratios), ...yearNotes(yearTold));
}

async function updateYear() {
  const request = requestOf(currentPane(), { want: "year" }), asked = JSON.stringify(request);
  if (asked === yearOf) return;
  yearOf = asked;
  yearTold = null;
  yearWork?.abort();
  const { signal } = (yearWork = new AbortController());
  by("year-picture").replaceChildren();
  by("year-status").textContent = t("Working out the year of this pane ...");
  const told = await work(request, signal);
  if (signal.aborted) return;
  by("year-status").textContent = faultLine(told) ?? "";
  if (faultLine(told)) return;
  yearTold = told;
  drawYear();
}

addView({
  id: "year",
  title: "The year",
  fill(section) {
    section.append(
      element("p", t("When in the year the pane that you check comes near its line."), { class: "faint" }),
      pickFilmed(), element("p", "", { id: "year-status", role: "status" }), element("div", "", { id: "year-picture" }));
    yearOf = null;
  },
  enter: updateYear,
});
