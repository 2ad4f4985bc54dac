#!/usr/bin/env bash
# Checks that each layer reaches only what it may know (DEVELOPERS.md, "Layout"). Prints one line
# for each breach and ends with status 1 if there is any.
set -u
cd "$(dirname "$0")/.." || exit 2
breaches=0

# forbid FOLDER PATTERN WHY
forbid() {
  local found
  found=$(grep -rnE --include='*.cpp' --include='*.h' -- "$2" "src/$1" 2>/dev/null) || return 0
  printf '%s\n' "$found" | sed "s|\$|   <- $3|"
  breaches=$((breaches + $(printf '%s\n' "$found" | wc -l)))
}

include='^[[:space:]]*#[[:space:]]*include[[:space:]]*[<"]'
forbid core "$include(imgui|SDL|emscripten|sqlite|boost|libpq|absl|libical|app/|host/|collector/|cli/|calendar/)" "core knows only itself"
forbid core "$include(filesystem|fstream|random|thread|mutex)>" "core has no files, threads or randomness of the system"
forbid core '(system|steady|high_resolution)_clock::now|[^_[:alnum:]]time\((0|NULL|nullptr)\)' "core reads no clock"
forbid app "$include(SDL|emscripten|sqlite|boost|absl|libical|collector/|cli/|calendar/|host/(web|headless)/)" "the app knows core and the host interface"
for folder in core app; do
  forbid "$folder" '(^|[^_[:alnum:]])(try[[:space:]]*\{|catch[[:space:]]*\(|throw[[:space:]])' "the page is built without exceptions"
  forbid "$folder" 'std::(ranges|views|format|jthread)\b' "the page's standard library may be an old one without it"
  forbid "$folder" '[^_[:alnum:]]((v?sn?printf|v?sscanf|strto[dfl]|strtold|sto[dfl]|stold)[[:space:]]*\()' "the page's C library writes whole numbers only and reads none (src/host/web/number_text.c)"
  forbid "$folder" '__EMSCRIPTEN__' "platforms are chosen by file, in src/host"
done
forbid collector "$include(imgui|SDL|emscripten|app/|host/|cli/)" "the collector knows core"
forbid calendar "$include(imgui|SDL|emscripten|boost|sqlite|app/|host/|collector/|cli/)" "the calendar reader knows core"
forbid cli "$include(imgui|SDL|emscripten|boost|sqlite|absl|libical|app/|host/|collector/)" "the command line knows core and the calendar reader"

[ "$breaches" -eq 0 ]
