#!/usr/bin/env bash
# Builds the fuzzers and runs each for a while, starting from the shipped jobs.   bash tests/fuzz/run.sh [SECONDS]
set -euo pipefail
cd "$(dirname "$0")/../.."
source examples/packages.sh
seconds=${1:-60}

launcher=()
command -v ccache >/dev/null && launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
quietly cmake --preset faults "${launcher[@]}"
quietly cmake --build --preset faults -j2
for fuzzer in build/faults/tests/fuzz/*_fuzz; do
  name=$(basename "$fuzzer")
  found=build/faults/corpus/$name
  mkdir -p "$found"
  # A fault leaves its input in build/faults/ as crash-*, oom-* or timeout-*.
  quietly "$fuzzer" -max_total_time="$seconds" -max_len=4096 -timeout=10 -rss_limit_mb=1024 -print_final_stats=1 \
    -artifact_prefix=build/faults/ "$found" examples
  echo "$name: $seconds s, no fault"
done
