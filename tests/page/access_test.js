// The page for everyone: scripts off, light and dark.
"use strict";
const assert = require("node:assert/strict");
const { test } = require("node:test");
const { answered, axe, give, openFolds, phone, shot, withPage } = require("./in_browser.js");

test("with scripts off it says what to do", async () => {
  await withPage({ ...phone, javaScriptEnabled: false }, async (page) => {
    assert.match(await page.locator("body").innerText(), /open it in a web browser with scripts allowed/);
    assert.equal(await page.locator("#main").isVisible(), false);
  });
});

for (const colorScheme of ["light", "dark"]) {
  test(`${colorScheme}: nothing for axe to name`, async () => {
    await withPage({ ...phone, colorScheme, bypassCSP: true }, async (page) => {
      await give(page, { width: "2000", height: "2500", absorptance: "70", panes: "two, a sealed unit" });
      await answered(page);
      await openFolds(page);
      await page.evaluate(axe);
      const { violations, passes } = await page.evaluate(() => window.axe.run());
      assert.ok(passes.length > 20);
      assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes[0].html]), []);
      await shot(page, colorScheme);
    });
  });
}
