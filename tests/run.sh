#!/bin/sh
# Builds everything with the tests and runs them. Works from any folder:  sh tests/run.sh
set -u
root=$(cd -- "$(dirname -- "$0")/.." && pwd) || exit 70
. "$root/.ci/prepare.sh"

need_packages g++ cmake ninja-build libeigen3-dev libfmt-dev libcli11-dev nlohmann-json3-dev catch2
# A program to compare the solver with. Its test is skipped without it, so nobody is asked for rights.
if ! command -v ccx >/dev/null 2>&1; then
  if [ "$(id -u)" -eq 0 ] || sudo -n true 2>/dev/null; then
    (need_packages calculix-ccx) || say "Going on without calculix-ccx: one comparison is skipped"
  fi
fi
build_all ON

say "Testing"
if ctest --test-dir "$root/build" --output-on-failure --no-tests=error \
  --parallel "$(nproc 2>/dev/null || echo 2)" </dev/null; then
  say "All tests passed."
else
  say "SOME TESTS FAILED; see above."
  exit 1
fi
