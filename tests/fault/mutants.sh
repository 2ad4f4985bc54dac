#!/usr/bin/env bash
# Breaks the collector and the sender on purpose, one fault at a time, in a copy of the sources
# (build/mutants), and shows which fault tests notice. Status 1 if one goes unnoticed.
#
#   bash tests/fault/mutants.sh [PATTERN]   only those whose name matches
set -uo pipefail
cd "$(dirname "$0")/../.." || exit 2
case "${1:-}" in --help | -*) sed -n '2,/^set/s/^# \{0,1\}//p' "$0"; exit 2 ;; esac
pattern=${1:-.} imgui=${IMGUI_DIR:-$PWD/build/sources/imgui}
tree=build/mutants/tree build=build/mutants/build
unnoticed=0

mkdir -p "$tree"
# Only what differs, and as new, so that a mutant of a run cut short is built away.
git ls-files -z src tests CMakeLists.txt | while IFS= read -rd '' file; do
  cmp -s "$file" "$tree/$file" || install -D -m 644 "$file" "$tree/$file" || exit
done || exit 2
cmake -S "$tree" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-O0 \
  -DIMGUI_DIR="$imgui" >/dev/null || exit 2
build_and_run() { ninja -C "$build" --quiet fault_tests && timeout 300 "$build/tests/fault_tests" --no-colors; }
echo "as it is"
build_and_run >build/mutants/log 2>&1 || { tail -n 30 build/mutants/log; exit 2; }

# mutant NAME FILE SED...
mutant() {
  local name=$1 file=$tree/$2
  [[ $name =~ $pattern ]] || return 0
  printf '\n%s\n' "$name"
  cp "$file" build/mutants/kept
  sed -i "${@:3}" "$file"
  if cmp -s "$file" build/mutants/kept; then
    echo "  the source has changed: mend the sed of this mutant"
    unnoticed=$((unnoticed + 1))
  elif ! ninja -C "$build" --quiet fault_tests >build/mutants/log 2>&1; then
    echo "  does not compile: mend the sed of this mutant"
    unnoticed=$((unnoticed + 1))
  elif timeout 300 "$build/tests/fault_tests" --no-colors >build/mutants/log 2>&1; then
    echo "  UNNOTICED"
    unnoticed=$((unnoticed + 1))
  else
    # doctest names a test case above its first failure.
    grep -h '^TEST CASE:' build/mutants/log | sort -u | sed 's/^TEST CASE: */  red: /' | grep . ||
      echo "  the program hung or died"
  fi
  cp build/mutants/kept "$file"
}

writer=src/collector/writer.cpp database=src/collector/database.cpp outbox=src/core/outbox.cpp
mutant 'acknowledged before the commit' $writer \
  -e '/^  for (.*batch\[i\]\.done/d' \
  -e '/^    transaction\.commit();/i for (std::size_t i = 0; i < batch.size(); ++i) batch[i].done(outcomes[i]);'
mutant 'a failed commit taken for a good one' $writer -e '/outcomes\.assign(/d'
mutant 'the same report taken in again' $writer \
  -e 's/^      if (rows\.next()) {$/      if (rows.next() \&\& report.revision < 0) {/' \
  -e 's/"INSERT INTO reports/"INSERT OR REPLACE INTO reports/'
mutant 'the last to come on top, not the newest' $writer -e 's/reports == 0 || report\.revision >= newest/newest >= 0/'
mutant 'told of a full disk for each report' $writer -e '/if (trouble == trouble_) return;/d'
mutant 'no flush at a commit' $database -e 's/synchronous = FULL/synchronous = OFF/'
mutant 'a flush at checkpoints only' $database -e 's/synchronous = FULL/synchronous = NORMAL/'
mutant 'a start on a disk that can only be read' $database -e 's/if (sqlite3_db_readonly(.*$/if (file.empty())/'
mutant 'no check at the start' src/collector/main.cpp -e 's/if (!check_structure(.*$/if (file.empty())/'
mutant 'the readers close last' src/collector/main.cpp \
  -e '/^  Archive archive(/d' -e '/^  Writer writer(/i Archive archive(file, kThreads);'
mutant 'a backup of reports that have changed' src/collector/database_check.cpp -e 's/if (hex(sha256(rows.*$/if (content.reports < 0)/'
mutant 'a backup over an older file' src/collector/backup.cpp -e '/throw taken(to);/d' -e 's/RENAME_NOREPLACE/0/'
mutant 'a changed report shown' src/collector/archive.cpp -e 's/if (hex(sha256(report.body)) != report.digest)/if (report.body.empty())/'
mutant 'received without a look at the digest' $outbox -e 's/ && digest == result\.sent_digest/ \&\& !digest.empty()/'
mutant 'refused by a stranger' $outbox -e '/starts_with(kProblem)) return/d'
mutant 'back before Retry-After' $outbox -e '/entry\.asked_until = now/d'
mutant 'the outbox forgotten when the app is opened again' src/app/sender.cpp -e 's/outbox_\.apply(\*document);/static_cast<void>(document);/'
mutant 'given up after three tries' $outbox -e 's/not_before = now + backoff(/not_before = entry.attempts > 3 ? INT64_MAX : now + backoff(/'

printf '\n%d unnoticed\n' "$unnoticed"
[ "$unnoticed" -eq 0 ]
