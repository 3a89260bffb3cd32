// What cannot be taken: one line at the field that it is about and in the bar, and no answer beside it.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { test } = require("node:test");
const { answered, give, phone, printed, question, scratch, status, withPage } = require("./in_browser.js");

const least = { width: "600", height: "900", absorptance: "30" };

const wrong = [
  ["a word for a length", { width: "wide" }, "width", /pane\.width.*wide/],
  ["a length out of range", { height: "90 m" }, "height", /pane\.height/],
  ["a share over 1", { absorptance: "130" }, "absorptance", /film\.solar_absorptance/],
  ["figures of a film that cannot be", { absorptance: "30", transmittance: "60", reflectance: "40" }, "transmittance", /film\.solar_/],
  ["a bite deeper than any", { bite: "900" }, "bite", /frame\.bite/],
  ["an angle that is none", { facing: "up" }, "facing", /pane\.facing.*up/],
  ["an age below none", { panes: "two, a sealed unit", "unit-age": "-3" }, "unit-age", /history\.unit_age/],
];

for (const [name, answers, id, line] of wrong) {
  test(name, async () => {
    await withPage(phone, async (page) => {
      await give(page, { ...least, ...answers });
      await status(page, line);
      const field = question(page, id).locator(".error");
      assert.match(await field.textContent(), line);
      assert.equal(await field.textContent(), await page.locator("#status").textContent());
      assert.ok(await question(page, id).locator("[aria-invalid=true]").count(), "and tells a screen reader so");
      assert.equal(await page.locator(".verdict").count(), 0);
      assert.ok(!/[\n\r]/.test(await field.textContent()));
    });
  });
}

test("an answer that fits another no more is asked again at its place", async () => {
  await withPage(phone, async (page) => {
    await give(page, { ...least, panes: "three, a sealed unit", coating: "odd reflection: the 5th face (low-e)" });
    await answered(page);
    await give(page, { panes: "one pane" });
    await status(page, /lite\.1\.coating.*fits the answers before it no more/);
    assert.ok(await question(page, "coating").locator(".error").count());
    await give(page, { coating: "no odd reflection, no mirror look" });
    await answered(page);
  });
});

test("a file that is no job", async () => {
  const broken = path.join(scratch, "broken.toml");
  fs.writeFileSync(broken, "[pane\nwidth = 1\n");
  await withPage(phone, async (page) => {
    await give(page, least);
    await answered(page);
    await page.locator("#file").setInputFiles(broken);
    await status(page, /broken\.toml/);
    assert.equal(await page.locator(".verdict").count(), 0);
    await page.locator("#base-off").click();
    await answered(page);
  });
});

test("a hostile job file is shown inert", async () => {
  const file = path.join(scratch, "<img src=x onerror=alert(1)>.toml");
  const nasty = "<script>window.hit=1</script><img src=x onerror='window.hit=1'>";
  fs.writeFileSync(file, `[job]\nname = "${nasty}"\n[pane]\nwidth = "1 m"\nheight = "1 m"\n[film]\nsolar_absorptance = 0.4\n`);
  const huge = path.join(scratch, "huge.toml");
  fs.writeFileSync(huge, "#".repeat(1_000_001));
  await withPage(phone, async (page) => {
    await page.locator("#file").setInputFiles(file);
    await printed(page, /<script>window\.hit/);
    assert.equal(await page.evaluate(() => window.hit), undefined);
    assert.equal(await page.locator("main img, main script").count(), 0);
    await give(page, { "film-name": nasty });
    await printed(page, /film: <script>/);
    assert.equal(await page.locator("main img, main script").count(), 0);
    await page.locator("#file").setInputFiles(huge);
    await status(page, /larger than 1 MB/);
  });
});

