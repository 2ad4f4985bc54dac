#!/usr/bin/env bash
# Builds everything and runs every test. The last line is "N passed, M failed"; status 1 if M > 0.
#
#   bash tests/run.sh                 all of it
#   bash tests/run.sh --only GROUP    one of: lint, native, content, web
#
# lint     format, layering, clang-tidy
# native   doctest programs with address and undefined-behaviour checks (build/tests)
# content  node tests of what content/ holds
# web      node tests of the real page in real browsers, against a real collector
set -uo pipefail
cd "$(dirname "$0")/.." || exit 2

usage() { sed -n '2,/^set/s/^# \{0,1\}//p' "$0"; }
only=all
case "${1:-}" in
  '') ;;
  --help) usage; exit 0 ;;
  --only) only=${2:-} ;;
  *) usage >&2; exit 2 ;;
esac
case $only in all | lint | native | content | web) ;; *) usage >&2; exit 2 ;; esac

passed=0 failed=0
jobs=${JOBS:-$(nproc)}
say() { printf '%4ds  %s\n' "$SECONDS" "$*"; }
wants() { [ "$only" = all ] || [ "$only" = "$1" ]; }
add() { passed=$((passed + $1)) failed=$((failed + $2)); }
finish() {
  printf '%d passed, %d failed\n' "$passed" "$failed"
  [ "$failed" -eq 0 ]
  exit
}
# What nothing else can do without: if it fails, that is the result.
must() { "$@" || { say "failed: $*"; add 0 1; finish; }; }

# check NAME COMMAND... counts as one test; its output is shown only if it fails.
check() {
  local name=$1 log
  shift
  say "$name"
  mkdir -p build/logs
  log=build/logs/${name// /-}.log
  if "$@" >"$log" 2>&1; then add 1 0; else cat "$log"; say "FAILED: $name"; add 0 1; fi
}

format_check() { git ls-files -z '*.cpp' '*.h' '*.c' | xargs -0 clang-format --dry-run -Werror; }

build_native_tests() {
  [ -f build/tests/build.ninja ] || cmake -S . -B build/tests -G Ninja -DTROWELBELL_SANITIZE=ON \
    -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG='-O1 -g1 -D_GLIBCXX_ASSERTIONS' \
    >build/logs/configure-tests.log || return
  ninja -C build/tests -j "$jobs" --quiet
}

# A doctest program that dies before its closing line counts as one failure.
run_doctest() {
  local log=build/logs/$(basename "$1").log counts
  say "$(basename "$1")"
  "$1" --no-colors >"$log" 2>&1 || cat "$log"
  counts=$(sed -nE 's/^\[doctest\] test cases: +[0-9]+ \| +([0-9]+) passed \| +([0-9]+) failed.*/\1 \2/p' "$log")
  # shellcheck disable=SC2086
  add ${counts:-0 1}
}

# node_tests FOLDER : its *.test.mjs, counted from the TAP closing lines.
node_tests() {
  local log=build/logs/node-$(basename "$1").tap
  say "$1"
  if ! compgen -G "$1/*.test.mjs" >/dev/null; then
    say "FAILED: $1 holds no *.test.mjs"
    add 0 1
    return
  fi
  node --test --test-reporter=spec --test-reporter-destination=stdout \
    --test-reporter=tap --test-reporter-destination="$log" "$1"/*.test.mjs </dev/null
  add $(awk '/^# pass /{p = $3} /^# (fail|cancelled) /{f += $3} END{print p + 0, (p + f == 0) ? 1 : f + 0}' "$log")
}

mkdir -p build/logs
say "set-up"
must bash wasm/setup.sh tests

if wants lint; then
  check "format" format_check
  check "layering" bash tests/layering.sh
fi
if wants native || wants lint; then
  say "building the native tests: build/tests"
  must /usr/bin/python3 wasm/fonts.py
  must build_native_tests
fi
if wants native; then
  for program in build/tests/tests/*_tests; do run_doctest "$program"; done
fi
if wants content || wants web; then
  must bash wasm/build.sh
  must bash tests/web/install.sh
fi
wants content && node_tests tests/content
wants web && node_tests tests/web
wants lint && check "clang-tidy" node tests/tidy.mjs build/tests "$jobs"
say "done"
finish
