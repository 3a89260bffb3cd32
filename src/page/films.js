// The user's own list of films, compared on the pane that is being checked: a ranked list. No list comes with the page.

let filmsWork = null;

const percent = (share) => `${Math.round(100 * share)} %`;

function filmFigures(film) {
  const figures = [t("takes {} of what the edge bears", film.stress_ratio.toFixed(2)), t("keeps out {} of the sun's heat", percent(film.sun_heat_kept_out))];
  if (film.daylight !== null) figures.push(t("lets {} of the daylight in", percent(film.daylight)));
  return figures.join("; ");
}

function rankedFilm(film) {
  const item = element("li", "", { class: "ranked" }), head = element("p", "", { class: "head" });
  head.append(verdictMark(film.verdict), element("strong", verdictWord(film.verdict), { class: "word" }), element("span", film.name));
  item.append(head, element("p", filmFigures(film)), element("p", film.reason, { class: "reason" }));
  const decided = film.decided_by.map(({ key }) => nameOf(key));
  if (film.verdict !== "go" && decided.length > 0) item.append(element("p", t("Find out first: {}", decided.join(", "))));
  return item;
}

function showRanked({ title, films, errors, safety_note }) {
  const order = element("ol", "", { class: "films" });
  order.append(...films.map(rankedFilm));
  by("films-answer").replaceChildren(
    element("h3", t("On {}", title)),
    element("p", t("Go before caution before refer; of each first what keeps out most heat."), { class: "faint" }),
    order, ...listed(t("Could not be tried"), errors.map(({ name, error }) => `${name}: ${error}`)), element("p", safety_note, { class: "note" }));
}

function sayOfFilms(line) {
  by("films-status").textContent = line;
}

async function compareFilms() {
  filmsWork?.abort();
  const { signal } = (filmsWork = new AbortController());
  const films = by("films-list").value;
  by("films-answer").replaceChildren();
  if (films.trim() === "") return sayOfFilms(t("Paste your list, or open it as a file."));
  by("films-stop").hidden = false;
  sayOfFilms(t("Trying the films on the pane ..."));
  const request = requestOf(currentPane(), { want: "rank", films, films_name: t("your list") });
  const told = await work(request, signal, ([done, of]) => sayOfFilms(t("Trying the films on the pane: {} of {} ...", done, of)));
  if (filmsWork.signal !== signal) return;
  by("films-stop").hidden = true;
  if (told.stopped) return sayOfFilms(t("Stopped."));
  if (faultLine(told)) return sayOfFilms(faultLine(told));
  sayOfFilms(t("{} films compared on this pane.", told.films.length));
  showRanked(told);
}

async function openFilms(file) {
  if (!file) return;
  if (file.size > largestFile) return sayOfFilms(t("{}: larger than 1 MB, which no list of films is", file.name));
  by("films-list").value = await file.text();
  keep("films", by("films-list").value);
  compareFilms();
}

function filmsForm() {
  const form = element("form", "", { id: "films-form", autocomplete: "off" });
  const file = element("input", "", { id: "films-file", type: "file", accept: ".csv,.tsv,.txt,text/csv,text/plain" });
  const list = element("textarea", "", { id: "films-list", rows: "6", spellcheck: "false", "aria-describedby": "films-how" });
  const stop = element("button", t("Stop"), { type: "button", id: "films-stop", hidden: "" });
  list.value = kept("films", "");
  file.addEventListener("change", () => openFilms(file.files[0]));
  list.addEventListener("change", () => keep("films", list.value));
  stop.addEventListener("click", () => filmsWork.abort());
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    compareFilms();
  });
  form.append(
    element("p", t("Your own list, as a spreadsheet saves it: a row for each film, columns such as film.name, film.solar_absorptance or film.solar_transmittance with film.solar_reflectance, film.reference_glass, film.visible_transmittance, from its sheet. No list comes with this page, and yours does not leave this device."), { id: "films-how", class: "faint" }),
    element("label", t("Open your list (.csv)"), { for: "films-file" }), file, element("label", t("Or paste it"), { for: "films-list" }), list,
    element("button", t("Compare on this pane"), { type: "submit" }), stop);
  return form;
}

addView({
  id: "films",
  title: "Films",
  fill(section) {
    section.append(
      element("p", t("Which of your films the pane that you check takes. Its own film is left aside; where that goes holds for all."), { class: "faint" }),
      filmsForm(), element("p", "", { id: "films-status", role: "status" }), element("div", "", { id: "films-answer" }));
  },
});
