#!/bin/sh
# From nothing to a first answer: installs what is missing (Debian), builds, and runs the program on
# one of the decks that come with it. Works from any folder:  sh examples/first-run.sh
set -u
root=$(cd -- "$(dirname -- "$0")/.." && pwd) || exit 70
. "$root/.ci/prepare.sh"

need_packages g++ cmake ninja-build libeigen3-dev libfmt-dev libcli11-dev nlohmann-json3-dev
build_all OFF

survey="$root/examples/ledger-hung-raised-deck/survey.json"
report="$root/build/first-run-report.html"

# The exit codes 0 to 3 tell the verdict (carries, does not carry, cannot tell, refer): all are
# results. From 64 on something went wrong.
run() {
  say "underprop $*"
  "$root/build/underprop" "$@" </dev/null
  code=$?
  [ "$code" -le 3 ] || die "underprop $1 ended with the exit code $code"
}

run assess "$survey"
run retrofit "$survey"
run report "$survey" -o "$report"
[ -s "$report" ] || die "no report was written"

say "Done. The report, to be opened in a browser: $report"
echo "The program: $root/build/underprop (try: $root/build/underprop --help)"
