// The page's engine in node, beside the program. PROGRAM and BINDING in the environment name the program and the page's
// binding.js. What the tests of the binding share.
"use strict";
const assert = require("node:assert/strict");
const { spawnSync } = require("node:child_process");
const fs = require("node:fs");
const path = require("node:path");

const { PROGRAM, BINDING } = process.env;
const root = path.join(__dirname, "..", "..");
const inRoot = (...words) => spawnSync(PROGRAM, words, { cwd: root, encoding: "utf8" });
const binding = path.resolve(BINDING);
const starting = require(binding)({ wasmBinary: fs.readFileSync(binding.replace(/js$/, "wasm")) });

async function ask(request) {
  const engine = await starting;
  const text = typeof request === "string" ? request : JSON.stringify(request);
  const bytes = engine.lengthBytesUTF8(text) + 1;
  const at = engine._malloc(bytes);
  engine.stringToUTF8(text, at, bytes);
  const answer = JSON.parse(engine.UTF8ToString(engine._sunstrain_answer(at)));
  engine._free(at);
  return answer;
}

// A slope is the difference of two ratios, which agree to 1e-9 themselves: it loses two places to that.
const tolerance = (where) => (where.endsWith(".slope_per_si_unit") ? 1e-7 : 1e-9);

// Every number, word and key of two documents; the number of numbers compared.
function same(ours, theirs, where) {
  if (typeof theirs === "number") {
    assert.equal(typeof ours, "number", where);
    assert.ok(Math.abs(ours - theirs) <= tolerance(where) * Math.abs(theirs), `${where}: ${ours} beside ${theirs}`);
    return 1;
  }
  if (theirs === null || typeof theirs !== "object") {
    assert.equal(ours, theirs, where);
    return 0;
  }
  assert.deepEqual(Object.keys(ours), Object.keys(theirs), where);
  return Object.keys(theirs).reduce((sum, key) => sum + same(ours[key], theirs[key], `${where}.${key}`), 0);
}

async function refused(request, pattern) {
  const answer = await ask(request);
  assert.deepEqual(Object.keys(answer), ["refused"]);
  assert.match(answer.refused, pattern);
  assert.doesNotMatch(answer.refused, /[\x00-\x1f]/);
}

// A file of the repository as text.
const textOf = (...names) => fs.readFileSync(path.join(root, ...names), "utf8");

module.exports = { ask, inRoot, refused, root, same, textOf };
