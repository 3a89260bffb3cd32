#!/usr/bin/env bash
# Builds the page and compares its answers with those of the program (build/release, made by tests/run.sh). Where
# chromium is installed and `npm ci` was run here, the page is also used as a person does, and the program's sheets are
# validated, opened and printed.
#   BUILD=build/other bash tests/page/run.sh      SHOTS=folder: keeps pictures of the page there
set -euo pipefail
cd "$(dirname "$0")/../.."
source examples/packages.sh

build=$PWD/${BUILD:-build/release}
# Debian keeps the modules that emscripten needs here.
command -v ccache >/dev/null && export EM_COMPILER_WRAPPER=ccache
NODE_PATH=/usr/share/nodejs quietly cmake --build "$build" --target page
export PROGRAM=$build/sunstrain BINDING=$build/page/binding.js HTML=$build/page/sunstrain.html
for file in tests/page/binding*_test.js; do node --test "$file"; done
if [ -d tests/page/node_modules ] && [ -x "${CHROMIUM:-/usr/bin/chromium}" ]; then
  for file in tests/page/*_test.js; do
    [[ "$file" = tests/page/binding* ]] || node --test "$file"
  done
else
  echo "The page itself is not looked at: that needs chromium, and npm ci in tests/page."
fi
