// The last of the page's scripts: what stands ready by then is shown.

let about = {};  // what the engine says of itself

async function start() {
  about = await ask({ want: "about" });
  by("main").hidden = false;
  if (about.fault) {
    const line = `${t("A fault of the program:")} ${about.fault}`;
    by("main").append(element("p", line, { class: "notice", role: "alert" }));
    return;
  }
  addLanguages(about.languages ?? {});
  by("version").textContent = `sunstrain ${about.version}, ${about.tables}`;
  startViews();
}

start();
