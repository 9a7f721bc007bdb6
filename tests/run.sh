#!/bin/sh
# Installs what is missing, builds, passes the tests; says how many cases there were.
set -eu
cd "$(dirname "$0")/.."
sh tests/requirements.sh tests
cmake --preset test >/dev/null
cmake --build --preset test --parallel "$(nproc)"
status=0
ctest --test-dir .build/test --output-on-failure --no-tests=error --parallel "$(nproc)" || status=$?
awk '/^\[doctest\] test cases:/ { cases += $4; failed += $9 } END { print cases " cases, " failed " failed" }' \
  .build/test/Testing/Temporary/LastTest.log
exit "$status"
