#!/bin/sh
# Installs what building needs (and, with "tests", what the tests need) where it is missing; on Debian 12 and 13
# the packages have the same names.
# Without root it says plainly what is missing and ends with 3.
set -eu

build_packages="g++ cmake ninja-build pkg-config libharfbuzz-dev libqrcodegencpp-dev libtomlplusplus-dev libfmt-dev \
libcli11-dev nlohmann-json3-dev libboost-dev libhowardhinnant-date-dev libsqlite3-dev libpq-dev libcairo2-dev libfreetype-dev libutf8proc-dev \
libexpected-dev libmd4c-dev zlib1g-dev tzdata dpkg-dev file"
test_packages="doctest-dev libzxing-dev libzbar-dev libical-dev qpdf poppler-utils mupdf-tools chromium python3-jsonschema faketime man-db zsh \
postgresql openssl"

wanted=$build_packages
[ "${1:-}" = tests ] && wanted="$wanted $test_packages"

missing=""
for package in $wanted; do
  state=$(dpkg-query -W -f '${db:Status-Abbrev}' "$package" 2>/dev/null || true)
  case $state in
    ii*) ;;
    *) missing="$missing $package" ;;
  esac
done
[ -z "$missing" ] && exit 0

if [ "$(id -u)" -ne 0 ]; then
  echo "These Debian packages are missing:$missing" >&2
  echo "Install them as root, then run this again:" >&2
  echo "  apt-get install$missing" >&2
  exit 3
fi
echo "Installing:$missing"
export DEBIAN_FRONTEND=noninteractive
# The tests start a server of their own; none is to run on this machine because of them.
postgresql=/etc/postgresql-common/createcluster.conf
case $missing in
  *" postgresql"*)
    if [ ! -e $postgresql ]; then
      mkdir -p "$(dirname $postgresql)"
      echo "create_main_cluster = false" >$postgresql
    fi
    ;;
esac
apt-get update -qq
# shellcheck disable=SC2086  # a list of words on purpose
apt-get install -y -qq --no-install-recommends $missing >/dev/null
