#!/usr/bin/env bash
# Compiles the engine to WebAssembly with Debian's emscripten, runs it in node, and compares every number with the
# native program's (build/release, made by tests/run.sh) to 1e-9.
set -euo pipefail
cd "$(dirname "$0")/../.."
source examples/packages.sh

# Debian keeps the modules that emscripten needs here.
export NODE_PATH=/usr/share/nodejs
quietly emcmake cmake -S tests/wasm -B build/wasm -G Ninja
quietly cmake --build build/wasm -j2

build/release/tests/wasm/engine_smoke >build/wasm/native.txt
node build/wasm/engine_smoke.js >build/wasm/wasm.txt
# The C export by itself, as a page would call it.
node -e '
  const engine = require("./build/wasm/engine_smoke.js");
  engine.onRuntimeInitialized = () => console.log("exported_peak_pa", engine._edge_peak_pa(0.9, 1.2, 20));
' | grep exported_peak_pa >>build/wasm/wasm.txt
python3 tests/wasm/compare.py build/wasm/native.txt build/wasm/wasm.txt 1e-9
