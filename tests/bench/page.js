// How long the page takes on a phone-sized screen: from the last input to the first look, the verdict and the whole
// answer on the screen, plain and with the processor slowed fourfold, in the page and in its engine. Prints ms, the
// median of several changes; asserts nothing.
//   HTML=build/release/page/sunstrain.html node tests/bench/page.js     (after npm ci in tests/page)
"use strict";
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { chromium } = require(path.join(__dirname, "..", "page", "node_modules", "playwright-core"));

const address = pathToFileURL(path.resolve(process.env.HTML)).href;
const median = (numbers) => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)];

// Whatever is shown in the answer's place from now on: its times since the change, by what it is.
function watchAnswers() {
  const kindOf = (root) => {
    if (!root.querySelector(".verdict")) return null;
    if (root.querySelector(".verdict.so-far")) return "first";
    return root.querySelector("#printed") ? "whole" : "verdict";
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

async function change(page, id, value) {
  return page.evaluate(([name, text]) => {
    const box = document.querySelector(`[data-question='${name}'] input[type=text]`);
    window.seen = {};
    box.value = text;
    window.changedAt = performance.now();
    box.dispatchEvent(new Event("input", { bubbles: true }));
    box.dispatchEvent(new Event("change", { bubbles: true }));
  }, [id, value]);
}

const wholeThere = (page) => page.waitForFunction(() => "whole" in window.seen, null, { timeout: 120_000 });

async function measure(browser, factor) {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, offline: true });
  const page = await context.newPage();
  await slowed(page, factor);
  const from = Date.now();
  await page.goto(address);
  await page.waitForSelector("[data-question='width'] input[type=text]");
  const ready = Date.now() - from;
  await page.evaluate(watchAnswers);
  await change(page, "width", "900");
  await change(page, "height", "1200");
  await change(page, "absorptance", "45");
  await wholeThere(page);
  const first = await page.evaluate(() => window.seen);
  const updates = [];
  for (const width of ["800", "850", "950", "1000", "1050"]) {
    await change(page, "width", width);
    await wholeThere(page);
    updates.push(await page.evaluate(() => window.seen));
  }
  await context.close();
  const row = (what, seen) => console.log(`  ${what}: first look ${Math.round(seen.first)}, verdict ${Math.round(seen.verdict)}, whole ${Math.round(seen.whole)}`);
  console.log(`processor slowed ${factor} times: the form stands after ${ready} ms`);
  row("first answer", first);
  row("an update", Object.fromEntries(["first", "verdict", "whole"].map((kind) => [kind, median(updates.map((seen) => seen[kind]))])));
}

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
  for (const factor of [1, 4]) await measure(browser, factor);
  await browser.close();
})();
