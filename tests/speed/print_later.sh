#!/bin/sh
# A thousand orders that Ninja prints, with one job and with two: the same bytes as a compile prints at once, and a
# second call prints nothing.
#
#   sh tests/speed/print_later.sh BLANKWRIGHT BUILD_FOLDER
#
# Builds nothing: `cmake --build BUILD --target thousand_printed` does, and then calls this. In BUILD_FOLDER stands
# `make_jobs`. ORDERS (1000) may be set, and PICTURES, the dots an inch of pictures of all pages (none).
set -eu
[ $# -eq 2 ] || { sed -n '2,9s/^# \{0,1\}//p' "$0" >&2; exit 2; }

blankwright=$1
build=$(cd "$2" && pwd)
orders=${ORDERS:-1000}
export LC_ALL=C

work=$(mktemp -d "$build/printed.XXXXXX")
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

# timed TITLE COMMAND…: runs it, what it says into $work/said, and tells how long it took.
timed() {
  title=$1
  shift
  begin=$(date +%s.%N)
  "$@" >"$work/said" 2>&1 || { tail -n 20 "$work/said" >&2; echo "thousand_printed: $title failed" >&2; exit 1; }
  echo "$begin $(date +%s.%N)" | awk -v title="$title" '{ printf "%-40s %8.1f s\n", title, $2 - $1 }'
}

# compiled FOLDER FLAG…: makes the same jobs there, and compiles them into FOLDER/sheets. The shop names the first ID,
# which is drawn by chance otherwise.
compiled() {
  folder=$1
  shift
  "$build/make_jobs" "$orders" "$folder"
  printf '[register]\nseries = "K7T-4X54"\n' >>"$folder/shop.toml"
  "$blankwright" compile --at 2027-05-03T08:00:00Z ${PICTURES:+--pictures "$PICTURES"} "$@" \
    --shop "$folder/shop.toml" --out "$folder/sheets" "$folder"/S-*.toml
}

timed "$orders orders, printed at once" compiled "$work/at-once"
for jobs in 1 2; do
  timed "laid out for Ninja" compiled "$work/later-$jobs" --print-later
  timed "printed by Ninja, jobs: $jobs" ninja -j "$jobs" -C "$work/later-$jobs/sheets" -f print.ninja
  timed "once more" ninja -j "$jobs" -C "$work/later-$jobs/sheets" -f print.ninja
  grep -q 'no work to do' "$work/said" || { echo "thousand_printed: it was printed twice" >&2; exit 1; }
  diff -r --exclude='*.ninja' --exclude='*.pages' --exclude=.ninja_log --exclude=.ninja_deps \
    "$work/at-once/sheets" "$work/later-$jobs/sheets" || { echo "thousand_printed: not the same bytes" >&2; exit 1; }
done
count=$(find "$work/later-2/sheets" -name '*.pdf' | wc -l)
[ "$count" -eq $((2 * orders)) ] || { echo "thousand_printed: $count documents" >&2; exit 1; }
echo "$count documents, the same bytes each time"
