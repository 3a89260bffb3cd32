// The check of one pane: its questions, and the answer that follows them as one goes.

let pane = kept("pane", newPane());
let questionForm = null, working = null;
let asked = { questions: [], others: [] };  // last told by the engine

const currentPane = () => pane;

// What another view does with a pane: shows it here.
function openPane(other) {
  setPane(other);
  goTo("check");
}

function setPane(other) {
  pane = other;
  keep("pane", pane);
  fillView(views.find(({ id }) => id === "check"));
}

// ---- what is said ------------------------------------------------------------------------------

// The line that stands in the bar. What lasts is also read out, once.
function say(line, { bad = false, lasting = true, verdict = null } = {}) {
  by("status").textContent = line;
  by("bar").classList.toggle("bad", bad);
  by("bar-mark").replaceChildren(...(verdict ? [verdictMark(verdict)] : []));
  if (lasting && by("said").textContent !== line) by("said").textContent = line;
}

// No answer stands beside a refusal: it would be of another pane.
function refuse(line) {
  by("answer").replaceChildren(element("p", line, { class: "error" }));
  questionForm.fault(line);
  say(line, { bad: true });
}

const faultLine = ({ refused, fault }) => refused ?? (fault && `${t("A fault of the program:")} ${fault}`);

// ---- the answer follows ------------------------------------------------------------------------

function stillNeeded({ questions }) {
  const open = questions.filter(({ needed, id, before }) => needed && !before && !pane.answers[id]);
  const words = { width: t("width"), height: t("height") };
  return [...new Set(open.map(({ name }) => words[name] ?? t("the film's figures")))];
}

// What the answer is of: each question with what was said, of the file or of the form.
function entered({ questions, others }, { answers, others: texts }) {
  const said = (answer) => (Array.isArray(answer) ? answer : [answer]).map((one) => t(one)).join("; ");
  const rows = [...questions, ...others].map((one) => [asksOf({ lite: "", ...one }), said(answers[one.id] || texts[one.key] || one.before || "")]);
  const list = element("dl", "", { class: "entered" });
  for (const [ask, answer] of rows.filter(([, answer]) => answer !== "")) {
    const row = element("div");
    row.append(element("dt", ask), element("dd", answer));
    list.append(row);
  }
  const fold = element("details", "", { "data-fold": "entered" });
  fold.append(element("summary", t("What was entered, {}", new Date().toLocaleDateString(language))), list);
  return [fold];
}

// What guidance says already, before there are figures.
function showAlready(rules) {
  by("answer").replaceChildren(...listed(t("Guidance says already"), rules.map(({ severity, text }) => `${t(severity).toUpperCase()}: ${text}`)));
}

function showResult(result) {
  const { answer, picture } = result;
  showAnswer(by("answer"), result, false, entered(asked, pane));
  const ratio = answer.lites[picture.governing].after_film.stress_ratio.toFixed(2);
  say(t("{}: with film {} of what the edge bears", verdictWord(answer.verdict), ratio), { verdict: answer.verdict });
}

function showFirstLook(result) {
  const { verdict } = result.answer;
  showAnswer(by("answer"), result, true, []);
  const word = verdictWord(verdict);
  const none = verdict === "go" ? t("So far nothing against it. Still working it out ...") : t("So far {}. Still working it out ...", word);
  const line = { whole: t("{}. Still working out the rest ...", word), least: t("At least {}. Still working it out ...", word), none };
  say(line[standing(result)], { lasting: false });
}

// What was answered last, and how it took what is not known: a first look at the pane's next form begins from it.
let before;

// A first look, then the verdict, then what stands beside it: each is shown as it comes.
async function answerPane(request, looking, signal) {
  const first = await looking;
  if (signal.aborted) return;
  if (faultLine(first)) return refuse(faultLine(first));
  if (first.answer !== null) showFirstLook(first);
  for (const depth of ["verdict", "whole"]) {
    const result = await work({ ...request, depth }, signal);
    if (signal.aborted || result.stopped) return;
    if (faultLine(result)) return refuse(faultLine(result));
    before = structuredClone({ request, taken: result.taken, stress_ratio: result.answer.stress_ratio });
    // What would help comes with the whole answer: until then what the first look found stays.
    if (depth === "verdict" && first.answer !== null) result.answer.helps = first.answer.helps;
    showResult(result);
  }
}

// Always of what the form says last: what was being worked out for other words is put away.
async function updateCheck() {
  working?.abort();
  const { signal } = (working = new AbortController());
  const request = requestOf(pane, { want: "check" });
  const asking = ask({ ...request, want: "questions" });
  const looking = ask({ ...request, depth: "first", before });  // while the form is filled; refused where more is needed
  const told = await asking;
  if (signal.aborted) return;
  if (faultLine(told)) return refuse(faultLine(told));
  asked = told;
  questionForm.show(told, pane);
  showAlready(told.rules);
  const wrong = told.questions.find(({ refused }) => refused);
  if (wrong) return refuse(wrong.refused);
  const missing = stillNeeded(told);
  if (missing.length > 0) return say(t("Still needed: {}.", missing.join(", ")));
  say(t("Working it out ..."), { lasting: false });
  await answerPane(request, looking, signal);
}

function onAnswer({ id, other }, value) {
  const values = other ? pane.others : pane.answers;
  if (value === undefined) delete values[id];
  else values[id] = value;
  keep("pane", pane);
  updateCheck();
}

// ---- a job file under what the form says -------------------------------------------------------

const largestFile = 1e6;

async function readJobFile(file) {
  if (!file) return;
  if (file.size > largestFile) return refuse(t("{}: larger than 1 MB, which no job is", file.name));
  setPane({ ...pane, base: { name: file.name, toml: await file.text() } });
}

function fileRow() {
  const row = element("div", "", { class: "file" });
  const input = element("input", "", { id: "file", type: "file", accept: ".toml,text/plain" });
  row.append(element("label", t("Read a job file (.toml)"), { for: "file" }), input);
  input.addEventListener("change", () => readJobFile(input.files[0]));
  if (pane.base === null) return row;
  const away = element("button", t("Put the file away"), { type: "button", id: "base-off" });
  away.addEventListener("click", () => {
    setPane({ ...pane, base: null });
    by("file").focus();
  });
  row.append(element("p", t("{}: what it says holds where you answer nothing.", pane.base.name)), away);
  return row;
}

// ---- the view ----------------------------------------------------------------------------------

function formSide() {
  const form = element("form", "", { id: "form", autocomplete: "off", novalidate: "" });
  const parts = element("div", "", { id: "parts" });
  const fresh = element("button", t("New pane"), { type: "button", id: "fresh" });
  fresh.addEventListener("click", () => {
    setPane(newPane());
    headingOf({ id: "check" }).focus();
  });
  form.append(
    element("p", t("Only the size and the film's figures are needed. What nobody knows is taken at its worst plausible value, and the answer says so."), { class: "faint" }),
    parts, fileRow(), fresh, element("button", t("Show the answer"), { type: "submit" }));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    by("answer-title").focus();
  });
  questionForm = new Form(parts, onAnswer);
  return form;
}

function answerSide() {
  const side = element("section", "", { id: "answer-side", "aria-labelledby": "answer-title" });
  side.append(element("h2", t("Answer"), { id: "answer-title", tabindex: "-1" }), element("div", "", { id: "answer" }));
  return side;
}

function bottomBar() {
  const bar = element("div", "", { id: "bar" });
  const go = element("a", t("See it"), { href: "#answer-title", id: "to-answer" });
  go.addEventListener("click", (event) => {
    event.preventDefault();
    by("answer-title").focus();
  });
  bar.append(element("span", "", { id: "bar-mark" }), element("p", "", { id: "status" }), go);
  return bar;
}

// Paper has nothing to unfold.
function printWhole() {
  const shut = [...by("answer").querySelectorAll("details:not([open])")];
  for (const fold of shut) fold.open = true;
  window.addEventListener("afterprint", () => shut.forEach((fold) => (fold.open = false)), { once: true });
}
window.addEventListener("beforeprint", printWhole);

addView({
  id: "check",
  title: "Check a pane",
  fill(section) {
    const columns = element("div", "", { class: "columns" });
    columns.append(formSide(), answerSide());
    section.append(columns, bottomBar(), element("p", "", { id: "said", role: "status", class: "heard" }));
    updateCheck();
  },
});
