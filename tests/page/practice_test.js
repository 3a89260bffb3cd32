// Practice on the page: by touch, by keyboard alone, a trainer's windows, what stays and what is downloaded.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const { test } = require("node:test");
const { axe, desktop, narrow, phone, scratch, shot, sideways, withPage } = require("./in_browser.js");

const view = { hash: "#practice" };
const begin = async (page, picks = {}) => {
  for (const [name, value] of Object.entries({ count: "5", ...picks })) await page.locator(`#practice-${name}`).selectOption(value);
  await page.locator("#practice-start button").click();
  await page.locator("#practice-item").waitFor();
};
const pick = async (page, name, at) => {
  await page.locator(`label:has(input[name="q-${name}"][value="${at}"])`).click();
  await page.locator(`form:has(input[name="q-${name}"]) button`).click();
};
const windowAnswered = async (page, verdict, decides = 0) => {
  await pick(page, "practice-verdict", verdict);
  await page.locator('input[name="q-practice-decides"]').first().waitFor();
  await pick(page, "practice-decides", decides);
  await page.locator(".told").waitFor();
};

test("phone: a window by touch, the score, and the table", async () => {
  await withPage({ ...phone, ...view }, async (page) => {
    await begin(page, { topic: "who-agrees" });
    assert.match(await page.locator("#practice-item").textContent(), /Rented studio/);
    assert.match(await page.locator("#practice-body").innerText(), /history glass owner agrees no/);
    assert.equal(await page.locator(".verdict").count(), 0, "no answer before it is given");
    await windowAnswered(page, 1);
    const told = await page.locator(".told").innerText();
    assert.match(told, /Verdict: Right\. It is CAUTION\./);
    assert.match(told, /The owner of the glass has not agreed/);
    const shown = await page.locator(".shown").innerText();
    for (const part of [/in place of caution/, /A tenant cannot give away/, /Rule P6/, /no promise/]) assert.match(shown, part);
    assert.equal(await page.locator(".shown .pane").count(), 1, "the pane is drawn");
    assert.equal(await sideways(page), 0, "nothing stands out sideways");
    await page.locator("#practice-next").click();
    assert.match(await page.locator("#practice-record").innerText(), /Verdicts right: 1 of 1/);
    assert.match(await page.locator("#practice-record").innerText(), /A practice record, not a qualification/);
    await page.locator("#practice-learner").fill("=1+1");
    await page.locator("#practice-learner").blur();
    const [file] = await Promise.all([page.waitForEvent("download"), page.locator("#practice-table").click()]);
    const [head, row] = fs.readFileSync(await file.path(), "utf8").split("\n");
    assert.equal(head, "date,learner,item,topic,verdict.answered,verdict.right,driver.answered,driver.right,right,tables");
    assert.match(row, /^\d{4}-\d\d-\d\d \d\d:\d\d,'=1\+1,wharf-studio,who-agrees,caution,caution,/);
    await page.reload();
    await page.locator("#practice-record").waitFor();
    assert.match(await page.locator("#practice-record").innerText(), /Verdicts right: 1 of 1/, "it stays on the device");
    page.on("dialog", (dialog) => dialog.accept());
    await page.locator("#practice-clear").click();
    await page.waitForFunction(() => /Nothing was answered yet/.test(document.getElementById("practice-record").textContent));
  });
});

test("drills by keyboard alone", async () => {
  await withPage({ ...desktop, ...view }, async (page) => {
    await page.locator("#practice-kind").focus();
    await page.keyboard.press("ArrowDown");
    await page.locator("#practice-topic").focus();
    await page.keyboard.type("Spots");
    for (let i = 0; i < 2; i++) await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.locator("#practice-item").waitFor();
    assert.equal(await page.evaluate(() => document.activeElement.id), "practice-item", "the title has the focus");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    assert.match(await page.locator("#practice-question .error").innerText(), /Pick one/);
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Space");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.locator(".told").waitFor();
    assert.equal(await page.evaluate(() => document.activeElement.className), "told", "what it was has the focus");
    assert.match(await page.locator(".shown").innerText(), /Does not show/);
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.locator("#practice-record").waitFor();
    assert.match(await page.locator("#practice-record").innerText(), /Drills right: [01] of 1/);
  });
});

test("a trainer's windows: one that can be, one that cannot, one with markup in it", async () => {
  const job = (name) => `[job]\nname = "${name}"\nnote = "<img src=x onerror=alert(1)>"\n[pane]\nwidth = "1 m"\nheight = "1 m"\n[glass]\npanes = 1\n[lite.1]\nkind = "wired"\n[film]\nsolar_absorptance = 0.3\n`;
  const files = { "good.toml": job("<b>Our own</b>"), "bad.toml": '[pane]\nwidth = "1 m"\n' };
  const paths = Object.entries(files).map(([name, text]) => {
    fs.writeFileSync(`${scratch}/${name}`, text);
    return `${scratch}/${name}`;
  });
  await withPage({ ...narrow, ...view }, async (page) => {
    await page.locator("#practice-own > summary").click();
    await page.locator("#practice-files").setInputFiles(paths);
    await page.locator("#practice-own p.error").waitFor();
    assert.match(await page.locator("#practice-own p.error").innerText(), /bad\.toml.*height/);
    assert.match(await page.locator("#practice-own").innerText(), /<b>Our own<\/b>/);
    await begin(page, { topic: "own" });
    assert.equal(await page.locator("#practice-item").textContent(), "<b>Our own</b>");
    assert.equal(await page.locator("#practice-body img, #practice-body b").count(), 0, "markup in a job is text");
    await windowAnswered(page, 2);
    assert.match(await page.locator(".told").innerText(), /Right\. It is REFER\./);
    assert.equal(await sideways(page), 0);
  });
});

test("where the browser keeps nothing it says so", async () => {
  const script = () => Object.defineProperty(window, "localStorage", { get() { throw new Error("none"); } });
  await withPage({ ...phone, ...view, script }, async (page) => {
    await page.locator("#practice-record").waitFor();
    assert.match(await page.locator("#practice-record").innerText(), /keeps nothing: download/);
  });
});

for (const colorScheme of ["light", "dark"]) {
  test(`practice, ${colorScheme}: nothing for axe to name`, async () => {
    await withPage({ ...phone, ...view, colorScheme, bypassCSP: true }, async (page) => {
      const look = async (name) => {
        const { violations } = await page.evaluate(() => window.axe.run());
        assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes[0].html]), [], name);
        await shot(page, `practice-${name}-${colorScheme}`);
      };
      await page.evaluate(axe);
      await look("start");
      await begin(page, { topic: "shadows" });
      await look("question");
      await windowAnswered(page, 0);
      await look("answer");
    });
  });
}
