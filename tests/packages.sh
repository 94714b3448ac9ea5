#!/usr/bin/env bash
# Installs the Debian 12 packages skeinfall is built and tested with. Sourced by tests/run.sh and
# sample_stash/try.sh; does nothing when all are there.

build_packages=(
  g++ cmake ninja-build pkg-config
  libboost-dev libboost-program-options-dev libsqlite3-dev libsqlitecpp-dev
  libfmt-dev nlohmann-json3-dev libtomlplusplus-dev libutfcpp-dev libcsv-dev libunistring-dev libedit-dev
  libcairo2-dev libpango1.0-dev libqpdf-dev libkainjow-mustache-dev fonts-dejavu-core libeigen3-dev
)
test_packages=(
  libgtest-dev libgmock-dev librapidcheck-dev units sqlite3 python3 python3-jsonschema python3-numpy coinor-cbc glpk-utils
  poppler-utils qpdf librsvg2-bin tidy cmark chromium nodejs
  zsh fish mandoc doxygen dpkg-dev file patchelf aspell aspell-en mold
)
bench_packages=(libbenchmark-dev valgrind units sqlite3 python3 coinor-cbc glpk-utils time)
# Some builds of node bring their own npm, beside which Debian's cannot be installed.
command -v npm >/dev/null || test_packages+=(npm)

install_packages() {
  local missing=() package
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' ||
      missing+=("$package")
  done
  if [ ${#missing[@]} -eq 0 ]; then
    echo "All packages are installed."
    return 0
  fi
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "Run this as root, or install sudo." >&2; return 1; }
    as_root=(sudo)
  fi
  echo "Installing: ${missing[*]}"
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -q
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -q --no-install-recommends "${missing[@]}"
}
