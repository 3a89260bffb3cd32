// The page's engine beside the program: the same JSON to 1e-9 of each number and the same printed text, on every
// example.
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { test } = require("node:test");
const { ask, inRoot, refused, root, same, textOf } = require("./in_node.js");

// Jobs of their own: a schedule's defaults and a user's rules are none.
const isJob = (name) => name.endsWith(".toml") && /^\s*width\s*=/m.test(textOf("examples", name));
const examples = fs.readdirSync(path.join(root, "examples")).filter(isJob);

test("there are examples", () => assert.ok(examples.length >= 8));

for (const name of examples) {
  const file = `examples/${name}`;
  const toml = textOf(file);

  test(`${file}: the program's JSON and text`, async () => {
    const request = { source: file, toml };
    const { answer, text } = await ask(request);
    const numbers = same(answer, JSON.parse(inRoot("check", file, "--json").stdout), name);
    assert.ok(numbers > 100, `${numbers} numbers compared`);
    assert.equal(text, inRoot("check", file).stdout);
  });

  test(`${file}: in inches, in full, 60 columns`, async () => {
    const { text } = await ask({ source: file, toml, units: "inch", full: true, width: 60 });
    assert.equal(text, inRoot("check", file, "--units", "inch", "--full", "--width", "60").stdout);
  });
}

// The governing lite's figures beside the verdict.
const figures = ({ answer, picture }) => [answer.verdict, answer.figures, answer.lites[picture.governing]];

const lastOf = (request, { taken, answer }) => ({ request, taken, stress_ratio: answer.stress_ratio });

test("a first look begins from what was taken before, the verdict is the whole answer's", async () => {
  const request = { set: [["pane.width", "36 in"], ["pane.height", "5 ft"], ["film.solar_absorptance", "0.45"], ["pane.facing", "S"]] };
  const whole = await ask(request);
  const verdict = await ask({ ...request, depth: "verdict" });
  assert.equal(verdict.text, "");
  assert.deepEqual(figures(verdict), figures(whole));
  assert.deepEqual(verdict.taken, whole.taken);
  const again = await ask({ ...request, depth: "first", before: lastOf(request, whole) });
  assert.deepEqual(figures(again), figures(whole));
  const cold = await ask({ ...request, depth: "first" });
  const worst = ({ answer, picture }) => answer.lites[picture.governing].after_film.stress_ratio;
  assert.ok(worst(cold) <= worst(whole));
  assert.ok(Object.keys(whole.taken).length > 10);
  await refused({ ...request, depth: "deep" }, /depth.*deep.*first, verdict, whole/);
});

test("a first look is the verdict where what is known since can only take readings away", async () => {
  const set = [["pane.width", "36 in"], ["pane.height", "5 ft"], ["film.solar_absorptance", "0.25"], ["glass.panes", "1"], ["lite.1.treatment", "tempered"]];
  const whole = await ask({ set });
  assert.equal(whole.answer.verdict, "go");
  const more = { set: [...set, ["inside.shade", "none"]], depth: "first" };
  const between = ({ at_least, at_most }) => [at_least, at_most];
  assert.deepEqual(between(await ask({ ...more, before: lastOf({ set }, whole) })), ["go", "go"]);
  assert.deepEqual(between(await ask({ ...more, before: lastOf({ set: set.slice(0, 4) }, whole) })), ["go", "caution"], "tempered was not known before");
  assert.deepEqual(between(await ask(more)), ["go", "caution"]);
});

test("what the engine keeps of one pane changes nothing of the next", async () => {
  const panes = examples.slice(0, 4).map((name) => ({ source: name, toml: fs.readFileSync(path.join(root, "examples", name), "utf8") }));
  const forth = [], back = [];
  for (const pane of panes) forth.push(await ask(pane));
  for (const pane of [...panes].reverse()) back.unshift(await ask(pane));
  assert.deepEqual(back, forth);
});

test("keys and texts without a file are the program's --set", async () => {
  const set = [["pane.width", "36 in"], ["pane.height", "5 ft"], ["film.solar_absorptance", "0.45"]];
  const { text } = await ask({ set });
  assert.equal(text, inRoot("check", ...set.flatMap(([key, value]) => ["--set", `${key}=${value}`])).stdout);
});

const least = { "pane.width": "1 m", "pane.height": "1 m", "film.solar_absorptance": "0.4" };

const asSet = (values) => ({ set: Object.entries(values) });

test("bad input is one line", async () => {
  await refused({}, /pane\.width/);
  await refused(asSet({ ...least, "pane.width": "a\nb<script>" }), /pane\.width.*<script>/);
  await refused(asSet({ ...least, "pane.widht": "1 m" }), /pane\.widht.*pane\.width/);
  await refused(asSet({ ...least, "pane.width": "1e400 m" }), /pane\.width.*too large/);
  await refused({ source: "job.toml", toml: "[pane\n" }, /job\.toml/);
  await refused({ source: "job.toml", toml: `[job]\nname = "${"x".repeat(1e6)}"\n` }, /job\.toml/);
  await refused(asSet({ ...least, weather: "town.epw" }), /weather/);
});

test("a job may leave the engine as it was", async () => {
  const first = await ask(asSet(least));
  await ask({});
  assert.deepEqual(await ask(asSet(least)), first);
});

test("a request that is none is a fault, in one line", async () => {
  assert.match((await ask("{")).fault, /parse/);
});

// ---- the form's questions --------------------------------------------------------------------------

const asked = async (request) => (await ask({ want: "questions", ...request })).questions;
const named = (questions, id) => questions.find((one) => one.id === id);

test("what is asked follows what was answered", async () => {
  const first = await asked({});
  assert.equal(first[0].id, "damage");
  assert.equal(named(first, "slope-angle"), undefined);
  assert.ok(named(first, "width").needed);
  const sloped = await asked({ answers: { slope: "sloped or overhead", panes: "two, a sealed unit" } });
  assert.equal(named(sloped, "slope-angle").known, "45 deg");
  assert.equal(named(sloped, "thickness.2").lite, "Inner lite. ");
  assert.equal(named(sloped, "thickness.3"), undefined);
});

test("answers come to the job that ask would write", async () => {
  const answers = { panes: "two, a sealed unit", "frame-faults": ["the glass touches metal: a screw, a clip, the frame", "water stands or has stood in the frame"],
    width: "36 in", height: "5 ft", absorptance: "45 %" };
  const { answer } = await ask({ answers });
  assert.equal(answer.job["glass.panes"], "2");
  assert.equal(answer.job["frame.glass_touches_metal"], "yes");
  assert.equal(answer.job["history.water_in_frame"], "yes");
  assert.equal(answer.job["frame.hard_putty"], "no");
  assert.ok(Math.abs(answer.job["pane.width"] - 36 * 0.0254) < 1e-12);
});

test("an answer that cannot be taken is refused at its question and in the answer", async () => {
  const answers = { width: "20 miles", height: "1 m", absorptance: "0.4" };
  assert.match(named(await asked({ answers }), "width").refused, /pane\.width.*20 miles/);
  await refused({ answers }, /pane\.width.*20 miles/);
  const gone = { panes: "one pane", coating: "odd reflection: the 5th face (low-e)" };
  assert.ok(named(await asked({ answers: gone }), "coating").refused);
});

test("a job file holds where nothing was answered", async () => {
  const toml = `[glass]\npanes = 2\n[lite.1]\nkind = "wired"\n`;
  const before = await asked({ toml });
  assert.equal(named(before, "panes").before, "2");
  assert.ok(named(before, "which-made"), "a question that hangs on what the file says");
  const { answer } = await ask({ toml, answers: { ...{ width: "1 m", height: "1 m", absorptance: "0.4" }, "which-made": "the inner one" } });
  assert.equal(answer.job["lite.2.kind"], "wired");
  assert.equal(answer.job["lite.1.kind"], "float");
});

test("what guidance says before there are figures", async () => {
  const { rules } = await ask({ want: "questions", answers: { damage: "cracked, however short the crack" } });
  assert.ok(rules.some(({ severity }) => severity === "refer"));
});
