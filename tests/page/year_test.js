// The year's picture and its table.
"use strict";
const assert = require("node:assert/strict");
const { test } = require("node:test");
const { desktop, narrow, nothingForAxe, phone, shot, sideways, tabTo, textOf, withJob, withPage } = require("./in_browser.js");

const status = textOf("year-status");

// Dark film on an old single pane to the south: over the line for hours.
const dark = `[pane]\nwidth = "1.2 m"\nheight = "1.5 m"\nfacing = "S"\n[glass]\npanes = 1\n[lite.1]\nkind = "float"\ntint = "clear"\nthickness = "6 mm"\ntreatment = "annealed"\ncoating = "none"\n[site]\nplace = "denver"\n[film]\nsolar_absorptance = 0.65\n`;
const drawnYear = (page) => page.waitForSelector("#year-picture svg.year");

for (const [size, options] of Object.entries({ phone, narrow, desktop })) {
  test(`${size}: the picture, the go line and the table say the same`, async () => {
    await withPage({ ...options, hash: "#year", script: withJob(dark) }, async (page) => {
      await drawnYear(page);
      const cells = await page.locator("#view-year td").allTextContents();
      assert.equal(cells.length, 288);
      const ratios = cells.map(parseFloat), over = cells.filter((cell) => cell.endsWith("*")).length;
      assert.ok(over > 0 && over < 288, `${over} hours over the line`);
      assert.equal(ratios.filter((ratio) => ratio > 1.004).length <= over, true);
      const picture = page.locator("#year-picture svg.year").first();
      assert.equal(await picture.locator("rect[fill='url(#year-over)']").count(), over, "every hour over the line is hatched");
      const highest = Math.max(...ratios).toFixed(2);
      assert.match(await picture.getAttribute("aria-label"), new RegExp(`${highest} of what the edge bears`));
      assert.equal(await sideways(page), 0, "nothing stands out sideways");
      await shot(page, `year-${size}`);
    });
  });
}

test("without film the year is milder, by touch", async () => {
  await withPage({ ...phone, hash: "#year", script: withJob(dark) }, async (page) => {
    await drawnYear(page);
    const highest = async () => Math.max(...(await page.locator("#view-year td").allTextContents()).map(parseFloat));
    const filmed = await highest();
    await page.locator("#view-year .tap", { hasText: "Without film" }).tap();
    await page.waitForFunction(() => document.querySelector("#year-picture h3").textContent === "Without film");
    assert.ok((await highest()) < 0.8 * filmed);
  });
});

test("the colors are evenly spaced in lightness and all differ", async () => {
  await withPage({ ...desktop, hash: "#year", script: withJob(dark) }, async (page) => {
    await drawnYear(page);
    const fills = await page.locator("#year-picture svg.year").nth(1).locator("rect[fill^='rgb']").evaluateAll((rects) => rects.map((rect) => rect.getAttribute("fill")));
    assert.equal(fills.length, 11);
    // CIE 1976 lightness of sRGB's relative luminance, IEC 61966-2-1; both recalled, not read from the standards.
    const lightness = (fill) => {
      const [r, g, b] = fill.match(/\d+/g).map((c) => c / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
      return 116 * Math.cbrt(0.2126 * r + 0.7152 * g + 0.0722 * b) - 16;
    };
    const steps = fills.map(lightness).slice(1).map((light, i) => lightness(fills[i]) - light);
    assert.ok(Math.min(...steps) > 6 && Math.max(...steps) < 8.5, `lightness falls by ${steps.map((step) => step.toFixed(1))}`);
  });
});

test("by keyboard, and what an unfinished pane is told", async () => {
  await withPage({ ...desktop, script: withJob(dark) }, async (page) => {
    await tabTo(page, "#to-year");
    await page.keyboard.press("Enter");
    await drawnYear(page);
    await tabTo(page, "input[name='year-film']");
    await page.keyboard.press("ArrowDown");
    await page.waitForFunction(() => document.querySelector("#year-picture h3").textContent === "Without film");
    await tabTo(page, "#view-year summary");
    await page.keyboard.press("Enter");
    assert.ok(await page.locator("#view-year table").isVisible());
  });
  await withPage({ ...phone, hash: "#year" }, async (page) => {
    await status(page, /pane\.width/);
    assert.equal(await page.locator("#year-picture svg").count(), 0);
  });
});

for (const colorScheme of ["light", "dark"]) {
  test(`${colorScheme}: nothing for axe to name, and it prints`, async () => {
    await withPage({ ...phone, colorScheme, bypassCSP: true, hash: "#year", script: withJob(dark) }, async (page) => {
      await drawnYear(page);
      await nothingForAxe(page);
      await shot(page, `year-${colorScheme}`);
      assert.equal((await page.pdf()).subarray(0, 5).toString(), "%PDF-");
    });
  });
}
