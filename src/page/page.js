"use strict";
// The form, made from the key table, and the answer, made from the engine's JSON. What a person typed or a file holds
// goes into the page as text alone, never as markup.

const by = (id) => document.getElementById(id);

function element(tag, text, attributes = {}) {
  const made = document.createElement(tag);
  if (text) made.textContent = text;
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

// ---- the engine, in its worker -----------------------------------------------------------------

const source = new Blob([by("engine").textContent], { type: "text/javascript" });
const engine = new Worker(URL.createObjectURL(source));
const waiting = new Map();
let asked = 0;
engine.onmessage = ({ data }) => {
  waiting.get(data.id)(data.answer);
  waiting.delete(data.id);
};
engine.onerror = () => refuse("The engine does not start in this browser. Cut no film on this page; try a newer browser.");

function ask(request) {
  const id = ++asked;
  engine.postMessage({ id, request });
  return new Promise((resolve) => waiting.set(id, resolve));
}

// ---- the form ----------------------------------------------------------------------------------

// In the order one stands at a window; tables of keys, each under its heading. The first and the last are open.
const groups = [
  ["Size and facing", ["pane"]],
  ["Damage, age and history", ["history"]],
  ["Glass", ["glass", "lite", "edge"]],
  ["Sealed unit", ["cavity", "unit"]],
  ["Frame", ["frame"]],
  ["Shade", ["shading", "sash", "sign"]],
  ["Inside", ["inside"]],
  ["Storm or secondary panel", ["panel"]],
  ["Place", ["site"]],
  ["Film already on", ["second_film"]],
  ["Papers", ["job"]],
  ["Film", ["film"]],
];
const open = new Set(["Size and facing", "Film"]);
const panesAtMost = 3;

// "lite.*.tint" -> one key a lite; a cavity lies between two.
function concreteKeys(name) {
  if (!name.includes("*")) return [name];
  const count = name.startsWith("cavity.") ? panesAtMost - 1 : panesAtMost;
  return Array.from({ length: count }, (_, i) => name.replace("*", i + 1));
}

const nameOf = (key) => key.replace(/[._]/g, " ");

function fieldOf(field, key) {
  const id = `key-${key}`;
  const box = element("div");
  const help = [field.sentence, field.find, field.from && `${field.from} to ${field.to}.`, field.example && `For example ${field.example}`];
  box.append(element("label", nameOf(key) + (field.required ? " (needed)" : ""), { for: id }));
  box.append(element("p", help.filter(Boolean).join(" "), { id: `${id}-help`, class: "help" }));
  const picked = field.choices.length > 0 && !field.forms;
  const input = element(picked ? "select" : "input", "", { id, "data-key": key, "aria-describedby": `${id}-help` });
  if (field.required) input.setAttribute("aria-required", "true");
  if (picked) {
    input.append(element("option", "Don't know", { value: "" }));
    for (const word of field.choices) input.append(element("option", word, { value: word }));
  } else {
    input.placeholder = field.required || key.startsWith("film.") ? "" : "Don't know";
  }
  box.append(input);
  return box;
}

function buildForm(form) {
  for (const [heading, tables] of groups) {
    const group = element("details", "", { class: "group" });
    group.open = open.has(heading);
    group.append(element("summary", heading));
    for (const table of tables)
      for (const field of form.fields.filter(({ key }) => key.split(".")[0] === table))
        for (const key of concreteKeys(field.key)) group.append(fieldOf(field, key));
    by("groups").append(group);
  }
  by("version").textContent = `sunstrain ${form.version}, tables ${form.tables}`;
}

// ---- a job file under what the form says -------------------------------------------------------

let base = null;

function take(file) {
  base = file;
  by("base").hidden = base === null;
  by("base-name").textContent = base === null ? "" : `${base.name}: its keys hold where the form is silent.`;
  update();
}

const largestFile = 1e6;

async function readFile() {
  const file = by("file").files[0];
  if (!file) return;
  if (file.size > largestFile) return refuse(`${file.name}: larger than 1 MB, which no job is`);
  take({ name: file.name, toml: await file.text() });
}

// ---- the answer --------------------------------------------------------------------------------

// A pane's outline: whole, with one nick, with an arrow that leaves it.
const marks = {
  go: ["--go", "M8 8H40V40H8Z"],
  caution: ["--caution", "M8 8H26L29 14L32 8H40V40H8Z"],
  refer: ["--refer", "M32 8H8V40H40V28M20 28L42 6M30 6H42V18"],
};

function drawMark(verdict) {
  const [color, line] = marks[verdict];
  by("mark").replaceChildren();
  for (const [stroke, width] of [["#1a1a1a", 8], [`var(${color})`, 4]]) {
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", line);
    path.style.cssText = `fill: none; stroke: ${stroke}; stroke-width: ${width}px`;
    by("mark").append(path);
  }
}

function bar(name, lite) {
  const most = 2, share = lite.stress_ratio;  // the bar ends at twice what the edge bears; the number says more
  const track = element("span", "", { class: "track", "aria-hidden": "true" });
  const load = element("span", "", { class: "load" }), line = element("span", "", { class: "line" });
  load.style.width = `${(100 * Math.min(share, most)) / most}%`;
  line.style.left = `${100 / most}%`;
  track.append(load, line);
  const value = element("dd");
  const stress = `${lite.peak_edge_stress_mpa.toFixed(1)} of ${lite.allowable_edge_stress_mpa.toFixed(1)} MPa`;
  value.append(element("span", `${share.toFixed(2)} (${stress})`), track);
  by("bars").append(element("dt", name), value);
}

function list(heading, lines) {
  if (lines.length === 0) return;
  const items = element("ul");
  for (const line of lines) items.append(element("li", line));
  by("lists").append(element("h3", heading), items);
}

function unknownLine({ key, taken_as, decided, readings }) {
  const each = readings.map(({ value, verdict, stress_ratio }) => `${value}: ${verdict} (${stress_ratio.toFixed(2)})`);
  return `${nameOf(key)}: taken as ${taken_as}${decided ? ", and that decided. " : ""}${each.join("; ")}`;
}

const asks = ({ severity }) => severity !== "note";
const openRuleLine = ({ key, value, rule }) => `If ${nameOf(key)} is ${value}: ${rule.text}`;

// The sheet of glass that governs: the highest ratio is the answer's.
const governing = (lites) =>
  lites.reduce((worst, lite) => (lite.after_film.stress_ratio > worst.after_film.stress_ratio ? lite : worst));

function show({ answer, text }) {
  const word = answer.verdict.toUpperCase();
  const lite = governing(answer.lites);
  drawMark(answer.verdict);
  by("word").textContent = word;
  by("what").textContent = answer.to_do;
  by("bars").replaceChildren();
  by("lists").replaceChildren();
  bar("Without film", lite.before_film);
  bar("With film", lite.after_film);
  list("Guidance asks", answer.rules.filter(asks).map(({ text }) => text));
  list("Guidance would ask", answer.open_rules.filter(({ rule }) => asks(rule)).map(openRuleLine));
  list("Why", answer.reasons.filter(({ kind }) => kind !== "guidance").map(({ text }) => text));
  list("Not known", answer.unknowns.map(unknownLine));
  list("Would help", answer.helps);
  list("On the day", answer.rules.filter((rule) => !asks(rule)).map(({ text }) => text));
  by("note").textContent = answer.safety_note;
  by("printed").textContent = text;
  by("answer").hidden = false;
  say(`${word}. With film the edge takes ${lite.after_film.stress_ratio.toFixed(2)} of what it bears.`, false);
}

function say(line, bad) {
  by("status").textContent = line;
  by("status").classList.toggle("bad", bad);
}

// No answer stands beside a refusal: it would be of another pane.
function refuse(line) {
  by("answer").hidden = true;
  say(line, true);
}

function request() {
  const set = [];
  for (const field of document.querySelectorAll("[data-key]"))
    if (field.value.trim() !== "") set.push([field.dataset.key, field.value]);
  const whole = { set, units: by("units").value };
  return base === null ? whole : { ...whole, source: base.name, toml: base.toml };
}

let changed = false, working = false;

// An answer may take seconds where much is not known. The last one goes away first: it was of other words.
async function answerOnce() {
  const wanted = request();
  if (base === null && wanted.set.length === 0) return refuse("Enter width, height and the film.");
  by("answer").hidden = true;
  say("Working it out ...", false);
  const result = await ask(wanted);
  if (changed) return;
  if (result.refused || result.fault) return refuse(result.refused ?? `A fault of the program: ${result.fault}`);
  show(result);
}

// One request at a time, always of what the form says last.
async function update() {
  changed = true;
  if (working) return;
  working = true;
  while (changed) {
    changed = false;
    await answerOnce();
  }
  working = false;
}

by("form").addEventListener("change", (event) => {
  if (event.target.id === "file") readFile();
  else update();
});
by("form").addEventListener("submit", (event) => {
  event.preventDefault();
  update();
  by("answer-title").focus();
});
by("base-off").addEventListener("click", () => {
  by("file").value = "";
  take(null);
  by("file").focus();
});

by("main").hidden = false;
ask(null).then((form) => {
  if (form.fault) return refuse(`A fault of the program: ${form.fault}`);
  buildForm(form);
});
