// What a film's or a glass's maker is asked about one type of pane: a page with what is known, what came out, and room
// for the answer.

function sheetRow(name, value) {
  const row = element("tr");
  row.append(element("th", name, { scope: "row" }), element("td", value));
  return row;
}

function sheetTable(caption, rows) {
  const table = element("table"), body = element("tbody");
  body.append(...rows.map(([name, value]) => sheetRow(name, value)));
  table.append(element("caption", caption), body);
  return table;
}

// Lines to write on.
function sheetBlanks(names) {
  return names.map((name) => {
    const line = element("p", "", { class: "blank" });
    line.append(element("span", name));
    return line;
  });
}

function workedOut({ answer, picture }) {
  const { before_film, after_film } = answer.lites[picture.governing];
  const load = (figures) => t("{} of what the edge bears ({} of {})", figures.stress_ratio.toFixed(2), stressText(figures.peak_edge_stress_mpa), stressText(figures.allowable_edge_stress_mpa));
  return sheetTable(t("What was worked out"), [
    [t("Answer"), verdictWord(answer.verdict)], [t("Sheet that governs"), picture.sheet],
    [t("Load without film"), load(before_film)], [t("Load with film"), load(after_film)],
    ...answer.reasons.slice(0, 3).map(({ text }) => [t("Why"), text]),
  ]);
}

function sheetOf(type, keys, told) {
  const matters = ({ decided, readings }) => decided || readings.length > 0;
  const unknown = told.answer.unknowns.filter(matters).map(({ key, taken_as }) => [nameOf(key), t("not known; taken as {}", valueOf(key, taken_as))]);
  const rest = told.answer.unknowns.filter((one) => !matters(one)).map(({ key }) => nameOf(key));
  if (rest.length > 0) unknown.push([t("not known either, taken as usual"), rest.join(", ")]);
  const facts = [[t("Place or customer"), visit.name], [t("Reference"), visit.reference], [t("Date"), visit.date], [t("Pane"), labelOf(type)], [t("How many"), String(type.quantity)]];
  return [
    element("h2", t("Question to the maker of the film or of the glass"), { id: "sheet-title", tabindex: "-1" }),
    element("p", t("May this film go on this pane? Please answer for the pane as it is described here.")),
    sheetTable(t("Which pane"), facts.filter(([, value]) => value !== "")), sheetTable(t("What is known"), keys.map(([key, text]) => [nameOf(key), text.includes("{") ? text : valueOf(key, text)])),
    ...(unknown.length > 0 ? [sheetTable(t("What is not known"), unknown)] : []), workedOut(told),
    element("h3", t("The maker's answer")), ...sheetBlanks([t("Yes / no / on these conditions"), "", "", t("Name"), t("Company"), t("Date"), t("Your reference")]),
    element("p", told.answer.safety_note, { class: "note" }),
  ];
}

function closeSheet() {
  document.body.classList.remove("asking");
  by("visit-sheet").hidden = true;
  headingOf({ id: "visit" }).focus();
}

async function showSheet(type) {
  sayOfVisit(t("Making the sheet ..."));
  const written = await ask(requestOf(type.pane, { want: "write" }));
  const told = faultLine(written) ? written : await work(requestOf(type.pane, { want: "check" }));
  if (faultLine(told)) return sayOfVisit(faultLine(told));
  sayOfVisit("");
  const row = element("div", "", { class: "actions screen" });
  row.append(actionButton(t("Print the sheet"), () => window.print()), actionButton(t("Back to the visit"), closeSheet));
  by("visit-sheet").replaceChildren(...sheetOf(type, written.keys, told), row);
  by("visit-sheet").hidden = false;
  document.body.classList.add("asking");
  by("sheet-title").focus();
}
