#!/usr/bin/env bash
# Builds and runs every benchmark and prints each budget with our figure, the baseline measured in the
# same run, their ratio and whether it holds. Status 1 if a budget is missed.
#
#   bash tests/bench/run.sh                 all of it, about twelve minutes after the first build
#   bash tests/bench/run.sh --only PART     one of: pacing, rehearsals, collector, size, page
#   bash tests/bench/run.sh --readme        all of it, and the table in README.md made anew
#
# Run it on a machine that does nothing else.
set -euo pipefail
cd "$(dirname "$0")/../.."

usage() { sed -n '2,/^set/s/^# \{0,1\}//p' "$0"; }
only=all readme=
case "${1:-}" in
  '') ;;
  --help) usage; exit 0 ;;
  --only) only=${2:-} ;;
  --readme) readme=--readme ;;
  *) usage >&2; exit 2 ;;
esac
case $only in all | pacing | rehearsals | collector | size | page) ;; *) usage >&2; exit 2 ;; esac
wants() { [[ " all $* " = *" $only "* ]]; }

bash wasm/setup.sh tests
if wants pacing rehearsals collector; then
  [ -f build/bench/build.ninja ] || cmake -S . -B build/bench -G Ninja -DCMAKE_BUILD_TYPE=Release \
    -DTROWELBELL_BENCH=ON >build/bench.log
  ninja -C build/bench -j "${JOBS:-$(nproc)}" --quiet benches
fi
if wants rehearsals size page; then
  bash wasm/build.sh
  cmake -DTROWELBELL_BENCH=ON build/web-obj >build/bench.log
  ninja -C build/web-obj -j "${JOBS:-$(nproc)}" --quiet bench_pages
  bash tests/web/install.sh
fi
node tests/bench/run.mjs "$only" $readme
