// Practice as the page's engine has it, beside the program.
"use strict";
const assert = require("node:assert/strict");
const { spawnSync } = require("node:child_process");
const { test } = require("node:test");
const { ask, refused } = require("./in_node.js");

test("a window's answer, lesson and comparisons are the program's, its score practice.hpp's", async () => {
  const deck = await ask({ want: "practice" });
  assert.ok(deck.windows.length >= 40 && deck.drills.length >= 12);
  for (const topic of ["unit-thickness", "crack-found", "blind-part-down"]) {
    const { id } = deck.windows.find((window) => window.topic === topic);
    const ours = await ask({ want: "practice", window: id, seed: 1 });
    const { stdout } = spawnSync(process.env.PROGRAM, ["practice", "--topic", topic, "--count", "1"], { input: "go\n1\n", encoding: "utf8" });
    assert.equal(stdout.split("prints it:\n\n")[1].split("\nsunstrain practice")[0], ours.text);
    for (const line of [...ours.compare, ours.lesson]) assert.ok(stdout.replace(/\s+/g, " ").includes(line), line);
    const right = ours.offers.filter((offer) => offer.right);
    assert.ok(right.length > 0 && right.length < ours.offers.length);
  }
  await refused({ want: "practice", window: "none" }, /there is none of that name/);
  await refused({ want: "practice", toml: "[pane]", source: "own.toml" }, /own\.toml: pane\.width/);
  const score = await ask({ want: "practice", score: [{ item: "a", topic: "season", answered: "go", verdict: "refer", picked_right: true }] });
  assert.deepEqual([score.milder, score.verdicts_right, score.picks_right], [1, 0, 1]);
  await refused({ want: "practice", score: [{ answered: "perhaps" }] }, /allowed: go, caution, refer/);
});

test("in Spanish no window is told in English", async () => {
  const english = await ask({ want: "practice" }), spanish = await ask({ want: "practice", language: "es" });
  for (const kind of ["topics", "windows", "drills"])
    english[kind].forEach((one, i) => {
      for (const part of ["name", "again", "title", "see", "ask", "right", "proves", "proves_not"])
        if (one[part]) assert.notEqual(spanish[kind][i][part], one[part]);
    });
});
