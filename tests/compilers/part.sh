#!/bin/sh
# One part of run.sh, which gives it namespaces of its own: part.sh SUITE-COMPILER ROOTS COMMIT
set -eu
part=$1 roots=$2 commit=$3
suite=${part%-*} compiler=${part#*-}
root=$roots/$part

if [ ! -d "$roots/$suite" ]; then
  rm -rf "$roots/$suite.begun"
  mmdebstrap --variant=apt "$suite" "$roots/$suite.begun"
  mv "$roots/$suite.begun" "$roots/$suite"
fi
rm -rf "$root"
cp -a "$roots/$suite" "$root"
cp -L /etc/resolv.conf "$root/etc/resolv.conf"
git clone --quiet --no-checkout . "$root/src"
git -C "$root/src" checkout --quiet --detach "$commit"

mkdir -p "$roots/packages-$suite"
mount -t proc proc "$root/proc"
mount --bind /dev/pts "$root/dev/pts"
mount --bind "$roots/packages-$suite" "$root/var/cache/apt/archives"  # each is fetched once

case $compiler in
  gcc) work='sh sample-jobs/run.sh && sh tests/run.sh' ;;
  clang)
    # One without precompiled headers, which shows whether each file names those that it needs.
    [ "$suite" = bookworm ] && precompiled=OFF || precompiled=ON
    work="apt-get update -qq && apt-get install -y -qq --no-install-recommends clang >/dev/null &&
      sh tests/requirements.sh &&
      CC=clang CXX=clang++ cmake --preset release -DBLANKWRIGHT_PRECOMPILE=$precompiled && sh sample-jobs/run.sh" ;;
  *) echo "no such part: $part"; exit 2 ;;
esac
exec env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root DEBIAN_FRONTEND=noninteractive \
  chroot "$root" sh -uxc "cd /src && $work"
