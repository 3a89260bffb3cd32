// Our own line drawings for what one has to look at, out of the templates of drawings.html, by the question's name.

function drawingOf({ name }) {
  const found = by("drawings").content.querySelector(`[data-for~="${CSS.escape(name)}"]`);
  if (!found) return null;
  const figure = found.cloneNode(true);
  tellMarked(figure);
  return figure;
}
