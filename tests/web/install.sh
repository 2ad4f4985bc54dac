#!/usr/bin/env bash
# The npm packages of the browser tests, as package-lock.json names them; nothing where they are there.
set -euo pipefail
cd "$(dirname "$0")"
[ node_modules/.package-lock.json -nt package-lock.json ] || npm ci --no-progress --loglevel=error
