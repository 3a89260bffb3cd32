// The check of a pane on the page.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { test } = require("node:test");
const { answered, desktop, examples, give, narrow, phone, printed, question, scratch, sideways, status, withPage } = require("./in_browser.js");

const partly = `[job]\nname = "part"\n[glass]\npanes = 1\n[lite.1]\nkind = "float or wired"\ntreatment = "annealed"\n`;
const refer = { width: "2000", height: "2500", absorptance: "70" };

for (const [size, options] of Object.entries({ phone, narrow, desktop })) {
  test(`${size}: a first answer, changed, refused and given again`, async () => {
    await withPage(options, async (page) => {
      await status(page, /Still needed.*width, height, the film's figures/);
      await give(page, refer);
      await status(page, /^REFER/);
      assert.match(await page.locator("#answer .note").textContent(), /no promise/);
      assert.equal(await page.locator(".bars dt").count(), 2);
      await give(page, { width: "20 miles" });
      await status(page, /pane\.width.*20 miles/);
      assert.match(await question(page, "width").locator(".error").textContent(), /pane\.width.*20 miles/);
      assert.equal(await page.locator(".verdict").count(), 0, "no answer stands beside a refusal");
      await give(page, { width: "20 in" });
      await answered(page);
      assert.equal(await question(page, "width").locator(".error").count(), 0);
      assert.equal(await sideways(page), 0, "nothing stands out sideways");
    });
  });
}

test("eight taps to a first answer, size and film aside", async () => {
  const taps = { damage: "no damage to be seen", make: "plain glass, as far as one sees", slope: "upright", fog: "no, or a single pane",
    "film-on": "no", "cracks-here": "no", owner: "yes", panes: "one pane" };
  await withPage(phone, async (page) => {
    await give(page, { width: "600", height: "900", absorptance: "30" });
    for (const [id, words] of Object.entries(taps)) {
      const label = question(page, id).locator(`label:has(input[value="${words}"])`);
      assert.ok(await label.isVisible(), `${id} stands unfolded`);
      await label.tap();
    }
    assert.equal(Object.keys(taps).length, 8);
    await answered(page);
    const open = await page.locator(".question:visible").evaluateAll((boxes) =>
      boxes.filter((box) => box.querySelector("input[type=radio]") && !box.querySelector(":checked")).map((box) => box.dataset.question));
    assert.deepEqual(open, [], "every question that stands unfolded is answered by then");
  });
});

test("a job file is read, its key asked again, and put away", async () => {
  await withPage(phone, async (page) => {
    await page.locator("#file").setInputFiles(path.join(examples, "stair-window.toml"));
    await status(page, /^CAUTION/);
    assert.match(await page.locator(".verdict").textContent(), /Settle one thing: lite 1 coating/);
    assert.match(await question(page, "width").locator(".taken").textContent(), /The file says 946 mm/);
    await give(page, { coating: "no odd reflection, no mirror look" });
    await status(page, /^GO/);
    assert.match(await page.locator(".verdict").textContent(), /Nothing found against this film/);
    await page.locator("#base-off").click();
    await status(page, /Still needed/);
    assert.equal(await page.locator(".verdict").count(), 0);
  });
});

test("the bars are those of the sheet that governs, whichever it is", async () => {
  await withPage(desktop, async (page) => {
    await give(page, { ...refer, panes: "one pane", make: "laminated glass", "mark.1": "annealed" });
    await give(page, { coating: "no odd reflection, no mirror look", panel: "a storm panel outdoors", "panel.treatment": "annealed" });
    await answered(page);
    const said = (await page.locator("#status").textContent()).match(/\d+\.\d\d/)[0];
    await printed(page, new RegExp(`share of what the edge bears .* ${said}\\n`));
    assert.match(await page.locator(".bars dd").last().textContent(), new RegExp(`^${said} `));
  });
});

test("what guidance would ask of a reading that is open", async () => {
  await withPage(desktop, async (page) => {
    await give(page, { width: "1000", height: "1000", absorptance: "0.3" });
    await page.locator("#file").setInputFiles({ name: "part.toml", mimeType: "text/plain", buffer: Buffer.from(partly) });
    await printed(page, /part/);
    assert.match(await page.locator("#answer").textContent(), /Guidance would askIf lite 1 kind is wired/);
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

test("by keyboard alone", async () => {
  await withPage(desktop, async (page) => {
    const reach = async (id) => {
      for (let i = 0; i < 200; ++i) {
        await page.keyboard.press("Tab");
        if (await page.evaluate((wanted) => document.activeElement.id === `q-${wanted}-value`, id)) return;
      }
      assert.fail(`${id} is not reached`);
    };
    await reach("width");
    await page.keyboard.type("1 m");
    await reach("height");
    await page.keyboard.type("1.5 m");
    await reach("absorptance");
    await page.keyboard.type("0.4");
    await page.keyboard.press("Enter");
    await answered(page);
    assert.equal(await page.evaluate(() => document.activeElement.id), "answer-title");
  });
});
