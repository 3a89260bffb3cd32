#!/usr/bin/env bash
# Installs what is missing, builds the program with its tests, runs them all.
#   bash tests/run.sh [options for ctest]      for instance: bash tests/run.sh -L unit
#   SUNSTRAIN_WERROR=ON in the environment makes warnings errors.
set -euo pipefail
cd "$(dirname "$0")/.."
source examples/packages.sh

install_packages "${program_packages[@]}" "${test_packages[@]}"
launcher=()
command -v ccache >/dev/null && launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
quietly cmake --preset release -DSUNSTRAIN_TESTS=ON -DSUNSTRAIN_WERROR="${SUNSTRAIN_WERROR:-OFF}" "${launcher[@]}"
echo "Building ..."
quietly cmake --build --preset release -j2
ctest --test-dir build/release --output-on-failure -j2 "$@"
