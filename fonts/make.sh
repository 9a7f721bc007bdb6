#!/bin/sh
# Remakes BlankwrightSans-Regular.ttf and -Bold.ttf from Debian's Liberation Sans, characters.txt and shapes.py.
# Needs Debian's packages fonts-liberation2 and fonttools. The same packages give the same bytes.
# Usage: sh fonts/make.sh [folder to write into; by default the folder of this script]
set -eu
here=$(cd "$(dirname "$0")" && pwd)
into=${1:-$here}
from=/usr/share/fonts/truetype/liberation2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

for face in Regular Bold; do
  # A character of the list that the font lacks is an error. Name 7 (the trade mark) and the makers' addresses go;
  # copyright (0), licence (13) and its address (14) stay.
  /usr/bin/pyftsubset "$from/LiberationSans-$face.ttf" \
    --unicodes-file="$here/characters.txt" --no-ignore-missing-unicodes \
    --no-hinting --layout-features= --drop-tables+=GSUB,GPOS,GDEF,FFTM,gasp \
    --notdef-outline --no-glyph-names --no-recalc-timestamp \
    --name-IDs=0,1,2,3,4,5,6,13,14 --name-languages=0x409 --no-name-legacy \
    --output-file="$work/$face.ttf"
  /usr/bin/python3 "$here/shapes.py" "$work/$face.ttf" "$face" "$work/$face-shaped.ttf"
  /usr/bin/python3 "$here/rename.py" "$work/$face-shaped.ttf" "$face" "$work/BlankwrightSans-$face.ttf"
done
mv "$work/BlankwrightSans-Regular.ttf" "$work/BlankwrightSans-Bold.ttf" "$into/"
