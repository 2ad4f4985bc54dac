#!/usr/bin/env bash
# Brings what a build needs: Debian packages, and the sources of Dear ImGui, SDL2 and qrcodegen.
#
#   bash wasm/setup.sh          what the demo needs
#   bash wasm/setup.sh tests    and what the tests need
#
# Does nothing, in well under a second, when all of it is there. Made for Debian 12; elsewhere it
# says what to install by hand. Overrides: IMGUI_DIR, SDL2_DIR, QRCODEGEN_DIR
# (source folders), EMSDK.
set -euo pipefail
cd "$(dirname "$0")/.."

say() { printf '%s\n' "$*" >&2; }
give_up() { say "setup: $*"; exit 1; }

has_node() { [ "$(node --version 2>/dev/null | sed 's/^v//;s/\..*//')" -ge 18 ] 2>/dev/null; }
has_own_emscripten() { [ -n "${EMSDK:-}" ] || { command -v em++ && ! dpkg-query -S "$(command -v em++)"; } >/dev/null 2>&1; }

packages() {
  echo cmake ninja-build g++ nlohmann-json3-dev libboost-dev libsqlite3-dev libcli11-dev libsodium-dev \
    libical-dev libabsl-dev libcsv-dev libzxing-dev tzdata \
    fonts-sil-andika fonttools esbuild xz-utils
  has_own_emscripten || echo emscripten
  has_node || echo nodejs
  [ "$1" = tests ] || return 0
  echo doctest-dev libglpk-dev librapidcheck-dev hunspell hunspell-en-us hunspell-es clang clang-format clang-tidy git \
    libclang-rt-dev libzbar-dev chromium firefox-esr webkit2gtk-driver xvfb xauth
  command -v npm >/dev/null || echo npm
}

# The packages of the list that are not installed.
missing() {
  dpkg-query -W -f='${Package} ${db:Status-Status}\n' "$@" 2>/dev/null |
    awk -v wanted="$*" '$2 == "installed" { have[$1] = 1 }
      END { n = split(wanted, w, " "); for (i = 1; i <= n; ++i) if (!have[w[i]]) print w[i] }'
}

install_packages() {
  local wanted as_root=() log=build/setup.log
  command -v apt-get >/dev/null || {
    command -v cmake >/dev/null && command -v em++ >/dev/null ||
      give_up "this is not Debian, so install the like of these by hand, then run again: $(packages "$1" | xargs)"
    return 0
  }
  mapfile -t wanted < <(missing $(packages "$1"))
  [ ${#wanted[@]} -gt 0 ] || return 0
  if [ "$(id -u)" -ne 0 ]; then
    as_root=(sudo)
    sudo -n true 2>/dev/null || [ -t 0 ] && command -v sudo >/dev/null ||
      give_up "run this as root once: apt-get install --no-install-recommends ${wanted[*]}"
  fi
  say "setup: installing ${#wanted[@]} Debian packages (one to three minutes): ${wanted[*]}"
  "${as_root[@]}" apt-get -qq update >"$log" 2>&1 &&
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq -y -o Dpkg::Use-Pty=0 -o DPkg::Lock::Timeout=300 install \
      --no-install-recommends "${wanted[@]}" >>"$log" 2>&1 || {
    tail -n 5 "$log" >&2
    give_up "apt-get could not install them. Is there a network? See $log, then run this again."
  }
}

# fetch_sources PACKAGE/SUITE... : the signed source packages, through an apt configuration of their
# own beside the machine's, with the machine's own mirror, so that the machine's lists stay as they are.
fetch_sources() {
  local apt=$PWD/build/sources/apt mirror release
  release=$(. /etc/os-release && echo "${VERSION_CODENAME:-}")
  mirror=$(apt-get indextargets --format '$(REPO_URI) $(RELEASE) $(CREATED_BY)' |
    awk -v r="$release" '$2 == r && $3 == "Packages" { print $1; exit }')
  [ -n "$mirror" ] || give_up "apt knows no Debian mirror. Set IMGUI_DIR, SDL2_DIR and QRCODEGEN_DIR to source folders."
  rm -rf "$apt"
  mkdir -p "$apt/lists/partial" "$apt/cache/archives/partial" "$apt/files"
  printf 'deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] %s %s main\n' \
    "$mirror" trixie "$mirror" sid >"$apt/sources.list"
  local options=(-qq -o "Dir::Etc::sourcelist=$apt/sources.list" -o Dir::Etc::sourceparts=/dev/null
    -o "Dir::State::lists=$apt/lists" -o "Dir::Cache=$apt/cache" -o APT::Sandbox::User=root)
  { apt-get "${options[@]}" update &&
    (cd "$apt/files" && apt-get "${options[@]}" --download-only --tar-only source "$@"); } >build/setup.log 2>&1 || {
    tail -n 5 build/setup.log >&2
    give_up "the sources could not be fetched. Is there a network? See build/setup.log, then run this again."
  }
}

# unpack PACKAGE FOLDER
unpack() {
  local fresh=build/sources/$2.fresh
  rm -rf "$fresh" "build/sources/$2"
  mkdir -p "$fresh"
  tar -xf build/sources/apt/files/"$1"_*.orig.tar.* -C "$fresh" --strip-components=1
  mv "$fresh" "build/sources/$2"
}

imgui_number() { sed -n 's/^#define IMGUI_VERSION_NUM *//p' "$1/imgui.h" 2>/dev/null; }

fetch_missing_sources() {
  local wanted=()
  [ -n "${IMGUI_DIR:-}" ] || [ -f build/sources/imgui/imgui.h ] || wanted+=(imgui/sid)
  [ -n "${SDL2_DIR:-}" ] || [ -f build/sources/sdl2/include/SDL.h ] || wanted+=(libsdl2/trixie)
  [ -n "${QRCODEGEN_DIR:-}" ] || [ -f build/sources/qrcodegen/c/qrcodegen.h ] || wanted+=(qr-code-generator/trixie)
  if [ ${#wanted[@]} -gt 0 ]; then
    say "setup: fetching the sources of ${wanted[*]} (a few seconds)"
    command -v apt-get >/dev/null || give_up "set IMGUI_DIR (1.92 or later), SDL2_DIR and QRCODEGEN_DIR to source folders."
    fetch_sources "${wanted[@]}"
    case " ${wanted[*]}" in *' imgui/'*) unpack imgui imgui ;; esac
    case " ${wanted[*]}" in *' libsdl2/'*) unpack libsdl2 sdl2 ;; esac
    case " ${wanted[*]}" in *' qr-code-generator/'*) unpack qr-code-generator qrcodegen ;; esac
    rm -rf build/sources/apt
  fi
  # 1.92 draws text sharply at any density; older ones cannot.
  [ "$(imgui_number "${IMGUI_DIR:-build/sources/imgui}")" -ge 19200 ] 2>/dev/null ||
    give_up "Dear ImGui in ${IMGUI_DIR:-build/sources/imgui} is not 1.92 or later. Set IMGUI_DIR to one that is."
}

case "${1:-demo}" in
  demo | tests) ;;
  *) say "Usage: bash wasm/setup.sh [demo|tests]"; exit 2 ;;
esac
mkdir -p build/sources
install_packages "${1:-demo}"
fetch_missing_sources
