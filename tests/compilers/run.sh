#!/bin/sh
# Does what the README tells to do, from nothing, on each Debian and with each compiler that Blankwright is for.
#   run.sh [PART...]     all parts, or those named
# Tries what is committed; a part that passed at this commit is not run again. Roots, packages, logs and what passed
# stand in the folder BLANKWRIGHT_ROOTS, or in .build/compilers; of a part that failed its root as well.
# Needs root, mmdebstrap and the network. Ends with 1 when a part failed.
set -eu
cd "$(dirname "$0")/../.."
roots=${BLANKWRIGHT_ROOTS:-$PWD/.build/compilers}
[ $# -gt 0 ] || set -- bookworm-gcc bookworm-clang trixie-gcc trixie-clang

[ "$(id -u)" -eq 0 ] || { echo "Building in bare roots needs root." >&2; exit 3; }
command -v mmdebstrap >/dev/null || { echo "The Debian package mmdebstrap is missing." >&2; exit 3; }
mkdir -p "$roots"
touch "$roots/passed"
commit=$(git rev-parse HEAD)
[ -z "$(git status --porcelain)" ] || echo "What is not committed is not tried."

failed=0
for part; do
  if grep -qx "$commit $part" "$roots/passed"; then
    echo "$part: passed before, at this commit"
    continue
  fi
  began=$(date +%s)
  # In namespaces of its own, so that none of its mounts and processes stays behind, whatever ends it.
  unshare --mount --pid --fork --kill-child sh tests/compilers/part.sh "$part" "$roots" "$commit" >"$roots/$part.log" 2>&1 &
  running=$!
  trap 'kill -KILL "$running"; exit 130' INT TERM HUP
  wait "$running" && status=0 || status=$?
  trap - INT TERM HUP
  minutes=$((($(date +%s) - began + 30) / 60))
  if [ "$status" -eq 0 ]; then
    echo "$commit $part" >>"$roots/passed"
    rm -rf "${roots:?}/$part"
    echo "$part: passed, in $minutes min"
  else
    failed=1
    echo "$part: FAILED after $minutes min, see $roots/$part.log"
  fi
done
exit $failed
