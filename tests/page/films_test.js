// A list of films of the user's own, compared on the pane of the check.
"use strict";
const assert = require("node:assert/strict");
const path = require("node:path");
const { test } = require("node:test");
const { desktop, examples, narrow, nothingForAxe, phone, shot, sideways, tabTo, textOf, withJob, withPage } = require("./in_browser.js");

const status = textOf("films-status");

const known = `[job]\nname = "test window"\n[pane]\nwidth = "0.9 m"\nheight = "1.2 m"\nfacing = "S"\n[glass]\npanes = 1\n[lite.1]\nkind = "float"\ntint = "clear"\nthickness = "6 mm"\ntreatment = "annealed"\ncoating = "none"\n[site]\nplace = "denver"\n[film]\nsolar_absorptance = 0.4\n`;
const list = "film.name,film.solar_absorptance,film.visible_transmittance\nNight,0.75,0.1\nDusk,0.45,0.4\nDawn,0.2,\nWrong,7,0.2\n";
const compared = (page) => page.waitForSelector(".ranked");

async function paste(page, text) {
  await page.locator("#films-list").fill(text);
  await page.locator("#films-form [type='submit']").click();
}

for (const [size, options] of Object.entries({ phone, narrow, desktop })) {
  test(`${size}: a pasted list is ranked, a film that cannot be says why`, async () => {
    await withPage({ ...options, hash: "#films", script: withJob(known) }, async (page) => {
      await paste(page, list);
      await compared(page);
      assert.equal(await page.locator(".films > li").count(), 3);
      const words = await page.locator(".ranked .word").allTextContents();
      const worth = { GO: 0, CAUTION: 1, REFER: 2 };
      assert.deepEqual(words, [...words].sort((a, b) => worth[a] - worth[b]), "go before caution before refer");
      const dusk = await page.locator(".ranked", { hasText: "Dusk" }).textContent();
      assert.match(dusk, /takes \d\.\d\d of what the edge bears; keeps out \d+ % of the sun's heat; lets \d+ % of the daylight in/);
      assert.doesNotMatch(await page.locator(".ranked", { hasText: "Dawn" }).textContent(), /daylight/);
      assert.match(await page.locator("#films-answer").textContent(), /Wrong: .*line 5.*film\.solar_absorptance/);
      assert.ok(await page.locator("#films-answer .note").textContent());
      assert.equal(await sideways(page), 0);
      assert.match(await page.evaluate(() => localStorage.getItem("sunstrain.films")), /Night/);
      await shot(page, `films-${size}`);
    });
  });
}

test("a list from a file, by keyboard, the same order as the page had", async () => {
  const file = path.join(examples, "invented-films.csv");
  await withPage({ ...desktop, hash: "#films", script: withJob(known) }, async (page) => {
    await page.locator("#films-file").setInputFiles(file);
    await compared(page);
    const names = await page.locator(".ranked .head > span:last-child").allTextContents();
    assert.ok(names.length > 2);
    await page.locator("#films-answer").evaluate((node) => node.replaceChildren());
    await tabTo(page, "#films-form [type='submit']");
    await page.keyboard.press("Enter");
    await compared(page);
    assert.deepEqual(await page.locator(".ranked .head > span:last-child").allTextContents(), names);
  });
});

test("what is no list is refused in one line; hostile cells stay text", async () => {
  const nasty = "<img src=x onerror='window.hit=1'><script>window.hit=1</script>";
  await withPage({ ...phone, hash: "#films", script: withJob(known) }, async (page) => {
    await paste(page, "");
    await status(page, /Paste your list/);
    await paste(page, "pane.width\n1 m\n");
    await status(page, /no key of the film/);
    await paste(page, "x".repeat(1_000_000));
    await status(page, /your list/);
    await paste(page, `film.name,film.solar_absorptance\n"${nasty}",0.3\n`);
    await compared(page);
    assert.match(await page.locator(".ranked").textContent(), /<img src=x/);
    assert.equal(await page.locator("main img, main script").count(), 0);
    assert.equal(await page.evaluate(() => window.hit), undefined);
  });
});

test("long work says how far it is and can be stopped", async () => {
  const many = "film.name,film.solar_absorptance\n" + Array.from({ length: 200 }, (_, i) => `Film ${i},${0.2 + i / 400}\n`).join("");
  await withPage({ ...phone, hash: "#films", script: withJob(known) }, async (page) => {
    await paste(page, many);
    await status(page, /\d+ of 200/);
    await page.locator("#films-stop").tap();
    await status(page, /Stopped/);
    assert.equal(await page.locator(".ranked").count(), 0);
    await paste(page, list);
    await compared(page);
  });
});

for (const colorScheme of ["light", "dark"]) {
  test(`${colorScheme}: nothing for axe to name, and it prints`, async () => {
    await withPage({ ...phone, colorScheme, bypassCSP: true, hash: "#films", script: withJob(known) }, async (page) => {
      await paste(page, list);
      await compared(page);
      await nothingForAxe(page);
      await shot(page, `films-${colorScheme}`);
      assert.equal((await page.pdf()).subarray(0, 5).toString(), "%PDF-");
    });
  });
}
