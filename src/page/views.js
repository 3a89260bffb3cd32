// The views: each a section of its own, picked by a button, with its name in the address. A view is made anew whenever
// the language or the units change, from what it keeps; one that no file adds is not there.

const views = [];
const settings = { units: "metric", language: "en", ...kept("settings", {}) };

// id: in the address (#id); title: English; fill(section): makes what stands in it; enter(): whenever it is shown.
const addView = (view) => views.push({ enter() {}, ...view });

const viewInAddress = () => views.find(({ id }) => `#${id}` === window.location.hash) ?? views[0];
const headingOf = (view) => by(`view-${view.id}`).querySelector("h2");

function showView(view) {
  for (const { id } of views) {
    by(`view-${id}`).hidden = id !== view.id;
    if (id === view.id) by(`to-${id}`).setAttribute("aria-current", "page");
    else by(`to-${id}`).removeAttribute("aria-current");
  }
  document.title = `${t(view.title)} - sunstrain`;
  view.enter();
}

function goTo(id) {
  if (window.location.hash !== `#${id}`) window.location.hash = id;
}

function fillView(view) {
  const section = by(`view-${view.id}`);
  section.replaceChildren(element("h2", t(view.title), { id: `title-${view.id}`, tabindex: "-1" }));
  by(`to-${view.id}`).textContent = t(view.title);
  view.fill(section);
}

function tellAll() {
  speak(settings.language);
  by("views").setAttribute("aria-label", t("Views"));
  for (const view of views) fillView(view);
  showView(viewInAddress());
}

function setting(name, value) {
  settings[name] = value;
  keep("settings", settings);
  tellAll();
}

function startPickers() {
  by("units").value = settings.units;
  by("units").addEventListener("change", ({ target }) => setting("units", target.value));
  for (const [code, { name }] of languages) by("language").append(element("option", name, { value: code, lang: code }));
  by("language").value = settings.language;
  by("language").parentElement.hidden = languages.size === 1;
  by("language").addEventListener("change", ({ target }) => setting("language", target.value));
}

function startViews() {
  for (const { id } of views) {
    const button = element("button", "", { type: "button", id: `to-${id}` });
    button.addEventListener("click", () => goTo(id));
    by("views").append(button);
    by("main").append(element("section", "", { id: `view-${id}`, class: "view", "aria-labelledby": `title-${id}` }));
  }
  by("views").hidden = views.length === 1;
  startPickers();
  tellAll();
  window.addEventListener("hashchange", () => {
    showView(viewInAddress());
    headingOf(viewInAddress()).focus();
  });
}
