// The page as a person meets it, in Chromium (CHROMIUM names it; Debian's when left out) from a file, at phone and
// desktop sizes. HTML in the environment names the page.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { after, before, test } = require("node:test");
const { pathToFileURL } = require("node:url");
const { chromium } = require("playwright-core");

const html = path.resolve(process.env.HTML);
const address = pathToFileURL(html).href;
const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
const narrow = { viewport: { width: 320, height: 640 } };
const desktop = { viewport: { width: 1280, height: 800 } };
const slowestMs = 120_000;  // of an answer with all its drivers, on a machine that does other things
const examples = path.join(__dirname, "..", "..", "examples");

let browser, scratch;
before(async () => {
  const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
  browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  scratch = fs.mkdtempSync(path.join(os.tmpdir(), "sunstrain-page-"));
});
after(async () => {
  await browser.close();
  fs.rmSync(scratch, { recursive: true });
});

// The page in a window of its own without a network; whatever it complains about or asks for fails the test.
async function withPage(options, use) {
  const context = await browser.newContext({ ...options, offline: true, bypassCSP: options.bypassCSP ?? false });
  const page = await context.newPage();
  page.setDefaultTimeout(slowestMs);
  const complaints = [];
  page.on("console", (message) => message.type() !== "log" && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => {
    if (request.url() !== address && !/^(blob|data):/.test(request.url())) complaints.push(request.url());
  });
  await page.goto(address);
  if (options.javaScriptEnabled !== false) await page.waitForSelector("[data-key='film.surface']", { state: "attached" });
  await use(page);
  await context.close();
  assert.deepEqual(complaints, []);
}

const key = (name) => `[data-key='${name}']`;

async function give(page, values) {
  for (const [name, value] of Object.entries(values)) {
    const field = page.locator(key(name));
    if (!(await field.isVisible())) await field.locator("xpath=ancestor::details/summary").click();
    if ((await field.evaluate((node) => node.tagName)) === "SELECT") await field.selectOption(value);
    else {
      await field.fill(value);
      await field.blur();
    }
  }
}

// The answer to what was given last: the printed text tells it, drivers and all.
const printed = (page, pattern) =>
  page.waitForFunction((text) => new RegExp(text).test(document.getElementById("printed").textContent), pattern.source);
const status = (page, pattern) =>
  page.waitForFunction((text) => new RegExp(text).test(document.getElementById("status").textContent), pattern.source);

const partly = `[job]\nname = "part"\n[glass]\npanes = 1\n[lite.1]\nkind = "float or wired"\ntreatment = "annealed"\n`;
const refer = { "pane.width": "2 m", "pane.height": "2.5 m", "film.solar_absorptance": "70 %" };

for (const [size, options] of Object.entries({ phone, narrow, desktop })) {
  test(`${size}: a first answer, changed, refused and given again`, async () => {
    await withPage(options, async (page) => {
      await give(page, refer);
      await status(page, /^REFER/);
      assert.ok(await page.locator("#note").textContent());
      assert.equal(await page.locator("#bars dt").count(), 2);
      await give(page, { "pane.width": "20 miles" });
      await status(page, /pane\.width.*20 miles/);
      assert.equal(await page.locator("#answer").isVisible(), false, "no answer stands beside a refusal");
      await give(page, { "pane.width": "20 in" });
      await status(page, /^(GO|CAUTION|REFER)/);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.equal(wide, 0, "nothing stands out sideways");
    });
  });
}

test("a job file is read, its key asked again, and put away", async () => {
  await withPage(phone, async (page) => {
    await page.locator("#file").setInputFiles(path.join(examples, "stair-window.toml"));
    await status(page, /^CAUTION/);
    assert.match(await page.locator("#what").textContent(), /Settle one thing: lite 1 coating/);
    await give(page, { "lite.1.coating": "none" });
    await status(page, /^GO/);
    assert.match(await page.locator("#what").textContent(), /Nothing found against this film/);
    await page.locator("#base-off").click();
    await status(page, /pane\.width/);
    assert.equal(await page.locator("#answer").isVisible(), false);
  });
});

test("the bars are those of the sheet that governs, whichever it is", async () => {
  await withPage(desktop, async (page) => {
    await give(page, { ...refer, "glass.panes": "1", "lite.1.kind": "laminated", "lite.1.treatment": "annealed" });
    await give(page, { "lite.1.coating": "none", "panel.side": "outdoors", "panel.treatment": "annealed" });
    await status(page, /^(GO|CAUTION|REFER)/);
    const said = (await page.locator("#status").textContent()).match(/\d+\.\d\d/)[0];
    await printed(page, new RegExp(`share of what the edge bears .* ${said}\\n`));
    assert.match(await page.locator("#bars dd").last().textContent(), new RegExp(`^${said} `));
  });
});

test("what guidance would ask of a reading that is open", async () => {
  await withPage(desktop, async (page) => {
    await give(page, { "pane.width": "1 m", "pane.height": "1 m", "film.solar_absorptance": "0.3" });
    await page.locator("#file").setInputFiles({ name: "part.toml", mimeType: "text/plain", buffer: Buffer.from(partly) });
    await printed(page, /part/);
    assert.match(await page.locator("#lists").textContent(), /Guidance would askIf lite 1 kind is wired/);
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
    await give(page, { "film.name": nasty });
    await printed(page, /film: <script>/);
    assert.equal(await page.locator("main img, main script").count(), 0);
    await page.locator("#file").setInputFiles(huge);
    await status(page, /larger than 1 MB/);
  });
});

test("by keyboard alone", async () => {
  await withPage(desktop, async (page) => {
    const reach = async (name) => {
      for (let i = 0; i < 200; ++i) {
        await page.keyboard.press("Tab");
        if (await page.evaluate((wanted) => document.activeElement.dataset.key === wanted, name)) return;
      }
      assert.fail(`${name} is not reached`);
    };
    await reach("pane.width");
    await page.keyboard.type("1 m");
    await reach("pane.height");
    await page.keyboard.type("1.5 m");
    await reach("film.solar_absorptance");
    await page.keyboard.type("0.4");
    await page.keyboard.press("Enter");
    await status(page, /^(GO|CAUTION|REFER)/);
    assert.equal(await page.evaluate(() => document.activeElement.id), "answer-title");
  });
});

test("with scripts off it says what to do", async () => {
  await withPage({ ...phone, javaScriptEnabled: false }, async (page) => {
    assert.match(await page.locator("body").innerText(), /open it in a web browser with scripts allowed/);
    assert.equal(await page.locator("#main").isVisible(), false);
  });
});

for (const colorScheme of ["light", "dark"]) {
  test(`${colorScheme}: nothing for axe to name`, async () => {
    await withPage({ ...phone, colorScheme, bypassCSP: true }, async (page) => {
      await give(page, { ...refer, "glass.panes": "2" });
      await status(page, /^(GO|CAUTION|REFER)/);
      await page.locator("details").evaluateAll((groups) => groups.forEach((group) => (group.open = true)));
      await page.evaluate(axe);
      const { violations, passes } = await page.evaluate(() => window.axe.run());
      assert.ok(passes.length > 20);
      assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes[0].html]), []);
      if (process.env.SHOTS) await page.screenshot({ path: path.join(process.env.SHOTS, `${colorScheme}.png`), fullPage: true });
    });
  });
}
