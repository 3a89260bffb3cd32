# Debian 12 packages by purpose, and how they are installed. Sourced by examples/first-check.sh, tests/run.sh, .ci/run.

program_packages=(
  g++ cmake ninja-build pkg-config
  libboost-dev libboost-program-options-dev libeigen3-dev libfmt-dev libsqlite3-dev libssl-dev libtomlplusplus-dev nlohmann-json3-dev
)
# A PDF of a sheet is made by weasyprint; the program is built and runs without it.
pdf_packages=(weasyprint fonts-liberation)
test_packages=(ccache catch2 python3 python3-numpy python3-scipy calculix-ccx strace "${pdf_packages[@]}" poppler-utils tidy)
ci_packages=(clang-format clang-16 libclang-rt-16-dev emscripten node-acorn nodejs chromium)

# install_packages NAME...: installs those that are missing; touches neither network nor root when none is.
install_packages() {
  local missing=() as_root=() log name
  for name in "$@"; do
    dpkg-query -W -f '${Status}' "$name" 2>/dev/null | grep -q '^install ok installed$' || missing+=("$name")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "Needs root or sudo to install: ${missing[*]}" >&2; return 1; }
    as_root=(sudo)
  fi
  echo "Installing: ${missing[*]}"
  log=$(mktemp)
  if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive sh -c \
      'apt-get update -qq && apt-get install -y -qq --no-install-recommends "$@"' install "${missing[@]}" \
      >"$log" 2>&1 </dev/null; then
    cat "$log" >&2
    rm -f "$log"
    return 1
  fi
  rm -f "$log"
}

# quietly COMMAND...: its output only when it fails.
quietly() {
  local log status=0
  log=$(mktemp)
  "$@" >"$log" 2>&1 || status=$?
  [ $status -eq 0 ] || cat "$log" >&2
  rm -f "$log"
  return $status
}
