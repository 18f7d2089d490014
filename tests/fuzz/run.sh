#!/bin/sh
# Each fuzzer for so many seconds, from the kept corpus:  sh tests/fuzz/run.sh [SECONDS, 20]
# Prints executions and coverage. Needs clang++ with its runtime; without it there is nothing to do.
set -u
root=$(cd -- "$(dirname -- "$0")/../.." && pwd) || exit 70
seconds=${1:-20}
probe=$(mktemp) || exit 70
if ! printf '%s\n' 'extern "C" int LLVMFuzzerTestOneInput(const unsigned char*, unsigned long) { return 0; }' |
  clang++ -x c++ -fsanitize=fuzzer,address,undefined - -o "$probe" >/dev/null 2>&1; then
  rm -f "$probe"
  echo "== No clang++ with libFuzzer: the fuzzers are left out; ctest replays their corpus."
  exit 0
fi
rm -f "$probe"
(cd "$root" && cmake --preset fuzz >/dev/null && cmake --build --preset fuzz) || exit 70
work=$root/build-fuzz/found
seeds=$root/build-fuzz/seeds
mkdir -p "$work/survey" "$work/quantity" "$work/interview" "$seeds/quantity"
# One quantity a line in the corpus, one a file for the fuzzer.
cat "$root"/tests/fuzz/corpus/*.txt |
  awk -v to="$seeds/quantity" '{ file = to "/" NR; printf "%s", $0 > file; close(file) }'
failed=0
run() { # name, longest input, folders of seeds
  name=$1
  longest=$2
  shift 2
  echo "== $name, $seconds s"
  log=$root/build-fuzz/$name.log
  "$root/build-fuzz/tests/${name}_fuzz" -max_total_time="$seconds" -max_len="$longest" -timeout=25 \
    -rss_limit_mb=3000 -print_final_stats=1 -dict="$root/tests/fuzz/quantity.dict" \
    -artifact_prefix="$root/build-fuzz/$name-" "$work/$name" "$@" >"$log" 2>&1
  status=$?
  grep -E ' cov: ' "$log" | tail -1
  grep -E 'number_of_executed_units|average_exec_per_sec|new_units_added' "$log"
  if [ "$status" -ne 0 ]; then
    tail -40 "$log"
    failed=1
  fi
}
run quantity 80 "$seeds/quantity"
run survey 16000 "$root/tests/fuzz/corpus" "$root/tests/fuzz/found" "$root/tests/bad_input" "$root/tests/fuzz/regressions"
run interview 8000 "$root/tests/interviews" "$root/tests/fuzz/found_said"
exit "$failed"
