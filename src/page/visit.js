// A visit: many types of pane, each as often as it is there. Kept on the device where the browser keeps anything.
//   types   [{id, pane, label, quantity, refused?}]; label: what a file called it, "" of one entered here
//   opened  id of the type that the check shows, 0 for none

const newVisit = () => ({ name: "", date: "", reference: "", types: [], opened: 0, last: 0 });

let visit = { ...newVisit(), ...kept("visit", {}) };
let visitWork = null;
const typeTold = new Map();  // of a request as text: what the engine said

const copied = (value) => JSON.parse(JSON.stringify(value));
const typeRequest = ({ pane }) => requestOf(pane, { want: "type" });
const toldOf = (type) => (type.refused ? { refused: type.refused } : typeTold.get(JSON.stringify(typeRequest(type))));
const openedType = () => visit.types.find(({ id }) => id === visit.opened);
const paneCount = (panes) => (panes === 1 ? t("1 pane") : t("{} panes", panes));

function labelOf(type) {
  const told = toldOf(type);
  const number = t("type {}", visit.types.indexOf(type) + 1);
  return [number, told?.name || type.label].filter(Boolean).join(", ");
}

function keepVisit() {
  const stays = keep("visit", visit);
  by("visit-kept").textContent = stays ? t("Kept on this device.") : t("This browser keeps nothing once the page is closed: download the visit.");
}

function addType(pane, label = "", quantity = 1, refused = "") {
  const id = ++visit.last;
  visit.types.push({ id, pane: copied(pane), label, quantity, ...(refused ? { refused } : {}) });
  return id;
}

function changeVisit(change) {
  change();
  keepVisit();
  updateVisit();
}

// ---- one type in the list ----------------------------------------------------------------------

function actionButton(word, act, about) {
  const button = element("button", word, { type: "button", ...(about ? { "aria-label": `${word}: ${about}` } : {}) });
  button.addEventListener("click", act);
  return button;
}

function quantityField(type) {
  const id = `quantity-${type.id}`, row = element("p", "", { class: "value" });
  const input = element("input", "", { id, type: "number", inputmode: "numeric", min: "1", max: "1000000", step: "1", value: String(type.quantity) });
  input.addEventListener("change", () => {
    const wanted = Number(input.value);
    const fits = Number.isInteger(wanted) && wanted >= 1 && wanted <= 1e6;
    input.setAttribute("aria-invalid", String(!fits));
    if (!fits) return sayOfVisit(t("How many: whole numbers from 1 to 1000000"));
    changeVisit(() => (type.quantity = wanted));
  });
  row.append(element("label", t("How many"), { for: id }), input);
  return row;
}

function openType(type) {
  visit.opened = type.id;
  keepVisit();
  openPane(copied(type.pane));
}

function anotherLike(type) {
  const id = addType(type.pane, type.label);
  openType(visit.types.find((other) => other.id === id));
}

async function downloadJob(type) {
  const told = await ask(requestOf(type.pane, { want: "write" }));
  if (faultLine(told)) return sayOfVisit(faultLine(told));
  download(`${fileName(labelOf(type))}.toml`, told.text);
}

function typeActions(type) {
  const label = labelOf(type), row = element("div", "", { class: "actions" });
  if (!type.refused)
    row.append(
      actionButton(t("Look at it"), () => openType(type), label), actionButton(t("Another like this"), () => anotherLike(type), label),
      actionButton(t("Ask the maker"), () => showSheet(type), label), actionButton(t("Job file"), () => downloadJob(type), label));
  row.append(actionButton(t("Take out"), () => changeVisit(() => (visit.types = visit.types.filter(({ id }) => id !== type.id))), label));
  return row;
}

function verdictOf(told) {
  if (!told) return [element("span", t("being worked out ..."))];
  if (faultLine(told)) return [element("strong", t("No answer"), { class: "word" })];
  return [verdictMark(told.verdict), element("strong", verdictWord(told.verdict), { class: "word" }), element("span", told.ratio.toFixed(2), { class: "ratio" })];
}

function typeItem(type) {
  const told = toldOf(type), item = element("li", "", { class: "type", "data-type": String(type.id) });
  const head = element("p", "", { class: "head" }), what = [told?.size, told?.facing, told?.film].filter(Boolean).join(", ");
  head.append(...verdictOf(told), element("span", labelOf(type)));
  item.append(head);
  if (what) item.append(element("p", what));
  if (told) item.append(element("p", faultLine(told) ?? told.reason, { class: faultLine(told) ? "error" : "reason" }));
  item.append(element("p", paneCount(type.quantity), { class: "printed" }), quantityField(type), typeActions(type));
  return item;
}

// ---- the whole ---------------------------------------------------------------------------------

// Those that an odd line names come first, then what has no answer, then the worst.
function typesInOrder(odd) {
  const rank = { refer: 2, caution: 1, go: 0 };
  const standing = (type) => {
    const told = toldOf(type);
    const named = odd.some((line) => [";", " "].some((end) => line.includes(`: ${labelOf(type)}${end}`))) ? 10 : 0;
    return named + (!told || faultLine(told) ? 4 : rank[told.verdict] + Math.min(told.ratio, 9) / 10);
  };
  return [...visit.types].sort((a, b) => standing(b) - standing(a));
}

const typeCount = (types) => (types === 1 ? t("1 type") : t("{} types", types));
const verdictRow = ({ verdict, types, panes }) => t("{}: {} ({})", verdictWord(verdict), typeCount(types), paneCount(panes));

function showSummary(told) {
  const lines = told.verdicts.filter(({ types }) => types > 0).map(verdictRow);
  if (told.not_examined > 0) lines.push(t("No answer: {}", typeCount(told.not_examined)));
  by("visit-summary").replaceChildren(
    ...listed(t("Odd ones: rightly so, or a slip?"), told.odd), ...listed(t("By verdict"), lines),
    element("p", told.breaks), element("p", told.safety_note, { class: "note" }));
  by("visit-types").replaceChildren(...typesInOrder(told.odd).map(typeItem));
}

function sayOfVisit(line) {
  by("visit-status").textContent = line;
}

async function summarize(signal) {
  const panes = visit.types.map((type) => {
    const told = toldOf(type);
    return { ...requestOf(type.pane), quantity: type.quantity, label: labelOf(type), type: faultLine(told) ? null : told };
  });
  const told = await ask({ want: "visit", language: settings.language, panes });
  if (signal.aborted) return;
  sayOfVisit(faultLine(told) ?? "");
  if (!faultLine(told)) showSummary(told);
}

function showTypes() {
  by("visit-summary").replaceChildren();
  by("visit-types").replaceChildren(...visit.types.map(typeItem));
  const back = openedType();
  by("visit-back").hidden = !back || isUntouched(currentPane());
  if (back) by("visit-back").textContent = t("Put the checked pane back as {}", labelOf(back));
  by("visit-whole").hidden = visit.types.length === 0;
}

// What is not worked out yet is worked out, a type at a time.
async function updateVisit() {
  visitWork?.abort();
  const { signal } = (visitWork = new AbortController());
  showTypes();
  if (visit.types.length === 0) return sayOfVisit(t("No pane yet. Check one and add it, or read a file."));
  const open = visit.types.filter((type) => !toldOf(type));
  for (const [i, type] of open.entries()) {
    sayOfVisit(t("Working out {} of {} ...", i + 1, open.length));
    const request = typeRequest(type), told = await work(request, signal);
    if (signal.aborted || told.stopped) return;
    typeTold.set(JSON.stringify(request), told);
    document.querySelector(`[data-type="${type.id}"]`)?.replaceWith(typeItem(type));
  }
  await summarize(signal);
}

// ---- files -------------------------------------------------------------------------------------

const fileName = (text) => text.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "").slice(0, 60) || "sunstrain";

async function readIntoVisit(file) {
  if (!file) return;
  if (file.size > largestFile) return sayOfVisit(t("{}: larger than 1 MB, which no visit is", file.name));
  const told = await ask({ want: "read", language: settings.language, name: file.name, text: await file.text() });
  by("visit-file").value = "";
  if (faultLine(told)) return sayOfVisit(faultLine(told));
  changeVisit(() => {
    for (const { name, toml, quantity, refused } of told.panes)
      addType({ ...newPane(), base: toml === undefined ? null : { name, toml } }, name, quantity ?? 1, refused);
  });
}

async function visitFile() {
  const panes = visit.types.filter(({ refused }) => !refused).map((type) => ({ ...requestOf(type.pane), quantity: type.quantity }));
  const told = await ask({ want: "write", language: settings.language, panes });
  if (faultLine(told)) return sayOfVisit(faultLine(told));
  return new File([told.text], `${fileName(visit.name || t("visit"))}.csv`, { type: "text/csv" });
}

async function downloadVisit() {
  const file = await visitFile();
  if (file) download(file.name, await file.text(), file.type);
}

// Where the device has something to share with.
async function shareVisit() {
  const file = await visitFile();
  if (!file) return;
  try {
    await navigator.share({ files: [file], title: file.name });
  } catch (error) {
    if (error.name !== "AbortError") sayOfVisit(t("This browser does not share it: download the visit instead."));
  }
}

const sharesFiles = () => Boolean(navigator.canShare?.({ files: [new File(["-"], "visit.csv", { type: "text/csv" })] }));

// ---- the view ----------------------------------------------------------------------------------

function visitField(name, label) {
  const id = `visit-${name}`, row = element("p", "", { class: "visit-field" });
  const input = element("input", "", { id, type: "text", maxlength: "200" });
  input.value = visit[name];
  input.addEventListener("change", () => {
    visit[name] = input.value;
    keepVisit();
  });
  row.append(element("label", label, { for: id }), input);
  return row;
}

function visitStart() {
  const box = element("div", "", { class: "screen" }), row = element("div", "", { class: "actions" });
  const file = element("input", "", { id: "visit-file", type: "file", accept: ".toml,.csv,.tsv,.txt,text/csv,text/plain" });
  file.addEventListener("change", () => readIntoVisit(file.files[0]));
  const back = actionButton("", () => changeVisit(() => (openedType().pane = copied(currentPane()))));
  const add = actionButton(t("Add the pane of the check"), () => {
    if (isUntouched(currentPane())) return sayOfVisit(t("Nothing is entered in the check yet."));
    changeVisit(() => (visit.opened = addType(currentPane())));
  });
  back.id = "visit-back";
  add.id = "visit-add";
  row.append(back, add);
  box.append(row, element("label", t("Read a job file or a schedule (.toml, .csv)"), { for: "visit-file" }), file);
  return box;
}

function emptyVisit() {
  const fold = element("details", "", { class: "screen" });
  const clear = actionButton(t("Take all panes out"), () => {
    visit = newVisit();
    keep("visit", visit);
    fillView(views.find(({ id }) => id === "visit"));
    updateVisit();
  });
  fold.append(element("summary", t("Begin a new visit")), element("p", t("What is not downloaded is then gone.")), clear);
  return fold;
}

function visitWhole() {
  const box = element("div", "", { id: "visit-whole", class: "screen" }), row = element("div", "", { class: "actions" });
  row.append(actionButton(t("Download the visit (.csv)"), downloadVisit));
  if (sharesFiles()) row.append(actionButton(t("Share the visit"), shareVisit));
  row.append(actionButton(t("Print the visit"), () => window.print()));
  box.append(row, emptyVisit());
  return box;
}

addView({
  id: "visit",
  title: "Visit",
  fill(section) {
    document.body.classList.remove("asking");
    section.append(
      element("p", t("All panes of one place, each type with how many there are of it."), { class: "faint" }), visitStart(),
      visitField("name", t("Place or customer")), visitField("date", t("Date")), visitField("reference", t("Reference")),
      element("p", "", { id: "visit-status", role: "status" }), element("div", "", { id: "visit-summary" }),
      element("ul", "", { id: "visit-types" }), visitWhole(), element("p", "", { id: "visit-kept", class: "faint" }),
      element("div", "", { id: "visit-sheet", hidden: "" }));
  },
  enter: updateVisit,
});
