// The questions on one scrolling form: each part with its quick questions first and the others folded. Whatever an
// answer changes is changed in place, so that nobody loses the place on the page.

// onAnswer(id, value): the pane's answer or, of a key that no question is about, its text.
class Form {
  #parts = new Map();
  #nodes = new Map();  // id -> {node, made: what it was made from}
  #remake = new Set();

  constructor(root, onAnswer) {
    this.root = root;
    this.onAnswer = onAnswer;
  }

  show({ questions, others }, pane) {
    const rest = t("Anything else that is known");
    const more = others.map((field) => ({ ...field, id: field.key, name: field.key, part: rest, lite: otherLite(field), other: true,
      answers: field.kind === "choice" ? field.words : [], several: false, takes_value: field.kind !== "choice", needed: false, asked: "whole", refused: "", }));
    const all = [...questions, ...more];
    const ids = new Set(all.map(({ id }) => id));
    for (const [id, { node }] of this.#nodes) if (!ids.has(id)) this.#drop(id, node);
    for (const question of all) this.#place(question, (question.other ? pane.others : pane.answers)[question.id]);
    this.#order(all);
  }

  // The line at the field that it is about; false where it names none.
  fault(line) {
    const named = [...this.#nodes.values()].filter(({ question }) => line.includes(question.key));
    const longest = named.sort((one, other) => other.question.key.length - one.question.key.length)[0];
    if (longest) noteOn(longest.node, { ...longest.question, refused: line });
    return Boolean(longest);
  }

  #place(question, answer) {
    const made = JSON.stringify([question.lite, question.ask, question.answers, question.needed]);
    const old = this.#nodes.get(question.id);
    if (old?.made === made && !this.#remake.delete(question.id)) {
      old.question = question;
      return noteOn(old.node, question, answer);
    }
    const focused = old?.node.contains(document.activeElement) ? document.activeElement : null;
    const put = (value, remake) => {
      if (remake) this.#remake.add(question.id);
      this.onAnswer(question, value);
    };
    const node = questionNode(question, answer, put);
    old?.node.replaceWith(node);
    this.#nodes.set(question.id, { node, made, question });
    if (focused) refocus(node, focused);
  }

  #drop(id, node) {
    node.remove();
    this.#nodes.delete(id);
  }

  #order(all) {
    const filled = new Map();
    for (const question of all) {
      const part = this.#partOf(question.part, all);
      const home = question.asked === "whole" ? part.more : part.first;
      filled.set(home, [...(filled.get(home) ?? []), this.#nodes.get(question.id).node]);
    }
    for (const [home, nodes] of filled) inOrder(home, nodes);
    for (const part of this.#parts.values()) {
      part.fold.hidden = !filled.has(part.more);
      part.section.hidden = !filled.has(part.more) && !filled.has(part.first);
    }
  }

  #partOf(name, all) {
    if (this.#parts.has(name)) return this.#parts.get(name);
    const atOnce = all.some(({ part, asked }) => part === name && asked !== "whole");
    const section = element("div", "", { class: "part" });
    const first = element("div"), fold = element("details", "", { class: "more" }), more = element("div");
    if (atOnce) section.append(element("h3", t(name)), first);
    fold.append(element("summary", atOnce ? t("More: {}", t(name)) : t(name)), more);
    section.append(fold);
    this.root.append(section);
    const part = { section, first, fold, more };
    this.#parts.set(name, part);
    return part;
  }
}

// "Lite 2. " before a key of a lite or cavity.
function otherLite({ key }) {
  const [, table, number] = key.match(/^(lite|cavity)\.(\d)\./) ?? [];
  return table ? t(table === "lite" ? "Lite {} from outdoors. " : "Gap {} from outdoors. ", number) : "";
}

// Nodes that stand right already are not moved: that would take the focus from them.
function inOrder(home, nodes) {
  nodes.forEach((node, i) => {
    if (home.children[i] !== node) home.insertBefore(node, home.children[i] ?? null);
  });
}

// The same field of what was made anew.
function refocus(node, focused) {
  const fields = [...node.querySelectorAll("input, select, button")];
  const same = fields.find((field) => field.tagName === focused.tagName && (field.value || field.textContent) === (focused.value || focused.textContent));
  (same ?? fields[0])?.focus();
}
