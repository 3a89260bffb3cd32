// The page as a person meets it, in Chromium (CHROMIUM names it; Debian's when left out) from a file, without a network.
// HTML in the environment names the page. What the tests of the page share.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { after, before } = require("node:test");
const { pathToFileURL } = require("node:url");
const { chromium } = require("playwright-core");

const address = pathToFileURL(path.resolve(process.env.HTML)).href;
const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
const narrow = { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true };
const desktop = { viewport: { width: 1280, height: 800 } };
const slowestMs = 120_000;  // of an answer with all its drivers, on a machine that does other things
const examples = path.join(__dirname, "..", "..", "examples");

let browser;
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), "sunstrain-page-"));
before(async () => {
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
});
after(async () => {
  await browser.close();
  fs.rmSync(scratch, { recursive: true });
});

// The page in a window of its own; whatever it complains about or asks for fails the test. `hash`: the view to open;
// `script`: runs before the page's own.
async function withPage({ hash = "", script = null, ...options }, use) {
  const context = await browser.newContext({ bypassCSP: false, ...options, offline: true });
  const page = await context.newPage();
  page.setDefaultTimeout(slowestMs);
  if (script) await page.addInitScript(script);
  const complaints = [];
  page.on("console", (message) => message.type() !== "log" && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => {
    if (request.url().split("#")[0] !== address && !/^(blob|data):/.test(request.url())) complaints.push(request.url());
  });
  await page.goto(address + hash);
  if (options.javaScriptEnabled !== false) await page.waitForSelector("[data-question='width']", { state: "attached" });
  await use(page);
  await context.close();
  assert.deepEqual(complaints, []);
}

const question = (page, id) => page.locator(`[data-question='${id}']`);

async function unfold(locator) {
  for (const fold of (await locator.locator("xpath=ancestor::details[not(@open)]").all()).reverse())
    await fold.locator("> summary").click();
}

// {question's id: words of its list, or a value}
async function give(page, answers) {
  for (const [id, answer] of Object.entries(answers)) {
    const box = question(page, id);
    await box.waitFor({ state: "attached" });
    await unfold(box);
    if (await box.locator(`> select > option[value="${answer}"]`).count()) await box.locator("> select").selectOption(answer);
    else if (await box.locator(`input[value="${answer}"]`).count()) await box.locator(`label:has(input[value="${answer}"])`).click();
    else {
      await box.locator("input[type=text]").fill(answer);
      await box.locator("input[type=text]").blur();
    }
  }
}

const textOf = (id) => (page, pattern) =>
  page.waitForFunction(([where, text]) => new RegExp(text).test(document.getElementById(where)?.textContent ?? ""), [id, pattern.source]);
const printed = textOf("printed");  // the printed text tells the answer to what was given last
const status = textOf("status");
const answered = (page) => status(page, /^(GO|CAUTION|REFER): with film/);

// What the bar said while `act` went on, and what stood in the answer then.
async function statusesOf(page, act) {
  await page.evaluate(() => {
    window.seen = [];
    const note = () => window.seen.push({ line: document.getElementById("status").textContent, shown: document.getElementById("answer").textContent });
    new MutationObserver(note).observe(document.getElementById("main"), { childList: true, characterData: true, subtree: true });
  });
  await act();
  return page.evaluate(() => window.seen);
}

const sideways = (page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
const openFolds = (page) => page.locator("details").evaluateAll((folds) => folds.forEach((fold) => (fold.open = true)));

async function nothingForAxe(page) {
  await openFolds(page);
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(() => window.axe.run());
  assert.ok(passes.length > 15, `${passes.length} rules passed`);
  assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes[0].html]), []);
}

// A job file's text as the pane of the check: what runs before the page to have it kept.
function withJob(toml, name = "job.toml") {
  const pane = JSON.stringify({ answers: {}, others: {}, base: { name, toml } });
  return `localStorage.setItem("sunstrain.pane", ${JSON.stringify(pane)})`;
}

// Presses Tab until what `selector` names has the focus.
async function tabTo(page, selector) {
  for (let i = 0; i < 400; ++i) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((wanted) => document.activeElement.matches(wanted), selector)) return;
  }
  assert.fail(`${selector} is not reached by Tab`);
}

// Where SHOTS names a folder, a picture of the whole page stays there.
async function shot(page, name) {
  if (process.env.SHOTS) await page.screenshot({ path: path.join(process.env.SHOTS, `${name}.png`), fullPage: true });
}

module.exports = {
  address, answered, axe, desktop, examples, give, narrow, nothingForAxe, openFolds, phone, printed, question, scratch, shot, sideways, status, statusesOf, tabTo,
  textOf, withJob, withPage,
};
