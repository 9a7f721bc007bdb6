#!/bin/sh
# How long 12,000 tags take, and how much memory: Blankwright beside libharu used plainly and PDFKit.
#
#   sh tests/speed/run.sh BLANKWRIGHT BUILD_FOLDER
#
# Builds nothing: `cmake --build BUILD --target speed` does, and then calls this. In BUILD_FOLDER stand `measured`,
# `make_jobs`, where libharu is installed plain_libharu, and where npm was there to fetch them pdfkit_tags.mjs's modules.
# ORDERS (500) and REPETITIONS (3) may be set. The programs take turns, one at a time, pinned to one core; figures are
# medians. Ours reads, plans and issues IDs besides printing, and starts each time without a register.
# Nothing is removed before the end: ext4 passes over what was removed in the last minutes whenever it makes a file,
# one by one, which took a tenth of the time of ours. So let five minutes go by before the next call.
set -eu
[ $# -eq 2 ] || { sed -n '2,11s/^# \{0,1\}//p' "$0" >&2; exit 2; }

here=$(cd "$(dirname "$0")" && pwd)
blankwright=$1
build=$(cd "$2" && pwd)
fonts=$here/../../fonts
orders=${ORDERS:-500}
few=$(((orders + 4) / 5))
repetitions=${REPETITIONS:-3}
tags=24
export LC_ALL=C

work=$(mktemp -d "$build/speed.XXXXXX")
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

runs=0
# Names what the next run reads and writes: $jobs and $out, which are not there yet.
next_run() {
  runs=$((runs + 1))
  jobs=$work/$runs/jobs
  out=$work/$runs/out
  mkdir "$work/$runs"
}

# measure NAME CORES PROGRAM ARGUMENT…: runs it and adds a line "wall cpu peak_kB bytes bytes_a_document documents", of
# what it wrote to $out, to NAME's results.
measure() {
  name=$1 cores=$2
  shift 2
  taskset -c "$cores" "$build/measured" "$work/took" "$@" >"$work/said" 2>&1 || {
    status=$?
    tail -n 20 "$work/said" >&2
    echo "speed: $name failed with status $status" >&2
    exit 1
  }
  written=$(find "$out" -type f -exec cat {} + | wc -c)
  document=$(find "$out" -type f \( -name 'tags.pdf' -o -name 'S-*.pdf' \) -exec cat {} + | wc -c)
  count=$(find "$out" -type f \( -name 'tags.pdf' -o -name 'S-*.pdf' \) | wc -l)
  [ "$count" -gt 0 ] || { echo "speed: $name wrote no tags" >&2; exit 1; }
  echo "$(cat "$work/took") $written $((document / count)) $count" >>"$work/$name.results"
}

# ours NAME CORES ORDERS
ours() {
  name=$1 cores=$2 many=$3
  next_run
  "$build/make_jobs" "$many" "$jobs"
  set -- "$jobs"/S-*.toml
  case $cores in *,*) threads=2 ;; *) threads=1 ;; esac
  measure "$name" "$cores" "$blankwright" compile --only tags --threads "$threads" --at 2027-05-03T08:00:00Z \
    --shop "$jobs/shop.toml" --out "$out" "$@"
}

# median NAME COLUMN
median() {
  cut -d ' ' -f "$2" "$work/$1.results" | sort -n |
    awk '{ v[NR] = $1 } END { printf "%.3f", (v[int((NR + 1) / 2)] + v[int(NR / 2) + 1]) / 2 }'
}

# row NAME TITLE
row() {
  [ -f "$work/$1.results" ] || return 0
  echo "$(median "$1" 1) $(median "$1" 2) $(median "$1" 3) $(median "$1" 4) $(median "$1" 5) $(median "$1" 6)" |
    awk -v title="$2" -v wall="$(median ours 1)" -v cpu="$(median ours 2)" '
      { printf "%-28s %5d %8.2f %8.2f %8.1f %8.1f %8.1f %7.2f %7.2f\n",
               title, $6, $1, $2, $3 / 1024, $4 / 1e6, $5 / 1e3, $1 / wall, $2 / cpu }'
}

[ -x "$build/plain_libharu" ] || echo "speed: without libharu's libhpdf-dev it is left out" >&2
pdfkit=
if command -v node >/dev/null && [ -d "$build/node_modules/pdfkit" ]; then
  pdfkit=$build/pdfkit_tags.mjs
else
  echo "speed: without node and $build/node_modules PDFKit is left out" >&2
fi

n=0
while [ "$n" -lt "$repetitions" ]; do
  n=$((n + 1))
  echo "speed: repetition $n of $repetitions" >&2
  ours ours 0 "$orders"
  next_run
  if [ -x "$build/plain_libharu" ]; then measure libharu 0 "$build/plain_libharu" "$orders" $tags "$out" "$fonts"; fi
  next_run
  if [ -n "$pdfkit" ]; then measure pdfkit 0 node "$pdfkit" "$orders" $tags "$out" "$fonts"; fi
  if [ "$(nproc)" -ge 2 ]; then ours ours_two 0,1 "$orders"; fi
  ours ours_few 0 "$few"
done

echo "$orders orders of $tags tags, a document each; medians of $repetitions"
printf '%-28s %5s %8s %8s %8s %8s %8s %7s %7s\n' program docs 'wall s' 'CPU s' 'peak MB' 'MB' 'kB/doc' 'wall' 'CPU'
row ours 'blankwright, one core'
row libharu 'libharu used plainly'
row pdfkit 'PDFKit'
row ours_two 'blankwright, two cores'
row ours_few "blankwright, $few orders"
echo 'peak MB: largest resident size. MB: all that was written. kB/doc: of the tags alone. wall, CPU: times ours on one core.'
awk -v many="$(median ours 3)" -v few="$(median ours_few 3)" -v n="$orders" -v m="$few" 'BEGIN {
  printf "memory of blankwright, %d orders to %d: %.3f times\n", n, m, many / few }'
[ ! -f "$work/ours_two.results" ] || awk -v one="$(median ours 1)" -v two="$(median ours_two 1)" 'BEGIN {
  printf "two cores: %.2f times as fast as one\n", one / two }'
