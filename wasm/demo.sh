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
county=content/demo/county.json data=build/demo-data
mkdir -p "$data"

# brief VISIT OPTIONS... : its brief, with the key it had before, into the folder the collector reads.
brief() {
  local visit=$1
  shift
  build/native/trowelbell brief "$county" --visit "$visit" "$@" \
    --keys "$data/keys.json" --out "$data/briefs" 2>"$data/brief.log" ||
    { cat "$data/brief.log" >&2; exit 1; }
}

# The county's visits move to about today, so that some are over, some to come, and the first begins
# in five minutes on its school's clock (tomorrow at nine where that clock is near midnight).
mapfile -t visits < <(node -p "require('./$county').visits.map((visit) => visit.id).join('\n')")
offset=$(node -p "const c = require('./$county');
  c.schools.find((school) => school.id === c.visits[0].school).utc_offset_minutes")
school_time() { date -u -d "@$(($(date +%s) + offset * 60 + $1))" "+$2"; }
start=$(school_time 300 %H:%M) day=$(school_time 300 %F)
if [[ $start > 22:30 ]]; then start=09:00 day=$(school_time 86400 %F); fi
days=(0 1 2 7 -7 -1)
for i in "${!visits[@]}"; do
  [ "$i" -eq 0 ] || brief "${visits[$i]}" --date "$(school_time $((days[i % 6] * 86400)) %F)" >/dev/null
done
first=$(brief "${visits[0]}" --date "$day" --start "$start" --link "http://127.0.0.1:$port/")

build/native/trowelbell-collector --port "$port" --web build/web --data "$data/collector" \
  --briefs "$data/briefs" >"$data/collector.log" &
collector=$!
trap 'kill "$collector" 2>/dev/null; wait "$collector" 2>/dev/null; echo; echo "demo: ended"; exit 0' INT TERM
until grep -q '^coordinator ' "$data/collector.log"; do
  kill -0 "$collector" 2>/dev/null || exit 1  # it has said why
  sleep 0.1
done

cat <<END

Open this as the lead's phone:    http://127.0.0.1:$port/
The first visit's brief:          $(sed -n 's/^ *link: //p' <<<"$first")
$(sed 1q <<<"$first")
Open this as the coordinator:     $(sed -n 's/^coordinator //p' "$data/collector.log")

Press Ctrl-C to end.
END
wait "$collector"
