// Making elements. What a person typed or a file holds goes into the page as text alone, never as markup.

const by = (id) => document.getElementById(id);

function withAttributes(made, attributes) {
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

function element(tag, text = "", attributes = {}) {
  const made = document.createElement(tag);
  if (text) made.textContent = text;
  return withAttributes(made, attributes);
}

function drawn(tag, attributes = {}, text = "") {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  if (text) made.textContent = text;
  return withAttributes(made, attributes);
}

// A list of lines under a heading; nothing where there are none.
function listed(heading, lines) {
  if (lines.length === 0) return [];
  const items = element("ul");
  for (const line of lines) items.append(element("li", line));
  return [element("h3", heading), items];
}
