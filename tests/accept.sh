#!/bin/sh
# Writes all recorded words anew from what comes out now, for review with git diff. Works from any
# folder:  sh tests/accept.sh
set -u
root=$(cd -- "$(dirname -- "$0")/.." && pwd) || exit 70
. "$root/.ci/prepare.sh"
build=$root/build

[ -f "$build/CMakeCache.txt" ] || die "there is no build with tests yet: sh tests/run.sh"
build_tests() {
  cmake --build "$build" --target underprop_tests underprop || die "the build failed; see above"
}

build_tests
# In the order in which they stand, which is that of the passages of a file.
UNDERPROP_ACCEPT=1 "$build/tests/underprop_tests" --order decl '[words]' ||
  die "not all words could be written; see above"
build_tests # where data/ was written anew it goes into the program
say "What changed, to be read with git diff:"
git -C "$root" status --short
