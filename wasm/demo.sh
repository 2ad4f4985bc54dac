#!/usr/bin/env bash
# Builds Trowelbell and runs it on this machine with an invented county: the page for phones, and
# the coordinator's page. Ctrl-C ends it; what was recorded stays in build/demo-data.
#
#   bash wasm/demo.sh [--port N]     N: 8080 unless given
set -euo pipefail
cd "$(dirname "$0")/.."

usage() { sed -n '2,/^set/s/^# \{0,1\}//p' "$0"; }
port=8080
while [ $# -gt 0 ]; do
  case $1 in
    --help) usage; exit 0 ;;
    --port) port=${2:-}; shift 2 || { usage >&2; exit 2; } ;;
    *) usage >&2; exit 2 ;;
  esac
done
[[ $port =~ ^[0-9]{1,5}$ && $port -ge 1 && $port -le 65535 ]] || { usage >&2; exit 2; }
if (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null; then
  echo "demo: port $port is taken. Choose another: bash wasm/demo.sh --port $((port % 65535 + 1))" >&2
  exit 1
fi

bash wasm/build.sh
data=build/demo-data today=$(date +%F)
mkdir -p "$data"

# The visits' dates follow today; a new day makes new briefs, the same day keeps the keys it has.
if [ "$(cat "$data/made-on" 2>/dev/null)" != "$today" ]; then
  rm -rf "$data/briefs"
  build/native/trowelbell brief content/demo/county.json --today "$today" --out "$data/briefs"
  echo "$today" >"$data/made-on"
fi

build/native/trowelbell-collector --port "$port" --web build/web --data "$data" --briefs "$data/briefs" &
collector=$!
trap 'kill "$collector" 2>/dev/null; wait "$collector" 2>/dev/null; echo; echo "demo: ended"; exit 0' INT TERM
for _ in $(seq 100); do
  (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null && break
  kill -0 "$collector" 2>/dev/null || { echo "demo: the collector did not start, see its words above" >&2; exit 1; }
  sleep 0.1
done

cat <<END

The phone's page:        http://127.0.0.1:$port/
The coordinator's page:  http://127.0.0.1:$port/coordinator
Press Ctrl-C to end.
END
wait "$collector"
