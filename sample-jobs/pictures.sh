#!/bin/sh
# Draws sample-jobs/pictures anew: what the samples print, and their registers a few hours into the work. Runs by the
# target `sample_pictures` alone, with the program that it was built with; needs pdftoppm, chromium and faketime.
set -eu
program=$1
samples=$(cd "$(dirname "$0")" && pwd)
pictures=$samples/pictures
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp -r "$samples/metric" "$samples/inch" "$samples/german" "$work"
mkdir -p "$pictures"
cd "$work"

# at TIME COMMAND...: runs the program as if it were that time of the samples' first day
at() {
  time=$1
  shift
  faketime "2027-05-03 $time" "$program" "$@" >>said 2>&1 || { cat said && exit 1; }
}

# picture PDF NAME: its first page
picture() {
  pdftoppm -r 64 -gray -png -singlefile "$1" "$pictures/$2"
}

# sample ZONE SHOP ORDER BOARD JOBS...: prints, then enters that all blanks are sawn and drying, and the moisture of all but one
sample() {
  export TZ="$1"
  shop=$2 order=$3 board=$4
  shift 4
  at 08:00 compile --quiet --week --out "out/$shop" "$@"
  at 08:00 compile --quiet --pages turner --out "out/$shop" "$1"
  blanks=$(sed -n '2,$s/,.*//p' "out/$shop/$order/blanks.csv" | tr '\n' ' ')
  blanks=${blanks% }
  # shellcheck disable=SC2086  # several IDs on purpose
  {
    at 09:00 enter --shop "$shop/shop.toml" --quiet sawn $blanks "board=$board"
    at 09:30 enter --shop "$shop/shop.toml" --quiet moisture ${blanks% *} "moisture=11 %"
    at 09:50 enter --shop "$shop/shop.toml" --quiet into-drying $blanks load=D1
  }
  at 13:30 today --shop "$shop/shop.toml" --out today.pdf
  at 13:30 page --shop "$shop/shop.toml" --out register.html
  picture "out/$shop/$order/tags.pdf" "$shop-tags"
  picture "out/$shop/$order/traveller-turner.pdf" "$shop-turner"
  picture "out/$shop/week.pdf" "$shop-week"
  picture today.pdf "$shop-today"
  chromium --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --hide-scrollbars --user-data-dir="$work/browser" \
    --window-size=900,700 --screenshot="$pictures/$shop-register.png" "file://$work/register.html" >>said 2>&1
}

sample Europe/Vienna metric TA-0147 T4 metric/burnisher.toml
sample America/Detroit inch CC-2026.1 W1 inch/file-handle.toml inch/knob.toml
sample Europe/Vienna german HG-58 B1 german/awl.toml
