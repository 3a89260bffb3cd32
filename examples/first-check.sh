#!/usr/bin/env bash
# From a fresh Debian 12 machine to a first answer: installs what is missing, builds the program, checks one
# shipped job.   bash examples/first-check.sh [JOB.toml]
set -euo pipefail
job=$(realpath "${1:-$(dirname "$0")/stair-window.toml}")
cd "$(dirname "$0")/.."
source examples/packages.sh

install_packages "${program_packages[@]}"
echo "Building (a few minutes the first time) ..."
quietly cmake --preset release -DSUNSTRAIN_TESTS=OFF
quietly cmake --build --preset release -j"$(nproc)"
echo "build/release/sunstrain check ${job#"$PWD"/}"
echo
build/release/sunstrain check "$job"
