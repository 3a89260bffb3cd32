// The check of a pane on the page.
"use strict";
const assert = require("node:assert/strict");
const path = require("node:path");
const { test } = require("node:test");
const { answered, desktop, examples, give, narrow, phone, printed, question, sideways, status, statusesOf, withPage } = require("./in_browser.js");

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
    await answered(page);
    assert.match(await page.locator(".verdict").textContent(), /CAUTION.*Settle one thing: lite 1 coating/);
    assert.match(await question(page, "width").locator(".taken").textContent(), /The file says 946 mm/);
    await give(page, { coating: "no odd reflection, no mirror look" });
    await status(page, /^GO/);
    assert.match(await page.locator(".verdict").textContent(), /Nothing found against this film/);
    await page.locator("#base-off").click();
    await status(page, /Still needed/);
    assert.equal(await page.locator(".verdict").count(), 0);
  });
});

for (const [verdict, word] of Object.entries({ go: "reading-room", caution: "stair-window", refer: "mill-wheel-room" })) {
  test(`${verdict}: mark, word and what to do`, async () => {
    await withPage(phone, async (page) => {
      await page.locator("#file").setInputFiles(path.join(examples, `${word}.toml`));
      await printed(page, /./);
      await status(page, new RegExp(`^${verdict.toUpperCase()}: with film \\d+\\.\\d\\d of what the edge bears`));
      assert.equal(await page.locator(`.verdict.${verdict} .word`).textContent(), verdict.toUpperCase());
      assert.ok(await page.locator(".verdict svg.mark").isVisible());
      assert.ok((await page.locator(".verdict").textContent()).length > 20);
    });
  });
}

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

test("a first look is shown as such, and never says go", async () => {
  await withPage(phone, async (page) => {
    const seen = await statusesOf(page, async () => {
      await page.locator("#file").setInputFiles(path.join(examples, "boathouse-porch.toml"));
      await answered(page);
    });
    const first = seen.filter(({ line }) => /^So far/.test(line));
    assert.ok(first.length > 0, "a first look was seen");
    for (const { line, shown } of first) {
      assert.doesNotMatch(line, /\bGO\b/);
      assert.doesNotMatch(shown, /\bGO\b/);
      assert.match(shown, /no promise/, "with the safety note");
    }
  });
});

const grayPerhaps = `[job]\nname = "gray"\n[pane]\nwidth = "0.9 m"\nheight = "1.2 m"\n[glass]\npanes = 1\n[lite.1]\ntint = "clear or gray"\nthickness = "6 or 10 mm"\n[film]\nsolar_absorptance = 0.45\n`;

for (const [says, file] of Object.entries({
  "At least CAUTION": { name: "gray.toml", mimeType: "text/plain", buffer: Buffer.from(grayPerhaps) },
  CAUTION: path.join(examples, "stair-window.toml"),
})) {
  test(`a first look says ${says} where no reading takes that back, and has its lists`, async () => {
    await withPage(phone, async (page) => {
      const seen = await statusesOf(page, async () => {
        await page.locator("#file").setInputFiles(file);
        await answered(page);
      });
      const { shown } = seen.find(({ line }) => line.startsWith(`${says}. Still working`));
      assert.ok(shown.startsWith(`${says}Don't cut film yet. Still working out what would settle it`), shown);
      for (const part of [/Load on the edge/, /Why/, /Not known, and being tried: \d+/, /On the day/, /no promise/]) assert.match(shown, part);
      await printed(page, /./);
      assert.doesNotMatch(await page.locator("#answer .verdict").textContent(), /At least|Still working/);
    });
  });
}

test("a pane far under its line of which more is told stays go at once", async () => {
  await withPage(phone, async (page) => {
    await give(page, { panes: "one pane", "mark.1": "tempered", width: "900", height: "1200", absorptance: "25" });
    await answered(page);
    const seen = await statusesOf(page, async () => {
      await give(page, { blind: "none" });
      await page.waitForFunction(() => window.seen.some(({ line }) => line.startsWith("GO: with film")));
    });
    assert.ok(seen.some(({ line }) => line.startsWith("GO. Still working out the rest")));
    assert.ok(seen.every(({ line }) => !/So far|At least/.test(line)));
  });
});

test("what guidance says stands there before there are figures", async () => {
  await withPage(phone, async (page) => {
    await give(page, { damage: "cracked, however short the crack" });
    await page.waitForFunction(() => /REFER: /.test(document.getElementById("answer").textContent));
    await status(page, /Still needed/);
  });
});

test("the line that is read out comes once for each answer", async () => {
  await withPage(desktop, async (page) => {
    await give(page, { width: "600", height: "900" });
    await status(page, /Still needed: the film/);
    await page.evaluate(() => {
      window.said = [];
      const line = document.getElementById("said");
      new MutationObserver(() => window.said.push(line.textContent)).observe(line, { childList: true, characterData: true, subtree: true });
    });
    await give(page, { absorptance: "30" });
    await printed(page, /./);
    const said = await page.evaluate(() => window.said);
    assert.equal(said.length, 1);
    assert.equal(said[0], await page.locator("#status").textContent());
  });
});

test("inches are typed whole and their fraction picked", async () => {
  await withPage(phone, async (page) => {
    await page.locator("#units").selectOption("inch");
    await give(page, { width: "37" });
    await question(page, "width").locator("select.fraction").selectOption("1/4");
    await page.waitForFunction(() => document.querySelector("[data-question='width'] .taken")?.textContent === "Taken as 37 1/4 in");
    await give(page, { height: "60", absorptance: "0.45" });
    await printed(page, /psi/);
    assert.match(await page.locator(".bars dd").first().textContent(), /psi; it bears .* psi/);
    await page.locator("#units").selectOption("metric");
    await page.waitForFunction(() => document.querySelector("[data-question='width'] .taken")?.textContent === "Taken as 946 mm");
    await printed(page, /MPa/);
  });
});

test("a list and don't know, taken back and given again; several answers at once", async () => {
  await withPage(phone, async (page) => {
    await give(page, { width: "600", height: "900", absorptance: "30", panes: "one pane" });
    await give(page, { "frame-faults": "putty or gasket has gone hard" });
    await give(page, { "frame-faults": "water stands or has stood in the frame" });
    const picked = () => question(page, "frame-faults").locator("input:checked").evaluateAll((boxes) => boxes.map(({ value }) => value));
    assert.equal((await picked()).length, 2);
    await give(page, { "frame-faults": "none of it" });
    assert.deepEqual(await picked(), ["none of it"]);
    await question(page, "frame-faults").locator("label", { hasText: "Don't know" }).click();
    assert.deepEqual(await picked(), [""]);
    assert.equal(await page.evaluate(() => currentPane().answers["frame-faults"]), "");
    const without = ["width", "height", "absorptance", "transmittance"];
    for (const id of without) assert.equal(await question(page, id).getByText("Don't know").count(), 0, id);
    const all = await page.locator("#parts [data-question]").evaluateAll((boxes) => boxes.map((box) => [box.dataset.question, box.textContent.includes("Don't know")]));
    const silent = all.filter(([id, has]) => !has && !without.includes(id) && !id.includes(".")).map(([id]) => id);
    assert.deepEqual(silent, ["name", "film-name"].filter((id) => silent.includes(id)));
  });
});

test("the picture tells the pane in words too", async () => {
  await withPage(desktop, async (page) => {
    await give(page, { width: "1200", height: "1600", absorptance: "45", panes: "one pane", shadow: "an L: the top and one side", "shadow-share": "30" });
    await answered(page);
    const words = await page.locator("#pane-words").textContent();
    assert.match(words, /1200 mm wide, 1600 mm high\..*middle is at -?\d+ .C.*Stretched most: (top|right|bottom|left) edge.*shadow lies on it: an L/);
    const drawn = await page.locator("svg.pane rect.frame").boundingBox();
    const ratio = (drawn.height - 0) / drawn.width;
    assert.ok(Math.abs(ratio - 1600 / 1200) < 0.06, `${ratio}: to scale, but for the frame`);
  });
});

test("what was entered is there when the page is opened again, and goes with a new pane", async () => {
  await withPage(phone, async (page) => {
    await give(page, { width: "600", height: "900", absorptance: "30", damage: "no damage to be seen" });
    await answered(page);
    await page.reload();
    await answered(page);
    assert.equal(await question(page, "width").locator("input").inputValue(), "600");
    assert.ok(await question(page, "damage").locator("input[value='no damage to be seen']").isChecked());
    await page.locator("#fresh").click();
    await status(page, /Still needed/);
    assert.equal(await question(page, "width").locator("input").inputValue(), "");
  });
});

test("without storage it works as well", async () => {
  const noStorage = () => Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("denied", "SecurityError"); } });
  await withPage({ ...phone, script: noStorage }, async (page) => {
    assert.equal(await page.evaluate(() => keepsOnDevice()), false);
    await give(page, { width: "600", height: "900", absorptance: "30" });
    await answered(page);
  });
});

