// A visit: many types of pane, kept, shared as a file, printed, asked about.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { test } = require("node:test");
const { answered, desktop, examples, give, narrow, nothingForAxe, phone, shot, sideways, tabTo, textOf, withPage } = require("./in_browser.js");

const status = textOf("visit-status");
const summary = textOf("visit-summary");
const known = "lite.1.kind,lite.1.tint,lite.1.thickness,lite.1.treatment,lite.1.coating,glass.panes,site.place,pane.facing,film.solar_absorptance";
const schedule = `job.name,pane.width,pane.height,quantity,frame.kind,${known}\n` +
  `kitchen,0.9 m,1.2 m,4,vinyl,float,clear,4 mm,annealed,none,1,denver,N,0.2\n` +
  `stairs,1.2 m,1.5 m,2,vinyl,float,clear,6 mm,annealed,none,1,denver,S,0.7\n` +
  `hall,20 miles,1.5 m,1,vinyl,float,clear,6 mm,annealed,none,1,denver,S,0.7\n`;

const file = (name, text) => ({ name, mimeType: "text/plain", buffer: Buffer.from(text) });
const read = (page, name, text) => page.locator("#visit-file").setInputFiles(file(name, text));
const done = (page) => summary(page, /By verdict/);
const labels = (page) => page.locator(".type .head > span:last-child").allTextContents();
const action = (page, type, word) => page.locator(".type", { hasText: type }).getByRole("button", { name: new RegExp(`^${word}`) });

for (const [size, options] of Object.entries({ phone, narrow, desktop })) {
  test(`${size}: a schedule read in, each type with its answer, the worst first, the rest summed up`, async () => {
    await withPage({ ...options, hash: "#visit" }, async (page) => {
      await read(page, "school.csv", schedule);
      await done(page);
      assert.equal(await page.locator(".type").count(), 3);
      assert.match(await page.locator(".type", { hasText: "kitchen" }).textContent(), /^GO0\.\d\d/);
      assert.match(await page.locator(".type", { hasText: "line 4" }).textContent(), /No answer.*pane\.width/);
      const order = await labels(page);
      assert.ok(order.findIndex((label) => label.includes("stairs")) < order.findIndex((label) => label.includes("kitchen")), order.join());
      const text = await page.locator("#visit-summary").textContent();
      assert.match(text, /GO: 1 type \(4 panes\)/);
      assert.match(text, /No answer: 1 types?/);
      assert.match(text, /Expected breaks on each pane's worst design day/);
      assert.ok(await page.locator("#visit-summary .note").textContent());
      assert.equal(await sideways(page), 0);
      await shot(page, `visit-${size}`);
    });
  });
}

test("by touch: a pane checked and added, another like it, how many, put back, taken out", async () => {
  await withPage(phone, async (page) => {
    await give(page, { width: "1000", height: "1200", absorptance: "30" });
    await answered(page);
    await page.locator("#to-visit").tap();
    await page.locator("#visit-add").tap();
    await done(page);
    await action(page, "type 1", "Another like this").tap();
    await page.waitForSelector("#view-check:not([hidden])");
    await give(page, { width: "2000" });
    await page.locator("#to-visit").tap();
    await page.locator("#visit-back", { hasText: "type 2" }).tap();
    await page.waitForFunction(() => [...document.querySelectorAll(".type")].some((type) => /2000 mm x 1200 mm/.test(type.textContent)));
    await done(page);
    const field = page.locator(".type", { hasText: "type 2" }).locator("input");
    await field.fill("7");
    await field.blur();
    await summary(page, /7 panes|8 panes/);
    await page.locator(".type", { hasText: "type 2" }).locator("input").fill("0");
    await page.locator(".type", { hasText: "type 2" }).locator("input").blur();
    await status(page, /whole numbers from 1/);
    await action(page, "type 1", "Take out").tap();
    await page.waitForFunction(() => document.querySelectorAll(".type").length === 1);
  });
});

test("kept on the device, downloaded, and read back the same", async () => {
  await withPage({ ...desktop, hash: "#visit" }, async (page) => {
    await read(page, "school.csv", schedule);
    await done(page);
    assert.match(await page.locator("#visit-kept").textContent(), /Kept on this device/);
    await page.reload();
    await done(page);
    assert.equal(await page.locator(".type").count(), 3);
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Download the visit (.csv)" }).click()]);
    const text = fs.readFileSync(await download.path(), "utf8");
    assert.match(text, /kitchen.*0\.9 m|0\.9 m.*kitchen/);
    await page.locator("#visit-whole summary").click();
    await page.getByRole("button", { name: "Take all panes out" }).click();
    await status(page, /No pane yet/);
    await read(page, "again.csv", text);
    await done(page);
    assert.equal(await page.locator(".type").count(), 2, "the row that could not be read is not written");
    const [job] = await Promise.all([page.waitForEvent("download"), action(page, "kitchen", "Job file").click()]);
    assert.match(fs.readFileSync(await job.path(), "utf8"), /\[pane\]\nwidth = "0\.9 m"/);
  });
});

test("where storage is blocked it says so, and all else works", async () => {
  const script = `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("blocked", "SecurityError"); } })`;
  await withPage({ ...phone, hash: "#visit", script }, async (page) => {
    await page.locator("#visit-file").setInputFiles(path.join(examples, "ferry-door.toml"));
    await done(page);
    assert.match(await page.locator("#visit-kept").textContent(), /keeps nothing.*download/);
    assert.equal(await page.locator(".type").count(), 1);
  });
});

test("shared where the device can", async () => {
  const script = `navigator.canShare = ({ files }) => files.length === 1; navigator.share = async ({ files: [file] }) => { window.shared = [file.name, await file.text()]; };`;
  await withPage({ ...phone, hash: "#visit", script }, async (page) => {
    await read(page, "school.csv", schedule);
    await done(page);
    await page.getByRole("button", { name: "Share the visit" }).tap();
    await page.waitForFunction(() => window.shared);
    const [name, text] = await page.evaluate(() => window.shared);
    assert.equal(name, "visit.csv");
    assert.match(text, /kitchen/);
  });
});

test("by keyboard: the maker is asked, and what is printed is that sheet", async () => {
  await withPage({ ...desktop, hash: "#visit" }, async (page) => {
    await read(page, "school.csv", schedule);
    await done(page);
    await tabTo(page, "[aria-label^='Ask the maker: type 2, stairs']");
    await page.keyboard.press("Enter");
    await page.waitForSelector("#visit-sheet:not([hidden])");
    assert.equal(await page.evaluate(() => document.activeElement.id), "sheet-title");
    const sheet = await page.locator("#visit-sheet").textContent();
    for (const part of [/pane width1\.2 m/, /What is not known/, /Load with film\d\.\d\d/, /Your reference/]) assert.match(sheet, part);
    assert.equal(await page.locator("#visit-types").isVisible(), false);
    const pdf = await page.pdf({ format: "A4" });
    if (process.env.SHOTS) fs.writeFileSync(path.join(process.env.SHOTS, "sheet.pdf"), pdf);
    assert.ok((pdf.toString("latin1").match(/\/Type\s*\/Page\b/g) ?? []).length <= 2, "one page, two at most");
    await tabTo(page, "#visit-sheet .actions button:last-child");
    await page.keyboard.press("Enter");
    assert.equal(await page.locator("#visit-types").isVisible(), true);
    const whole = await page.pdf({ format: "A4" });
    if (process.env.SHOTS) fs.writeFileSync(path.join(process.env.SHOTS, "visit.pdf"), whole);
    assert.ok((whole.toString("latin1").match(/\/Type\s*\/Page\b/g) ?? []).length <= 2, "a small visit on one or two pages");
  });
});

test("hostile files are shown inert", async () => {
  const nasty = "<img src=x onerror='window.hit=1'><script>window.hit=1</script>";
  await withPage({ ...phone, hash: "#visit" }, async (page) => {
    await read(page, `${nasty.replaceAll("/", "")}.csv`, `job.name,pane.width,pane.height,film.solar_absorptance\n"${nasty}",1 m,1 m,0.3\n"${nasty}","${nasty}",1e999 m,7\n`);
    await done(page);
    assert.match(await page.locator("#visit-types").textContent(), /<img src=x/);
    await action(page, "type 1", "Ask the maker").tap();
    await page.waitForSelector("#visit-sheet:not([hidden])");
    assert.equal(await page.locator("main img, main script").count(), 0);
    await page.getByRole("button", { name: "Back to the visit" }).tap();
    await read(page, "long.csv", "x".repeat(1_000_001));
    await status(page, /larger than 1 MB/);
    await read(page, "long.csv", "x".repeat(999_999));
    await status(page, /long\.csv/);
    await read(page, "bytes.csv", "\u0000\u0001");
    await status(page, /bytes\.csv/);
    assert.equal(await page.evaluate(() => window.hit), undefined);
  });
});

for (const colorScheme of ["light", "dark"]) {
  test(`${colorScheme}: nothing for axe to name`, async () => {
    await withPage({ ...phone, colorScheme, bypassCSP: true, hash: "#visit" }, async (page) => {
      await read(page, "school.csv", schedule);
      await done(page);
      await nothingForAxe(page);
      await shot(page, `visit-${colorScheme}`);
      await action(page, "stairs", "Ask the maker").tap();
      await page.waitForSelector("#visit-sheet:not([hidden])");
      await nothingForAxe(page);
      await shot(page, `sheet-${colorScheme}`);
    });
  });
}
