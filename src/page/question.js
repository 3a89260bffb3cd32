// One question of the form: a list to tap, a value to type, or both; what the engine says of the answer; how to tell.

const mostTapped = 12;  // of a list; a longer one is a pick-list

const optionsOf = ({ answers, words, kind }) => (answers.length > 0 || kind === "choice" ? answers : words);
const fieldId = ({ id }) => `q-${id}`;
const notKnownOffered = ({ needed, asked }) => !needed && asked !== "always";

// ---- lists -------------------------------------------------------------------------------------

function tapped(question, type, value, text, checked) {
  const label = element("label", "", { class: "tap" });
  const input = element("input", "", { type, name: fieldId(question), value });
  input.checked = checked;
  label.append(input, element("span", text));
  return label;
}

// "" stands for "don't know".
function radios(question, answer, put) {
  const list = element("div", "", { class: "taps" });
  for (const option of optionsOf(question)) list.append(tapped(question, "radio", option, t(option), answer === option));
  if (notKnownOffered(question)) list.append(tapped(question, "radio", "", t("Don't know"), answer === ""));
  list.addEventListener("change", ({ target }) => put(target.value));
  return list;
}

// The first answer is what holds of the rest: it stands alone, as "don't know" does.
function boxes(question, answer, put) {
  const list = element("div", "", { class: "taps" });
  const picked = Array.isArray(answer) ? answer : [];
  const [none] = optionsOf(question);
  for (const option of optionsOf(question)) list.append(tapped(question, "checkbox", option, t(option), picked.includes(option)));
  list.append(tapped(question, "checkbox", "", t("Don't know"), answer === ""));
  list.addEventListener("change", ({ target }) => {
    const alone = (value) => value === none || value === "";
    for (const box of list.querySelectorAll("input"))
      if (box !== target && target.checked && (alone(target.value) || alone(box.value))) box.checked = false;
    const values = [...list.querySelectorAll("input:checked")].map(({ value }) => value);
    put(values.length === 0 ? undefined : values[0] === "" ? "" : values);
  });
  return list;
}

const untouched = "-";

function pickList(question, answer, put) {
  const select = element("select", "", { id: fieldId(question) });
  const options = [[untouched, t("Pick one")], ...optionsOf(question).map((option) => [option, t(option)])];
  if (notKnownOffered(question)) options.push(["", t("Don't know")]);
  for (const [value, text] of options) select.append(element("option", text, { value }));
  select.value = answer ?? untouched;
  if (select.selectedIndex < 0) select.value = untouched;
  select.addEventListener("change", () => put(select.value === untouched ? undefined : select.value));
  return select;
}

// ---- values ------------------------------------------------------------------------------------

function fractionPicker(question, picked) {
  const select = element("select", "", { "aria-label": t("fraction of an inch"), class: "fraction" });
  for (const fraction of inchFractions) select.append(element("option", fraction || "0", { value: fraction }));
  select.value = picked;
  return select;
}

// Text alone for kinds of words; with a unit behind it for the others.
function typedValue(question, answer, put, labels) {
  const row = element("div", "", { class: "value" });
  const text = typeof answer === "string" && !optionsOf(question).includes(answer) ? answer : "";
  const split = picksFraction(question.kind);
  const parts = split ? inchParts(text) : { whole: shownValue(question.kind, text), fraction: "" };
  const number = Boolean(question.from);
  const input = element("input", "", { type: "text", autocomplete: "off", ...labels, ...(number && { inputmode: "decimal" }) });
  input.value = parts.whole;
  const fraction = split ? fractionPicker(question, parts.fraction) : null;
  const read = () => withUnit(question.kind, [input.value.trim(), fraction?.value].filter(Boolean).join(" "));
  row.append(input, ...(fraction ? [fraction] : []), element("span", unitOf(question.kind), { class: "unit" }));
  row.addEventListener("change", () => put(read() === "" ? undefined : read()));
  return row;
}

function notKnownToggle(answer, put) {
  const button = element("button", t("Don't know"), { type: "button", class: "not-known", "aria-pressed": String(answer === "") });
  button.addEventListener("click", () => put(answer === "" ? undefined : "", true));
  return button;
}

function usualTaps(question, put) {
  const row = element("div", "", { class: "usual" });
  for (const size of usualOf(question)) {
    const button = element("button", size, { type: "button" });
    button.addEventListener("click", () => put(size, true));
    row.append(button);
  }
  return row;
}

// ---- the question ------------------------------------------------------------------------------

const asksOf = (question) => t(question.lite).trim() + (question.lite ? " " : "") + t(question.ask);

function howToTell(question) {
  const drawing = drawingOf(question);
  if (!question.find && !drawing) return [];
  const fold = element("details", "", { class: "how" });
  fold.append(element("summary", t("How to tell")), element("p", t(question.find)));
  if (drawing) fold.append(drawing);
  return [fold];
}

function listPart(question, answer, put) {
  if (question.several) return boxes(question, answer, put);
  return optionsOf(question).length > mostTapped ? pickList(question, answer, put) : radios(question, answer, put);
}

// Of a list: its words named by a legend. Of a value alone: a label.
function fieldsOf(question, answer, put) {
  const list = optionsOf(question).length > 0, id = fieldId(question);
  const described = { "aria-describedby": `${id}-notes` };
  const box = element(list ? "fieldset" : "div", "", { class: "question", "data-question": question.id, ...(list && described) });
  box.append(list ? element("legend", asksOf(question)) : element("label", asksOf(question), { for: `${id}-value` }));
  if (list) {
    const part = listPart(question, answer, put);
    if (part.tagName === "SELECT") part.setAttribute("aria-label", asksOf(question));
    box.append(part);
  } else {
    box.append(usualTaps(question, put));
  }
  if (question.takes_value || question.kind === "text") {
    const labels = list ? { "aria-label": t("or as a value") } : described;
    const row = typedValue(question, answer, put, { id: `${id}-value`, ...labels });
    if (list) row.prepend(element("span", t("or")));
    if (!list && notKnownOffered(question)) row.append(notKnownToggle(answer, put));
    box.append(row);
  }
  return box;
}

// put(value, remake): the answer, undefined when it is taken back; remake: the fields show another than was typed.
function questionNode(question, answer, put) {
  const box = fieldsOf(question, answer, put);
  box.append(element("div", "", { id: `${fieldId(question)}-notes`, class: "notes" }), ...howToTell(question));
  noteOn(box, question, answer);
  return box;
}

// What the engine makes of the answer, as it stands now.
function noteOn(box, question, answer) {
  const given = typeof answer === "string" && answer !== "";
  const lines = [];
  if (given && question.takes_value && question.known && !question.refused) lines.push(["taken", t("Taken as {}", question.known)]);
  if (answer === undefined && question.before) lines.push(["taken", t("The file says {}", question.before)]);
  if (question.refused) lines.push(["error", question.refused]);
  const notes = box.querySelector(".notes");
  notes.replaceChildren(...lines.map(([kind, text]) => element("p", text, { class: kind })));
  for (const input of box.querySelectorAll("input, select")) input.setAttribute("aria-invalid", String(Boolean(question.refused)));
  box.classList.toggle("wrong", Boolean(question.refused));
}
