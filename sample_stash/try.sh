#!/usr/bin/env bash
# Installs packages, builds skeinfall, loads the sample stash into a fresh stash file and runs the
# main job on it. Safe to run again.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source tests/packages.sh

echo "== Packages"
install_packages "${build_packages[@]}"
echo "== Build (build-release)"
cmake -S . -B build-release -G Ninja -DCMAKE_BUILD_TYPE=Release -DSKEINFALL_TESTS=OFF \
  -DCMAKE_UNITY_BUILD=ON
cmake --build build-release

stash_folder=$(mktemp -d)
trap 'rm -rf "$stash_folder"' EXIT
export SKEINFALL_STASH="$stash_folder/sample.skeinfall"
skeinfall=build-release/cli/skeinfall
pages=build-release/pages # what there is to look at afterwards
mkdir -p "$pages"

# Shows a command, runs it, and fails unless it ends with the exit code it should have.
try() {
  local wanted=$1 code=0
  shift
  printf '\n$ skeinfall'
  printf ' %s' "$@"
  printf '\n'
  "$skeinfall" "$@" || code=$?
  if [ "$code" -ne "$wanted" ]; then
    echo "try.sh: that ended with exit code $code, not $wanted" >&2
    exit 1
  fi
}

echo "== The main job (exit code 1 means: not covered, or the yarn does not last)"
try 0 stash import sample_stash/stash.csv
try 0 stash show mc-01
try 0 need sample_stash/projects/lantern-cowl.toml
try 0 cover sample_stash/projects/lantern-cowl.toml
try 0 joins sample_stash/projects/lantern-cowl.toml --picture "$pages/cowl.svg"
try 0 progress sample_stash/projects/tern-shawl.toml --reading "row 0: 99.1 g" --reading "row 40: 91.4 g" --row 60 --mass "81.9 g" --scale "0.1 g"
try 0 materials sample_stash/projects/lantern-cowl.toml
try 0 report sample_stash/projects/lantern-cowl.toml --html "$pages/cowl.html" --pdf "$pages/cowl.pdf"
try 1 cover sample_stash/projects/long-ferry-wrap.toml
try 1 joins sample_stash/projects/long-ferry-wrap.toml
try 1 cover sample_stash/projects/threepenny-blanket.toml
try 0 materials sample_stash/projects/wharfside-pullover.toml
try 0 cover --need "380 yd" --class 4
echo
echo "To look at: $pages/cowl.html, cowl.pdf and cowl.svg."
echo "Done. The program is $skeinfall; README.md goes on from here."
