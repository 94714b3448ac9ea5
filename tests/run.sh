#!/usr/bin/env bash
# Installs packages, builds with warnings as errors, runs every test. Safe to run again.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source tests/packages.sh

echo "== Packages"
install_packages "${build_packages[@]}" "${test_packages[@]}"
echo "== Build (build-test)"
cmake -S . -B build-test -G Ninja -DCMAKE_BUILD_TYPE=Debug -DSKEINFALL_WERROR=ON
cmake --build build-test
echo "== Tests"
ctest --test-dir build-test --output-on-failure --parallel "$(nproc)"
