// The page for everyone: by keyboard, by touch, with a screen reader, in any colors, at any size of text, on paper.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { test } = require("node:test");
const { answered, axe, desktop, examples, give, narrow, openFolds, phone, printed, question, shot, sideways, status, withPage } = require("./in_browser.js");

const refer = { width: "2000", height: "2500", absorptance: "70", panes: "two, a sealed unit" };

test("with scripts off it says what to do", async () => {
  await withPage({ ...phone, javaScriptEnabled: false }, async (page) => {
    assert.match(await page.locator("body").innerText(), /open it in a web browser with scripts allowed/);
    assert.equal(await page.locator("#main").isVisible(), false);
  });
});

// ---- keyboard and touch ------------------------------------------------------------------------

// Tab until the focus is on what the selector names.
async function reach(page, selector) {
  for (let i = 0; i < 200; ++i) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((wanted) => document.activeElement.matches(wanted), selector)) return;
  }
  assert.fail(`${selector} is not reached`);
}

const quick = ["damage", "make", "slope", "fog", "film-on", "cracks-here", "owner", "panes"];

test("a whole check by keyboard alone", async () => {
  await withPage(desktop, async (page) => {
    await page.keyboard.press("Tab");
    assert.equal(await page.evaluate(() => document.activeElement.id), "units");
    for (const id of quick) {
      await reach(page, `[name="q-${id}"]`);
      await page.keyboard.press("Space");
    }
    await reach(page, "#q-width-value");
    await page.keyboard.type("1 m");
    await reach(page, "#q-height-value");
    await page.keyboard.type("1.5 m");
    await reach(page, "details.more > summary");
    await page.keyboard.press("Enter");
    await reach(page, "#q-absorptance-value");
    await page.keyboard.type("0.4");
    await page.keyboard.press("Enter");
    await answered(page);
    assert.equal(await page.evaluate(() => document.activeElement.id), "answer-title");
    for (const id of quick) assert.equal(await question(page, id).locator("input:checked").count(), 1, id);
  });
});

test("what an answer changes does not take the focus away", async () => {
  await withPage(desktop, async (page) => {
    await give(page, { width: "600", height: "900", absorptance: "30" });
    await reach(page, "[name='q-panes']").catch(() => {});
    await question(page, "panes").locator("input").first().focus();
    await page.keyboard.press("Space");
    await page.keyboard.press("ArrowDown");
    await page.waitForSelector("[data-question='thickness.2']", { state: "attached" });
    await answered(page);
    assert.deepEqual(await page.evaluate(() => [document.activeElement.name, document.activeElement.value]), ["q-panes", "two, a sealed unit"]);
  });
});

test("a whole check by touch, with help", async () => {
  await withPage(phone, async (page) => {
    for (const id of quick) await question(page, id).locator("label.tap").first().tap();
    await question(page, "panes").locator("summary").tap();
    assert.ok(await question(page, "panes").locator("svg").isVisible(), "the drawing");
    for (const [id, value] of Object.entries({ width: "600", height: "900", absorptance: "30" })) {
      await page.locator(`#q-${id}-value`).tap();
      await page.keyboard.type(value);
    }
    await page.getByText("More: The size").tap();
    await question(page, "thickness.1").getByText("6 mm", { exact: true }).tap();
    await page.locator("#to-answer").tap();
    await answered(page);
    assert.ok(await page.locator(".verdict").isVisible());
    assert.equal(await page.evaluate(() => currentPane().answers["thickness.1"]), "6 mm");
  });
});

test("every drawing belongs to a question and says what it shows", async () => {
  const table = fs.readFileSync(path.join(examples, "..", "reference", "questions.toml"), "utf8");
  const names = new Set([...table.matchAll(/^name = "(.*)"/gm)].map(([, name]) => name));
  await withPage(phone, async (page) => {
    const drawings = await page.evaluate(() => [...document.getElementById("drawings").content.querySelectorAll("figure")].map((figure) =>
      ({ names: figure.dataset.for.split(" "), title: figure.querySelector("svg[role=img] > title")?.textContent ?? "" })));
    for (const { names: drawn, title } of drawings) {
      for (const name of drawn) assert.ok(names.has(name), name);
      assert.ok(title.length > 40, title);
    }
    const shown = new Set(drawings.flatMap(({ names: drawn }) => drawn));
    const looked = ["damage", "make", "slope", "fog", "panes", "coating", "mark", "width", "height", "thickness", "frame", "bite", "frame-faults",
      "facing", "shadow", "overhang", "blind-gap", "panel", "film-face", "absorptance"];
    for (const name of looked) assert.ok(shown.has(name), `${name} is looked at, and has a drawing`);
  });
});

test("whatever one taps is 44 pixels at least", async () => {
  await withPage(narrow, async (page) => {
    await give(page, refer);
    await printed(page, /./);
    await openFolds(page);
    const small = await page.locator("nav button:visible, main :is(button, summary, select, a, label.tap, input:not(.tap input)):visible, header select:visible").evaluateAll((nodes) =>
      nodes.map((node) => [node.outerHTML.slice(0, 80), node.getBoundingClientRect()]).filter(([, { width, height }]) => Math.min(width, height) < 44).map(([html]) => html));
    assert.deepEqual(small, []);
  });
});

test("the bar never hides what has the focus", async () => {
  await withPage({ ...phone, reducedMotion: "reduce" }, async (page) => {
    let looked = 0;
    for (let i = 0; i < 60; ++i) {
      await page.keyboard.press("Tab");
      const hidden = await page.evaluate(() => {
        const node = document.activeElement, bar = document.getElementById("bar");
        if (node === document.body || bar.contains(node)) return false;
        const { top, bottom } = (node.closest("label") ?? node).getBoundingClientRect();
        return top >= bar.getBoundingClientRect().top || bottom <= 0;
      });
      assert.equal(hidden, false, await page.evaluate(() => document.activeElement.outerHTML));
      ++looked;
    }
    assert.equal(looked, 60);
  });
});

// ---- colors, sizes, motion ---------------------------------------------------------------------

const looks = {
  light: { ...phone, colorScheme: "light" },
  dark: { ...phone, colorScheme: "dark" },
  "desktop-light": { ...desktop, colorScheme: "light" },
  "desktop-dark": { ...desktop, colorScheme: "dark" },
  forced: { ...phone, forcedColors: "active" },
};

for (const [name, options] of Object.entries(looks)) {
  test(`${name}: nothing for axe to name, with every fold open`, async () => {
    await withPage({ ...options, bypassCSP: true }, async (page) => {
      await give(page, { ...refer, bite: "900" });
      await status(page, /frame\.bite/);
      await page.evaluate(axe);
      const complaints = async () => {
        await openFolds(page);
        const { violations, passes } = await page.evaluate(() => window.axe.run());
        assert.ok(passes.length > 20);
        return violations.map(({ id, nodes }) => [id, nodes[0].html]);
      };
      assert.deepEqual(await complaints(), [], "beside a refusal");
      await give(page, { bite: "12", shadow: "an L: the top and one side" });
      await printed(page, /./);
      assert.deepEqual(await complaints(), [], "beside an answer");
      await shot(page, name);
    });
  });
}

test("in forced colors what is picked stands out", async () => {
  await withPage({ ...phone, forcedColors: "active" }, async (page) => {
    await give(page, { damage: "no damage to be seen" });
    const outline = (index) => question(page, "damage").locator("label.tap").nth(index).evaluate((label) => getComputedStyle(label).outlineStyle);
    assert.deepEqual([await outline(0), await outline(1)], ["solid", "none"]);
  });
});

for (const percent of [100, 200]) {
  test(`320 pixels wide, text at ${percent} %: nothing sideways, nothing cut off`, async () => {
    await withPage(narrow, async (page) => {
      await page.addStyleTag({ content: `html { font-size: ${percent}% }` });
      await give(page, refer);
      await printed(page, /./);
      await openFolds(page);
      assert.equal(await sideways(page), 0);
      const cut = await page.locator("label, legend, summary, button, p, h2, h3, dt, dd, li, figcaption").evaluateAll((nodes) =>
        nodes.filter((node) => node.id !== "said" && node.clientWidth > 0 && node.scrollWidth > node.clientWidth + 1).map((node) => node.outerHTML.slice(0, 80)));
      assert.deepEqual(cut, []);
      await shot(page, `narrow-${percent}`);
    });
  });
}

test("with reduced motion nothing moves by itself", async () => {
  await withPage({ ...phone, reducedMotion: "reduce" }, async (page) => {
    await give(page, refer);
    assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), "auto");
    assert.equal(await page.evaluate(() => document.getAnimations().length), 0);
  });
});

test("without color every sign still stands apart", async () => {
  await withPage(phone, async (page) => {
    await page.addStyleTag({ content: "html { filter: grayscale(1) }" });
    await give(page, { ...refer, shadow: "an L: the top and one side" });
    await printed(page, /./);
    const fills = await page.locator("svg.pane .keep").evaluateAll((shapes) => new Set(shapes.map((shape) => shape.getAttribute("fill"))).size);
    assert.ok(fills > 4);
    assert.equal(await page.locator("svg.pane pattern").count(), 2, "edge and shadow have a pattern of their own");
    assert.ok(await page.locator("svg.pane text").count() >= 6, "and their names");
    await shot(page, "gray");
  });
});

// ---- paper -------------------------------------------------------------------------------------

test("on paper: the answer, the note and what was entered, unfolded, without the form", async () => {
  await withPage(desktop, async (page) => {
    await page.locator("#file").setInputFiles(path.join(examples, "stair-window.toml"));
    await printed(page, /./);
    const pdf = await page.pdf({ format: "A4" });
    assert.equal(pdf.subarray(0, 5).toString(), "%PDF-");
    assert.ok(pdf.length > 10_000);
    assert.equal(await page.locator("#answer details[open]").count(), 0, "folded again afterward");
    await page.emulateMedia({ media: "print" });
    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    const visible = (selector) => page.locator(selector).first().isVisible();
    for (const shown of [".verdict .word", ".bars", "svg.pane", ".note", ".entered dd"]) assert.ok(await visible(shown), shown);
    for (const gone of ["#form", "#bar", "#printed", "#views", ".pickers"]) assert.equal(await visible(gone), false, gone);
    assert.match(await page.locator(".entered").textContent(), /How wide is the glass that you see\?946 mm/);
    await shot(page, "paper");
  });
});
