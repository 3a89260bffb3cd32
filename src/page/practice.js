// Practice: a window or a drill at a time; the engine gives the answers, what was answered stays on the device.

const practiceStart = { results: [], own: [], learner: "" };
let record = { ...practiceStart, ...kept("practice", {}) };
let deck = null, round = null;
let practicePicks = { kind: "windows", topic: "", count: "5" };

function keepRecord(more) {
  record = { ...record, ...more };
  keep("practice", record);
}

const practiceRoot = () => by("practice-body");
const practiceRequest = (more) => ({ want: "practice", units: settings.units, language: settings.language, ...more });
const topicOf = (id) => deck.topics.find((topic) => topic.id === id);
const topicName = (id) => topicOf(id)?.name ?? t("Your own windows");

// ---- what one picks first ------------------------------------------------------------------------

const windowsAtHand = () => [...deck.windows, ...deck.own.filter(({ refused }) => !refused)];
const itemsOf = ({ kind, topic }) => {
  const all = kind === "drills" ? deck.drills : windowsAtHand();
  return all.filter((item) => topic === "" || item.topic === (topic === "own" ? "" : topic));
};

function inOrderOfChance(items) {
  const order = [...items];
  for (let left = order.length; left > 1; left--) {
    const at = Math.floor(Math.random() * left);
    [order[left - 1], order[at]] = [order[at], order[left - 1]];
  }
  return order;
}

function picker(name, label, choices) {
  const box = element("p");
  const select = element("select", "", { id: `practice-${name}` });
  for (const [value, text] of choices) select.append(element("option", text, { value }));
  select.value = practicePicks[name];
  select.addEventListener("change", () => {
    practicePicks[name] = select.value;
  });
  box.append(element("label", label, { for: select.id }), select);
  return box;
}

function startForm() {
  const form = element("form", "", { id: "practice-start", autocomplete: "off" });
  const topics = [["", t("All mistakes")], ...deck.topics.map(({ id, name }) => [id, name])];
  if (deck.own.length > 0) topics.push(["own", t("Your own windows")]);
  form.append(
    picker("kind", t("What"), [["windows", t("Windows: go, caution or refer?")], ["drills", t("Drills: what is this glass?")]]),
    picker("topic", t("Which mistake"), topics),
    picker("count", t("How many"), ["5", "10", "20"].map((count) => [count, count])),
    element("button", t("Begin"), { type: "submit" }), element("p", "", { id: "practice-none", role: "alert", class: "error", hidden: "" }));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const items = inOrderOfChance(itemsOf(practicePicks)).slice(0, Number(practicePicks.count));
    by("practice-none").hidden = items.length > 0;
    by("practice-none").textContent = t("There is none of that kind. Pick another mistake.");
    if (items.length === 0) return;
    round = { kind: practicePicks.kind, items, at: 0 };
    showItem();
  });
  return form;
}

// ---- what was answered so far --------------------------------------------------------------------

function scoreLines(score) {
  return [
    score.scenarios > 0 && t("Verdicts right: {} of {}", score.verdicts_right, score.scenarios),
    score.scenarios > 0 && t("What decides, right: {} of {}", score.picks_right, score.scenarios),
    score.drills > 0 && t("Drills right: {} of {}", score.drills_right, score.drills),
    score.milder > 0 && t("Milder than the answer: {}. That is the kind that breaks glass.", score.milder),
    score.stricter > 0 && t("Stricter than the answer: {}. That is the kind that loses work.", score.stricter),
  ].filter(Boolean);
}

async function downloadTable() {
  const { csv } = await ask(practiceRequest({ table: record.results.map((one) => ({ ...one, learner: record.learner })) }));
  download("practice.csv", csv, "text/csv");
}

function recordButtons() {
  const row = element("div", "", { class: "usual" });
  const table = element("button", t("Download the results (CSV)"), { type: "button", id: "practice-table" });
  const clear = element("button", t("Begin a new record"), { type: "button", id: "practice-clear" });
  table.addEventListener("click", downloadTable);
  clear.addEventListener("click", () => {
    if (!window.confirm(t("Put away {} answers? Download them first to keep them.", record.results.length))) return;
    keepRecord({ results: [] });
    showStart();
  });
  row.append(table, clear);
  return row;
}

function learnerRow() {
  const row = element("p");
  const input = element("input", "", { type: "text", id: "practice-learner", maxlength: "60", autocomplete: "off" });
  input.value = record.learner;
  input.addEventListener("change", () => keepRecord({ learner: input.value.trim() }));
  row.append(element("label", t("Who answers (for the table)"), { for: input.id }), input);
  return row;
}

async function recordPart() {
  const part = element("div", "", { id: "practice-record" });
  part.append(element("h3", t("So far")));
  if (record.results.length === 0) part.append(element("p", t("Nothing was answered yet.")));
  else {
    const score = await ask(practiceRequest({ score: record.results }));
    const list = element("ul");
    for (const line of scoreLines(score)) list.append(element("li", line));
    const wrong = score.topics.filter(({ asked: all, right }) => right < all);
    part.append(list, ...listed(t("By mistake, right of asked"), score.topics.map(({ topic, right, asked: all }) => t("{}: {} of {}", topicName(topic), right, all))),
      ...listed(t("Look at again"), wrong.map(({ topic }) => topicOf(topic)?.again).filter(Boolean)), recordButtons());
  }
  if (!keepsOnDevice()) part.append(element("p", t("This browser keeps nothing: download the results before you close the page."), { class: "notice" }));
  part.append(learnerRow(), element("p", deck.note, { class: "note" }));
  return part;
}

// ---- a trainer's own windows ---------------------------------------------------------------------

async function addOwn(files) {
  const all = await Promise.all([...files].map(async (file) => ({ source: file.name, toml: file.size > largestFile ? "" : await file.text() })));
  keepRecord({ own: [...record.own, ...all] });
  await readDeck();
  showStart();
}

function ownPart() {
  const fold = element("details", "", { class: "more", id: "practice-own" });
  const input = element("input", "", { type: "file", id: "practice-files", accept: ".toml,text/plain", multiple: "" });
  input.addEventListener("change", () => addOwn(input.files));
  fold.append(element("summary", t("For trainers: windows of your own")), element("label", t("Add job files (.toml): the job's name is the title, its note is what one sees"), { for: input.id }), input);
  deck.own.forEach((one, i) => {
    const away = element("button", t("Put away"), { type: "button", "aria-label": t("Put away {}", one.title ?? record.own[i].source) });
    away.addEventListener("click", async () => {
      keepRecord({ own: record.own.filter((_, other) => other !== i) });
      await readDeck();
      showStart();
      by("practice-files").focus();
    });
    const line = element("p", one.refused ?? one.title, one.refused ? { class: "error" } : {});
    line.append(" ", away);
    fold.append(line);
  });
  fold.open = deck.own.length > 0;
  return fold;
}

async function readDeck() {
  deck = await ask(practiceRequest({ own: record.own }));
  if (!faultLine(deck)) deck.own.forEach((one, i) => (one.file = record.own[i]));
}

async function showStart() {
  round = null;
  const parts = [startForm(), await recordPart(), ownPart()];
  if (round === null) practiceRoot().replaceChildren(...parts);
}

// ---- a question ----------------------------------------------------------------------------------

// A list to tap and a button; resolves with the place of what was picked.
function choose(root, question, texts, name) {
  return new Promise((resolve) => {
    const form = element("form", "", { autocomplete: "off" });
    const field = element("fieldset", "", { class: "question" }), list = element("div", "", { class: "taps wide" });
    const complaint = element("p", "", { class: "error", role: "alert", hidden: "" });
    texts.forEach((text, i) => list.append(tapped({ id: name }, "radio", String(i), text, false)));
    field.append(element("legend", question, { tabindex: "-1" }), list, complaint);
    form.append(field, element("button", t("Answer"), { type: "submit" }));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const picked = form.querySelector("input:checked");
      complaint.hidden = picked !== null;
      complaint.textContent = t("Pick one of them first.");
      if (picked === null) return;
      for (const node of form.querySelectorAll("input, button")) node.disabled = true;
      resolve(Number(picked.value));
    });
    root.append(form);
  });
}

const focusLegend = (root) => [...root.querySelectorAll("legend")].at(-1)?.focus();

function localTime() {
  const now = new Date(), two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())} ${two(now.getHours())}:${two(now.getMinutes())}`;
}

const keepResult = (result) => keepRecord({ results: [...record.results, { date: localTime(), tables: about.tables, ...result }] });

const rightOrNot = (right) => (right ? t("Right.") : t("Not so."));

function nextButton() {
  const last = round.at + 1 === round.items.length;
  const next = element("button", last ? t("To the score") : t("Next"), { type: "button", id: "practice-next", class: "next" });
  next.addEventListener("click", async () => {
    if (!last) {
      round.at += 1;
      return showItem();
    }
    await showStart();
    headingOf({ id: "practice" }).focus();
  });
  return next;
}

function itemHead(item) {
  const head = element("div");
  const title = element("h3", item.title, { tabindex: "-1", id: "practice-item" });
  const stop = element("button", t("Stop here"), { type: "button", id: "practice-stop" });
  stop.addEventListener("click", showStart);
  head.append(element("p", round.kind === "drills" ? t("Drill {} of {}", round.at + 1, round.items.length) : t("Window {} of {}", round.at + 1, round.items.length), { class: "faint" }), title, element("p", item.see));
  if (item.pad) head.append(...listed(t("On the pad"), item.pad), element("p", t("The rest nobody knows."), { class: "faint" }));
  return [head, stop];
}

function showItem() {
  const item = round.items[round.at], mine = round;
  const body = element("div", "", { id: "practice-question" });
  const [head, stop] = itemHead(item);
  practiceRoot().replaceChildren(head, body, stop);
  by("practice-item").focus();
  return (round.kind === "drills" ? askDrill : askWindow)(body, item, () => round === mine);
}

// ---- drills --------------------------------------------------------------------------------------

async function askDrill(body, drill, goesOn) {
  const answers = inOrderOfChance([drill.right, ...drill.wrong]);
  const picked = answers[await choose(body, drill.ask, answers, "practice-drill")];
  if (!goesOn()) return;
  const right = picked === drill.right;
  keepResult({ item: drill.id, topic: drill.topic, picked_right: right, picked, right: drill.right });
  const shown = element("div", "", { class: "shown" });
  shown.append(
    element("p", `${rightOrNot(right)} ${drill.right}.`, { class: "told", tabindex: "-1" }),
    element("h4", t("Shows")), element("p", drill.proves), element("h4", t("Does not show")), element("p", drill.proves_not), nextButton());
  body.append(shown);
  shown.querySelector(".told").focus();
}

// ---- windows -------------------------------------------------------------------------------------

const verdicts = ["go", "caution", "refer"];

// The check may show an answer as well: what is named in this one has names of its own.
function withOwnNames(root) {
  const own = (name) => `practice-${name}`;
  for (const node of root.querySelectorAll("[id]")) node.id = own(node.id);
  for (const node of root.querySelectorAll("[aria-labelledby]")) node.setAttribute("aria-labelledby", own(node.getAttribute("aria-labelledby")));
  for (const node of root.querySelectorAll("[fill^='url(#']")) node.setAttribute("fill", node.getAttribute("fill").replace("#", `#${own("")}`));
  return root;
}

function shownWindow(worked, result, rights) {
  const shown = element("div", "", { class: "shown" }), answer = element("div", "", { class: "worked" });
  const told = element("div", "", { class: "told", tabindex: "-1" });
  told.append(
    element("p", t("Verdict: {} It is {}.", rightOrNot(result.answered === result.verdict), verdictWord(result.verdict))),
    element("p", t("What decides: {} {}", rightOrNot(result.picked_right), rights.join(" / "))));
  shown.append(told, ...listed(t("Compare"), worked.compare));
  if (worked.lesson !== "") shown.append(element("h3", t("Lesson")), element("p", worked.lesson));
  for (const { id, training } of worked.rules) shown.append(element("h4", t("Rule {}", id)), element("p", training));
  showAnswer(answer, worked, false, []);
  shown.append(element("h3", t("The answer")), withOwnNames(answer), nextButton());
  return shown;
}

// The engine works while the learner thinks.
async function askWindow(body, window_, goesOn) {
  const which = window_.file ?? { window: window_.id };
  const coming = work(practiceRequest({ ...which, seed: Math.floor(Math.random() * 2 ** 31) }));
  const answered = verdicts[await choose(body, t("Go, caution or refer?"), verdicts.map((word) => t(word).toUpperCase()), "practice-verdict")];
  const waiting = element("p", t("Working it out ..."), { role: "status" });
  body.append(waiting);
  const worked = await coming;
  waiting.remove();
  if (!goesOn()) return;
  if (faultLine(worked)) return body.append(element("p", faultLine(worked), { class: "error", role: "alert" }), nextButton());
  const texts = worked.offers.map(({ text }) => text);
  const choice = choose(body, t("What decides it, or weighs most?"), texts, "practice-decides");
  focusLegend(body);
  const offer = worked.offers[await choice];
  if (!goesOn()) return;
  const rights = worked.offers.filter(({ right }) => right).map(({ text }) => text);
  const result = { item: window_.id, topic: window_.topic, answered, verdict: worked.answer.verdict, picked_right: offer.right };
  keepResult({ ...result, picked: offer.text, right: rights.join(" / ") });
  const shown = shownWindow(worked, result, rights);
  body.append(shown);
  shown.querySelector(".told").focus();
}

// ---- the view ------------------------------------------------------------------------------------

// The deck is read when the view is first shown: until then nobody waits for it.
addView({
  id: "practice",
  title: "Practice",
  fill(section) {
    deck = null;
    section.append(
      element("p", t("Windows to practice at, all of them invented. You answer, then see what the engine makes of it."), { class: "faint" }),
      element("div", "", { id: "practice-body" }));
  },
  async enter() {
    if (deck !== null) return;
    deck = {};  // being read
    await readDeck();
    if (faultLine(deck)) practiceRoot().replaceChildren(element("p", faultLine(deck), { class: "notice", role: "alert" }));
    else await showStart();
  },
});
