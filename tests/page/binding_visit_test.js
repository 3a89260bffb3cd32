// What the page asks of the engine for a visit, for films and for a year, beside what the program says to the same.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { test } = require("node:test");
const { ask, inRoot, refused, same, textOf } = require("./in_node.js");

const films = "examples/invented-films.csv", panes = "examples/school-panes.csv", defaults = "examples/school-defaults.toml";
const jobs = ["ferry-door", "telephone", "stair-window"].map((name) => `examples/${name}.toml`);

for (const file of jobs) {
  test(`${file}: films in the order and with the figures of rank`, async () => {
    const answer = await ask({ want: "rank", source: file, toml: textOf(file), films: textOf(films), films_name: films });
    const numbers = same(answer, JSON.parse(inRoot("rank", file, "--films", films, "--json").stdout), file);
    assert.ok(numbers > 20, `${numbers} numbers compared`);
  });
}

test("the year's worst hour is the answer's", async () => {
  const file = jobs[0];
  const year = await ask({ want: "year", toml: textOf(file), source: file });
  const { verdict, stress_ratio } = JSON.parse(inRoot("check", file, "--json").stdout);
  assert.deepEqual([year.before.length, year.after.length, year.after[0].length], [12, 12, 24]);
  assert.equal(year.verdict, verdict);
  assert.ok(Math.abs(year.ratio - stress_ratio) <= 1e-9 * stress_ratio);
  const worst = year.after[year.month - 1][year.hour];
  assert.ok(Math.abs(worst * year.raised_by - stress_ratio) <= 1e-9 * stress_ratio);
  assert.ok(Math.max(...year.after.flat()) <= worst * 1.002);
});

// The rows of the example as the program answers them over its defaults.
test("a schedule's panes have the schedule's answers, and the whole its summary", async () => {
  const given = textOf(defaults), text = textOf(panes);
  const { panes: read } = await ask({ want: "read", text, name: panes });
  const lines = inRoot("schedule", panes, "--defaults", defaults, "--json");
  const rows = lines.stdout.trim().split("\n").map((line) => JSON.parse(line));
  assert.equal(read.length, rows.length);
  // The page has no defaults: they are put under each row's own keys.
  const base = (await ask({ want: "write", toml: given, source: defaults })).keys;
  const visit = [];
  assert.ok(rows.some(({ verdict }) => verdict === "error") && rows.some(({ verdict }) => verdict === "go"));
  for (const [i, { name, toml, quantity }] of read.entries()) {
    const own = (await ask({ want: "write", toml, source: name })).keys;
    const pane = { source: name, set: [...base, ...own] };
    const told = await ask({ ...pane, want: "type" });
    if (rows[i].verdict === "error") {
      assert.ok(told.refused, name);
      visit.push({ ...pane, quantity: 1, label: name, type: null });
      continue;
    }
    assert.equal(quantity, rows[i].quantity);
    assert.equal(told.verdict, rows[i].verdict);
    assert.ok(Math.abs(told.ratio - rows[i].stress_ratio) <= 1e-9 * rows[i].stress_ratio);
    same(told.odds, rows[i].breakage_probability, name);
    assert.equal(told.reason, rows[i].reason);
    visit.push({ ...pane, quantity, label: name, type: told });
  }
  const whole = await ask({ want: "visit", panes: visit });
  const printed = lines.stderr.replace(/\s+/g, " ");
  assert.ok(printed.includes(whole.breaks.replace(/\s+/g, " ").trim()), whole.breaks);
  for (const { verdict, types, panes: count } of whole.verdicts) assert.match(lines.stderr, new RegExp(`${verdict} +${types} +${count}\\n`));
  for (const odd of whole.odd) assert.ok(printed.includes(odd), odd);
});

test("one wood frame among vinyl is the odd one", async () => {
  const type = { verdict: "go", ratio: 0.5, odds: { low: 0, best: 0, high: 0.001 }, reason: "" };
  const pane = (kind, i) => ({ set: [["frame.kind", kind]], quantity: 2, label: `type ${i}`, type });
  const kinds = [...Array(20).fill("vinyl"), "wood"];
  const whole = await ask({ want: "visit", panes: [...kinds.map(pane), { quantity: 1, label: "none", type: null }] });
  assert.deepEqual(whole.odd, ["frame kind wood: type 20; 20 of 21 types have vinyl"]);
  assert.equal(whole.not_examined, 1);
  assert.equal(whole.panes, 42);
  assert.match(whole.breaks, /0 to 0\.042|under 0\.001 to 0\.042/);
});

test("a written job file and a written schedule read back as the same panes", async () => {
  const file = jobs[1], toml = textOf(file);
  const set = [["job.name", 'a "quoted" name, with \\ and é'], ["pane.width", "36 1/2 in"]];
  const written = await ask({ want: "write", toml, source: file, set });
  assert.equal(new Map(written.keys).get("pane.width"), "36 1/2 in");
  assert.equal(written.keys.filter(([key]) => key === "pane.width").length, 1, "what was said last holds alone");
  const direct = await ask({ toml, source: file, set }), back = await ask({ toml: written.text, source: file });
  same(back.answer.job, direct.answer.job, "job");
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "sunstrain-visit-"));
  fs.writeFileSync(path.join(folder, "written.toml"), written.text);
  assert.equal(inRoot("check", path.join(folder, "written.toml")).stdout, direct.text, "the program reads it too");
  const schedule = await ask({ want: "write", panes: [{ toml, source: file, set, quantity: 3 }, { set: [["pane.width", "1 m"]], quantity: 1 }] });
  const read = await ask({ want: "read", text: schedule.text, name: "visit.csv" });
  assert.deepEqual(read.panes.map(({ quantity }) => quantity), [3, 1]);
  same((await ask({ toml: read.panes[0].toml, source: file })).answer.job, direct.answer.job, "job of the row");
  fs.rmSync(folder, { recursive: true });
});

test("bad rows have their own line each and stop no other", async () => {
  const text = "job.name,pane.width,pane.height,quantity\nfirst,1 m,1 m,2\nsecond,20 miles,1 m,1\nthird,1 m,1 m,none\n\nlast,1 m,2 m,\n<script>,x\n";
  const { panes: read } = await ask({ want: "read", text, name: "v.csv" });
  assert.deepEqual(read.map(({ refused }) => Boolean(refused)), [false, true, true, true, true]);
  assert.match(read[1].refused, /v\.csv, line 3: pane\.width = "20 miles"/);
  assert.match(read[2].refused, /line 4: quantity = "none"/);
  assert.match(read[4].refused, /line 7: has 2 cells/);
});

test("what is no file of panes is refused in a line", async () => {
  await refused({ want: "read", text: "", name: "empty.toml" }, /empty\.toml/);
  await refused({ want: "read", text: "[pane\n", name: "a.toml" }, /a\.toml/);
  await refused({ want: "read", text: "colour,size\nred,2\n", name: "b.csv" }, /b\.csv: no column/);
  await refused({ want: "read", text: "\u0000\u0001\u0002", name: "c.bin" }, /c\.bin/);
  await refused({ want: "read", text: `pane.width\n${"1 m\n".repeat(501)}`, name: "long.csv" }, /more than 500 rows/);
  await refused({ want: "read", text: "x".repeat(1e6), name: "d.csv" }, /d\.csv/);
  await refused({ want: "rank", toml: textOf(jobs[0]), films: "film.name\n" }, /no film/);
  await refused({ want: "nothing" }, /nothing/);
});
