#!/bin/sh
# Installs what is missing, builds, passes the tests.
set -eu
cd "$(dirname "$0")/.."
sh tests/requirements.sh tests
cmake --preset test >/dev/null
cmake --build --preset test --parallel "$(nproc)"
exec ctest --test-dir .build/test --output-on-failure --no-tests=error --parallel "$(nproc)"
