#!/usr/bin/env bash
# Builds the packages twice, in folders of different depth, and compares them byte by byte. It takes
# two whole builds, so it is for releases; the other tests look for paths in what is shipped.
# Prints the packages' sums. Ends with 1 when a byte differs.
set -euo pipefail
source=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
for place in one two/deeper; do
  mkdir -p "$work/$place"
  git -C "$source" archive HEAD | tar -x -C "$work/$place"
  (
    cd "$work/$place"
    cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DSKEINFALL_TESTS=OFF
    cmake --build build
    cpack --config build/CPackConfig.cmake -B packages
  ) >"$work/log" 2>&1 || { tail -n 40 "$work/log" >&2; exit 1; }
done
cd "$work/one/packages"
sha256sum -- *.deb
for package in *.deb; do
  cmp "$package" "$work/two/deeper/packages/$package"
done
echo "the same bytes twice"
