// The sheets of `sunstrain report` (PROGRAM names the program) in a real browser: html-validate (npm) finds nothing, axe
// finds nothing, nothing is asked for, they print on one page or two, and nothing stands over the paper's edge.
"use strict";
const assert = require("node:assert/strict");
const { execFileSync, spawnSync } = require("node:child_process");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { after, before, test } = require("node:test");
const { pathToFileURL } = require("node:url");
const { HtmlValidate } = require("html-validate");
const { chromium } = require("playwright-core");

const program = process.env.PROGRAM;
const examples = path.join(__dirname, "..", "..", "examples"), reports = path.join(__dirname, "..", "cli", "reports");
const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const jobs = { stair: path.join(examples, "stair-window.toml"), telephone: path.join(examples, "telephone.toml"), bakery: path.join(examples, "bakery-shadow.toml"), laminated: path.join(reports, "laminated.toml") };
const purposes = ["customer", "file", "maker"];
const schedule = [path.join(examples, "school-panes.csv"), "--defaults", path.join(examples, "school-defaults.toml")];
const validator = new HtmlValidate({ extends: ["html-validate:recommended"], rules: { "long-title": "off", "doctype-style": ["error", { style: "lowercase" }] } });

let browser, scratch;
before(async () => {
  scratch = fs.mkdtempSync(path.join(os.tmpdir(), "sunstrain-report-"));
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
});
after(async () => {
  await browser?.close();
  fs.rmSync(scratch, { recursive: true });
});

function sheet(name, words) {
  const file = path.join(scratch, `${name}.html`);
  const done = spawnSync(program, ["report", ...words, "--date", "2025-02-21", "-o", file], { encoding: "utf8" });
  assert.ok(done.status === 0 || (done.status === 2 && done.stderr.startsWith("No answer")), done.stderr);
  return file;
}

async function opened(file, use) {
  const context = await browser.newContext({ offline: true, viewport: { width: 900, height: 1100 } });
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (message) => complaints.push(message.text()));
  page.on("request", (request) => request.url() !== pathToFileURL(file).href && complaints.push(request.url()));
  await page.goto(pathToFileURL(file).href);
  await use(page);
  await context.close();
  assert.deepEqual(complaints, []);
}

async function pagesInPrint(page, file, format) {
  const pdf = file.replace(/html$/, "pdf");
  await page.pdf({ path: pdf, format, preferCSSPageSize: true });
  const info = execFileSync("pdfinfo", [pdf], { encoding: "utf8" });
  return { pages: Number(/Pages:\s+(\d+)/.exec(info)[1]), size: /Page size:\s+([\d.]+) x ([\d.]+)/.exec(info).slice(1).map(Number) };
}

test("html-validate finds nothing", async () => {
  const sheets = purposes.flatMap((purpose) => [sheet(`valid-${purpose}`, [jobs.stair, "--for", purpose, "--papers", path.join(examples, "stair-papers.toml")]), sheet(`valid-${purpose}-school`, [...schedule, "--for", purpose])]);
  for (const file of sheets) {
    const report = await validator.validateString(fs.readFileSync(file, "utf8"));
    assert.deepEqual(report.results.flatMap(({ messages }) => messages.map(({ ruleId, message, line }) => `${line}: ${ruleId}: ${message}`)), []);
  }
});

test("axe finds nothing, and nothing is asked for", async () => {
  for (const purpose of purposes) {
    const file = sheet(`axe-${purpose}`, [jobs.bakery, "--for", purpose, "--language", "es"]);
    const context = await browser.newContext({ bypassCSP: true });
    const page = await context.newPage();
    await page.goto(pathToFileURL(file).href);
    await page.evaluate(axe);
    const { violations, passes } = await page.evaluate(() => window.axe.run());
    await context.close();
    assert.ok(passes.length > 10, `${passes.length} rules passed`);
    assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes[0].html]), []);
    await opened(file, async () => {});
  }
});

test("printed by the browser a sheet takes its page or two, of its paper", async () => {
  const sizes = { a4: [595.28, 841.89], letter: [612, 792] };  // ISO 216 and ANSI/ASME Y14.1, in points
  for (const [name, job] of Object.entries(jobs))
    for (const purpose of purposes)
      for (const [paper, units, language] of [["a4", "metric", "es"], ["letter", "inch", "en"]]) {
        const file = sheet(`print-${name}-${purpose}-${paper}`, [job, "--for", purpose, "--paper", paper, "--units", units, "--language", language]);
        await opened(file, async (page) => {
          const { pages, size } = await pagesInPrint(page, file, paper === "a4" ? "A4" : "Letter");
          assert.ok(pages <= (purpose === "file" ? 2 : 1), `${name} ${purpose} ${paper}: ${pages} pages`);
          size.forEach((points, i) => assert.ok(Math.abs(points - sizes[paper][i]) < 1.5, `${size}`));
        });
      }
});

test("nothing stands over the edge, on paper and on a phone", async () => {
  for (const purpose of purposes) {
    const file = sheet(`edge-${purpose}`, [jobs.laminated, "--for", purpose, "--units", "inch", "--set", `job.name=${"W".repeat(200)}`]);
    await opened(file, async (page) => {
      await page.setViewportSize({ width: 718, height: 900 });  // A4 less its margins, in CSS pixels
      const over = await page.evaluate(() => [...document.querySelectorAll("main *")].filter((one) => one.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map((one) => one.outerHTML.slice(0, 80)));
      assert.deepEqual(over, [], purpose);
      await page.setViewportSize({ width: 360, height: 740 });  // a phone
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), 0, `${purpose} on a phone`);
      await page.setViewportSize({ width: 900, height: 1100 });
      // In a picture too: every text lies within its drawing.
      const cut = await page.evaluate(() => [...document.querySelectorAll("svg text")].filter((text) => {
        const box = text.getBoundingClientRect(), all = text.ownerSVGElement.getBoundingClientRect();
        return box.left < all.left - 1 || box.right > all.right + 1 || box.bottom > all.bottom + 2 || box.top < all.top - 2;
      }).map((text) => text.textContent));
      assert.deepEqual(cut, []);
    });
  }
});

test("labels of a picture do not lie on each other", async () => {
  for (const [name, job] of Object.entries(jobs))
    for (const language of ["en", "es"]) {
      const file = sheet(`labels-${name}-${language}`, [job, "--for", "file", "--units", "inch", "--language", language]);
      await opened(file, async (page) => {
        const clashes = await page.evaluate(() => [...document.querySelectorAll("svg")].flatMap((svg) => {
          const texts = [...svg.querySelectorAll("text")].map((text) => [text.textContent, text.getBoundingClientRect()]);
          return texts.flatMap(([a, x], i) => texts.slice(i + 1).filter(([, y]) => Math.min(x.right, y.right) - Math.max(x.left, y.left) > 1 && Math.min(x.bottom, y.bottom) - Math.max(x.top, y.top) > 4).map(([b]) => [a, b]));
        }));
        assert.deepEqual(clashes, [], `${name} ${language}`);
      });
    }
});
