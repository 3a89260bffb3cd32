// How long the page takes on a phone-sized screen: from the last input to the first look, the verdict and the whole
// answer on the screen, plain and with the processor of the page slowed fourfold (Chromium slows no worker). A first look
// ("at least", "so far") is left out where it is the verdict already. Prints ms; asserts nothing.
//   HTML=build/release/page/sunstrain.html node tests/bench/page.js     (after npm ci in tests/page)
"use strict";
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { chromium } = require(path.join(__dirname, "..", "page", "node_modules", "playwright-core"));

const address = pathToFileURL(path.resolve(process.env.HTML)).href;

// Whatever is shown in the answer's place from now on: its times since the change, by what it is.
function watchAnswers() {
  const kindOf = (root) => {
    if (root.querySelector("#printed")) return "whole";
    const word = root.querySelector(".verdict .word")?.textContent;
    return word && (/^(At least|So far) /.test(word) ? "first" : "verdict");
  };
  window.seen = {};
  new MutationObserver(() => {
    const kind = kindOf(document.getElementById("answer"));
    if (kind && !(kind in window.seen)) window.seen[kind] = performance.now() - window.changedAt;
  }).observe(document.getElementById("answer"), { childList: true, subtree: true });
}

async function slowed(page, factor) {
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: factor });
}

// What a person does, and when.
async function type(page, id, value) {
  await page.evaluate(([name, text]) => {
    const box = document.querySelector(`[data-question='${name}'] input[type=text]`);
    window.seen = {};
    box.value = text;
    window.changedAt = performance.now();
    box.dispatchEvent(new Event("input", { bubbles: true }));
    box.dispatchEvent(new Event("change", { bubbles: true }));
  }, [id, value]);
}

async function tap(page, id, words) {
  await page.waitForSelector(`[data-question='${id}'] input[value='${words}']`, { state: "attached", timeout: 5000 });
  await page.evaluate(([name, value]) => {
    const box = document.querySelector(`[data-question='${name}'] input[value='${value}']`);
    window.seen = {};
    window.changedAt = performance.now();
    box.click();
  }, [id, words]);
}

async function seenOf(page) {
  await page.waitForFunction(() => "whole" in window.seen, null, { timeout: 120_000 });
  return page.evaluate(() => window.seen);
}

const typed = (answers) => Object.entries(answers).map(([id, value]) => (page) => type(page, id, value));
const tapped = (answers) => Object.entries(answers).map(([id, words]) => (page) => tap(page, id, words));

const size = typed({ width: "900", height: "1200" });
const quick = (panes) => tapped({ damage: "no damage to be seen", make: "plain glass, as far as one sees", slope: "upright",
  fog: "no, or a single pane", "film-on": "no", "cracks-here": "no", owner: "yes", panes });
const further = tapped({ coating: "no odd reflection, no mirror look", tint: "clear (a little green at the edge)", frame: "wood",
  "frame-sun": "all of it", shadow: "none", blind: "none", heat: "nothing" });
const scenarios = [
  { name: "Only size and film known", film: "45", before: size, pause_ms: 0,
    changes: ["800", "850", "950", "1000", "1050"].flatMap((width) => typed({ width })) },
  { name: "Down the form, a sealed unit", film: "25", before: [...quick("two, a sealed unit"), ...size], pause_ms: 1500, changes: further },
  { name: "Down the form, one tempered pane", film: "25", pause_ms: 1500,
    before: [...quick("one pane"), ...tapped({ "mark.1": "tempered" }), ...size], changes: further },
];

// `before` the film, whose figure makes the first answer; then one change after the other.
async function measure(browser, { name, film, before, changes, pause_ms }, factor) {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, offline: true });
  const page = await context.newPage();
  await slowed(page, factor);
  const from = Date.now();
  await page.goto(address);
  await page.waitForSelector("[data-question='width'] input[type=text]");
  const ready = Date.now() - from;
  await page.evaluate(watchAnswers);
  for (const act of before) await act(page);
  await type(page, "absorptance", film);
  const first = await seenOf(page);
  const updates = [];
  for (const act of changes) {
    await page.waitForTimeout(pause_ms);
    await act(page);
    updates.push(await seenOf(page));
  }
  await context.close();
  const row = (what, seen) => console.log(`  ${what}: ${Object.entries(seen).map(([kind, ms]) => `${kind} ${Math.round(ms)}`).join(", ")}`);
  console.log(`${name}, processor slowed ${factor} times: the form stands after ${ready} ms`);
  row("first answer", first);
  for (const seen of updates) row("an update", seen);
}

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
  for (const scenario of scenarios) {
    for (const factor of [1, 4]) await measure(browser, scenario, factor);
  }
  await browser.close();
})();
