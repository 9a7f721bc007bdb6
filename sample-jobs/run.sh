#!/bin/sh
# Installs what is missing, builds a release, compiles the sample jobs into sheets and says where they are.
set -eu
cd "$(dirname "$0")/.."
sh tests/requirements.sh
cmake --preset release >/dev/null
cmake --build --preset release --parallel "$(nproc)"

program=.build/release/src/blankwright
out=sample-jobs/out
# Planned from a fixed day, so that the samples come out the same whenever they are compiled.
$program compile --week --at 2027-05-03T08:00:00+02:00 --out "$out/metric" sample-jobs/metric/burnisher.toml
$program compile --week --at 2027-05-03T08:00:00+02:00 --out "$out/german" sample-jobs/german/awl.toml
$program compile --week --at 2027-05-03T08:00:00-05:00 --out "$out/inch" sample-jobs/inch/file-handle.toml sample-jobs/inch/knob.toml
for shop in metric inch german; do
  $program codes --shop "sample-jobs/$shop/shop.toml" --out "$out/$shop/codes.pdf"
  $program page --shop "sample-jobs/$shop/shop.toml" --out "$out/$shop/register.html"
done

echo
echo "And what a job full of mistakes is answered with:"
$program check sample-jobs/mistakes/job.toml && status=0 || status=$?
[ "$status" -eq 1 ]

echo
echo "The sheets are here:"
find "$out" -name '*.pdf' -o -name '*.html' | sort | sed 's/^/  /'
