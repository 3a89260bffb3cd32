// The texts of the page in the language picked. English stands in the code itself and is the key of its translations.

const languages = new Map([["en", { name: "English", texts: {} }]]);
let language = "en";

// t("Lite {} of {}", 1, 2); a translation may take the values in another order: "{1} ... {0}".
function t(english, ...values) {
  let next = 0;
  const text = languages.get(language).texts[english] ?? english;
  return text.replace(/\{(\d*)\}/g, (hole, number) => String(values[number === "" ? next++ : Number(number)]));
}

// Elements that the html holds, marked data-t: their English is what stood there first.
function tellMarked(root) {
  for (const node of root.querySelectorAll("[data-t]")) {
    node.dataset.t ||= node.textContent.trim().replace(/\s+/g, " ");
    node.textContent = t(node.dataset.t);
  }
}

// {code: {name, texts: {English: translation}}}
function addLanguages(more) {
  for (const [code, tongue] of Object.entries(more)) languages.set(code, tongue);
}

function speak(code) {
  language = languages.has(code) ? code : "en";
  document.documentElement.lang = language;
  tellMarked(document);
}
