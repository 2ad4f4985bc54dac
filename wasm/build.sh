#!/usr/bin/env bash
# Builds all of Trowelbell: the programs into build/native, the page into build/web.
# Installs what is missing first (wasm/setup.sh). Overrides: IMGUI_DIR, SDL2_DIR, EMSDK, JOBS.
set -euo pipefail
cd "$(dirname "$0")/.."

case "${1:-}" in
  '') ;;
  *) sed -n '2,3s/^# //p' "$0"; [ "$1" = --help ] || exit 2; exit 0 ;;
esac

say() { printf '%4ds  %s\n' "$SECONDS" "$*"; }

# configure_and_build FOLDER CONFIGURE-COMMAND... : quiet unless it fails. Ninja configures again
# by itself when a CMake file or a set of sources changes.
configure_and_build() {
  local folder=$1 log=$1.log
  shift
  mkdir -p "$folder"
  if [ ! -f "$folder/build.ninja" ]; then
    "$@" -S . -B "$folder" -G Ninja >"$log" 2>&1 || { cat "$log" >&2; exit 1; }
  fi
  ninja -C "$folder" -j "${JOBS:-$(nproc)}" --quiet | { grep -v "no work to do" || true; }
}

bash wasm/setup.sh
if [ -n "${EMSDK:-}" ] && ! command -v emcmake >/dev/null; then
  PATH=$EMSDK/upstream/emscripten:$EMSDK:$PATH
fi

say "programs: build/native"
configure_and_build build/native cmake -DCMAKE_BUILD_TYPE=Release -DTROWELBELL_TESTS=OFF
say "fonts: build/fonts"
/usr/bin/python3 wasm/fonts.py
say "page: build/web"
configure_and_build build/web-obj emcmake cmake -DCMAKE_BUILD_TYPE=Release
node wasm/stage.mjs
say "built"
