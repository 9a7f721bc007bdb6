#!/bin/sh
# Shows that the simulated shop finds what it is there for: each mending of `undone/` is taken out, one at a time, the program
# is built in a tree of its own, and the shop has to report what the patch's first line says.
#   undone.sh SOURCE BUILD SHOP_YEAR
set -eu
source=$1 build=$2 shop_year=$3
mkdir -p "$build"
rm -rf "$build/tree"
mkdir "$build/tree"
cp -r "$source/CMakeLists.txt" "$source/CMakePresets.json" "$source/src" "$source/templates" "$source/fonts" "$build/tree/"
cmake -S "$build/tree" -B "$build/program" -G Ninja -DCMAKE_BUILD_TYPE=None -DCMAKE_CXX_FLAGS=-O0 -DBLANKWRIGHT_TOGETHER=ON -DBLANKWRIGHT_TESTS=OFF >/dev/null
missed=0
# miss WHY: of the patch that is looked at; the others are tried all the same.
miss() {
  echo "MISSED: $name: $1"
  missed=1
}
for patch in "$source"/tests/year/undone/*.patch; do
  name=$(basename "$patch" .patch)
  expected=$(sed -n 's/^expect: //p' "$patch")
  seed=$(sed -n 's/^seed: //p' "$patch")
  if ! patch --quiet --directory "$build/tree" --strip 1 <"$patch"; then
    miss "does not apply any more"
    continue
  fi
  built=yes
  cmake --build "$build/program" --target blankwright >"$build/$name.build" 2>&1 || built=no
  [ $built = no ] || "$shop_year" "$build/program/src/blankwright" "$build/$name" month "$seed" >"$build/$name.report" || true
  patch --quiet --reverse --directory "$build/tree" --strip 1 <"$patch"
  if [ $built = no ]; then
    miss "does not build any more, see $build/$name.build"
  elif grep "^WRONG, seed" "$build/$name.report" | grep -qF "$expected"; then
    echo "found:  $name: $(grep "^WRONG, seed" "$build/$name.report" | grep -F "$expected" | head -1 | cut -c1-150)"
  else
    miss "wanted in $build/$name.report: $expected"
  fi
done
exit $missed
