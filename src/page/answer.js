// The answer, made from the engine's JSON.

// A pane's outline: whole, with one nick, with an arrow that leaves it.
const marks = {
  go: ["--go", "M8 8H40V40H8Z"],
  caution: ["--caution", "M8 8H26L29 14L32 8H40V40H8Z"],
  refer: ["--refer", "M32 8H8V40H40V28M20 28L42 6M30 6H42V18"],
};

function verdictMark(verdict) {
  const svg = drawn("svg", { viewBox: "0 0 48 48", width: 48, height: 48, "aria-hidden": "true", class: "mark" });
  const [color, line] = marks[verdict];
  for (const [stroke, width] of [["#1a1a1a", 8], [`var(${color})`, 4]]) {
    const path = drawn("path", { d: line });
    path.style.cssText = `fill: none; stroke: ${stroke}; stroke-width: ${width}px`;
    svg.append(path);
  }
  return svg;
}

const stressText = (mpa) => (settings.units === "inch" ? `${10 * Math.round((mpa * 145.0377) / 10)} psi` : `${mpa.toFixed(1)} MPa`);

function bar(name, figures, most) {
  const share = figures.stress_ratio;
  const track = element("span", "", { class: "track", "aria-hidden": "true" });
  const load = element("span", "", { class: share > 1 ? "load over" : "load" }), line = element("span", "", { class: "line" });
  load.style.width = `${(100 * share) / most}%`;
  line.style.left = `${100 / most}%`;
  track.append(load, line);
  const value = element("dd");
  const stress = t("{}; it bears {}", stressText(figures.peak_edge_stress_mpa), stressText(figures.allowable_edge_stress_mpa));
  value.append(element("span", `${share.toFixed(2)} (${stress})`), track);
  return [element("dt", name), value];
}

function loadBars({ before_film, after_film }) {
  const most = Math.max(2, before_film.stress_ratio, after_film.stress_ratio);  // at which both bars end
  const bars = element("dl", "", { class: "bars" });
  bars.append(...bar(t("Without film"), before_film, most), ...bar(t("With film"), after_film, most));
  return [element("h3", t("Load on the edge: a share of what it bears")), bars, element("p", t("The dashed line is what the edge bears: 1.00."), { class: "faint" })];
}

// "lite.2.coating" -> "lite 2 coating", as the program names it.
function nameOf(key) {
  if (key === "unit.build_up") return t("build-up of the unit");
  const words = key.replace(/[._]/g, " ").replace(/^(glass|site) /, "").replace(/^shading pattern$/, "shadow");
  const [number] = words.match(/[1-9]/) ?? [];
  return number ? t(words.replace(number, "{}"), number) : t(words);
}

// A word of a key's choices: what the table has for this key, else for the word; a number with its unit as it stands.
function valueOf(key, value) {
  const texts = languages.get(language).texts;
  return texts[`${key.replace(/\d/, "*")}=${value}`] ?? t(value);
}

function unknownLine({ key, taken_as, decided, readings }) {
  const each = readings.map(({ value, verdict, stress_ratio }) => `${valueOf(key, value)}: ${t(verdict)} (${stress_ratio.toFixed(2)})`);
  const taken = decided ? t("{}: taken as {}, and that decided.", nameOf(key), valueOf(key, taken_as)) : t("{}: taken as {}.", nameOf(key), valueOf(key, taken_as));
  return [taken, each.join("; ")].filter(Boolean).join(" ");
}

const asks = ({ severity }) => severity !== "note";
const openRuleLine = ({ key, value, rule }) => t("If {} is {}: {}", nameOf(key), valueOf(key, value), rule.text);

function answerLists(answer, soFar) {
  const settled = answer.unknowns.filter(({ decided, readings }) => decided || readings.length > 0);
  const usual = answer.unknowns.filter((unknown) => !settled.includes(unknown));
  const lists = [
    ...listed(t("Guidance asks"), answer.rules.filter(asks).map(({ text }) => text)),
    ...listed(t("Guidance would ask"), answer.open_rules.filter(({ rule }) => asks(rule)).map(openRuleLine)),
    ...listed(t("Why"), answer.reasons.filter(({ kind }) => kind !== "guidance").map(({ text }) => text)),
    ...listed(t("Not known, and it matters"), settled.map(unknownLine)),
    ...listed(t("Would help"), answer.helps),
    ...listed(t("On the day"), answer.rules.filter((rule) => !asks(rule)).map(({ text }) => text)),
  ];
  if (usual.length > 0) {
    const fold = element("details", "", { "data-fold": "usual" });
    const [title, heading] = soFar ? [t("Not known, and being tried: {}", usual.length), t("Taken so far")] : [t("Not known either, taken as usual: {}", usual.length), t("Taken as usual")];
    fold.append(element("summary", title), ...listed(heading, usual.map(unknownLine)));
    lists.push(fold);
  }
  return lists;
}

function printedText(text) {
  const fold = element("details", "", { class: "screen", "data-fold": "printed" });
  const label = t("As the program prints it");
  fold.append(element("summary", label), element("pre", text, { id: "printed", tabindex: "0", role: "region", "aria-label": label }));
  return fold;
}

// How much of a verdict the engine's reply gives: the whole; the least it can be; none, for what is still being worked
// out may yet speak against the film, or take back what seems to.
function standing({ at_least, at_most, answer }) {
  if (at_least === at_most) return "whole";
  return at_least === answer.verdict && at_least !== "go" ? "least" : "none";
}

const verdictWord = (verdict) => t(verdict).toUpperCase();

// What settles a caution is found with the whole answer.
const toDo = ({ verdict, to_do }, soFar) => (soFar && verdict === "caution" ? t("Don't cut film yet. Still working out what would settle it ...") : to_do);

function verdictLine(result, soFar) {
  const { answer } = result;
  const stands = standing(result);
  const line = element("p", "", { class: `verdict ${stands === "none" ? "so-far" : answer.verdict}` });
  if (stands === "none" && answer.verdict === "go") {
    line.append(element("strong", t("So far nothing against it"), { class: "word" }), element("span", t("Still working it out: no answer yet.")));
    return line;
  }
  const word = verdictWord(answer.verdict);
  const said = { whole: word, least: t("At least {}", word), none: t("So far {}", word) }[stands];
  line.append(verdictMark(answer.verdict), element("strong", said, { class: "word" }), element("span", toDo(answer, soFar)));
  return line;
}

// The new in the place of the old: what stood unfolded does so again, and keeps the focus.
function inPlace(root, parts) {
  const folds = () => [...root.querySelectorAll("details")];
  const open = new Set(folds().filter((fold) => fold.open).map((fold) => fold.dataset.fold));
  const focused = document.activeElement?.closest("#answer details")?.dataset.fold;
  root.replaceChildren(...parts);
  for (const fold of folds()) fold.open = open.has(fold.dataset.fold);
  if (focused) folds().find((fold) => fold.dataset.fold === focused)?.querySelector("summary").focus();
}

// The engine's reply to a check; its text is empty while what stands beside the verdict is still worked out. soFar: a
// first look. entered: what tells what the answer is of.
function showAnswer(root, result, soFar, entered) {
  const { answer, text, picture } = result;
  const parts = [verdictLine(result, soFar)];
  const governing = answer.lites[picture.governing];
  parts.push(...loadBars(governing), panePicture(picture, governing.after_film));
  parts.push(...answerLists(answer, soFar), element("p", answer.safety_note, { class: "note" }));
  parts.push(text === "" ? element("p", t("Still working out what would help ..."), { class: "faint" }) : printedText(text));
  if (!soFar) parts.push(...entered);
  inPlace(root, parts);
}
