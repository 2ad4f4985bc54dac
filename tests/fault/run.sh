#!/usr/bin/env bash
# The long run of the fault tests, with its counts: the native ones in an optimised build of their own
# (build/fault), then those of the page in Chromium. The short run is part of tests/run.sh.
#
#   bash tests/fault/run.sh [--schedules N] [--kills N] [--power-runs N] [--browser-kills N]
#
# --schedules   network schedules, seeded from 0 (10000)
# --kills       times the collector is killed under load (200)
# --power-runs  runs of 60 reports with a power cut at about every sixteenth write or flush (100)
# --browser-kills  times Chromium is killed while the page writes (200)
set -euo pipefail
cd "$(dirname "$0")/../.."

usage() { sed -n '2,/^set/s/^# \{0,1\}//p' "$0"; }
export TROWELBELL_SCHEDULES=10000 TROWELBELL_KILLS=200 TROWELBELL_POWER_RUNS=100
browser_kills=200
while [ $# -gt 0 ]; do
  [ "$1" != --help ] || { usage; exit 0; }
  [[ ${2:-} =~ ^[0-9]{1,7}$ ]] || { usage >&2; exit 2; }
  case $1 in
    --schedules) TROWELBELL_SCHEDULES=$2 ;;
    --kills) TROWELBELL_KILLS=$2 ;;
    --power-runs) TROWELBELL_POWER_RUNS=$2 ;;
    --browser-kills) browser_kills=$2 ;;
    *) usage >&2; exit 2 ;;
  esac
  shift 2
done

bash wasm/setup.sh tests
[ -f build/fault/build.ninja ] ||
  cmake -S . -B build/fault -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
ninja -C build/fault --quiet fault_tests
build/fault/tests/fault_tests --no-colors --duration=true

bash wasm/build.sh
bash tests/web/install.sh
node tests/fault/browser/kills.mjs "$browser_kills"
node tests/fault/browser/updates.mjs
