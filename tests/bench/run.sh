#!/usr/bin/env bash
# Builds release with the benchmarks and prints one table: each benchmark, beside its peer where it
# has one, with their ratio, peak memory and growth with size. Run it on a machine that rests:
#   bash tests/bench/run.sh [BUILD] [--keep]      BUILD is build-release; --keep writes RESULTS.md
#   ONLY=joins bash tests/bench/run.sh            only programs and scripts of that name
#   bash tests/bench/run.sh --against OLD         OLD is another build's skeinfall: instructions of
#                                                 both, and what changed by more than 5 %
#
# What takes part: every *_bench of this folder and every *.py but the helpers that table.py names.
# They agree on one form. A script gets the program's path and prints lines of eight or nine fields
# parted by tabs:
#   result  JOB  SIZE  SECONDS  MEGABYTES  PEER  SECONDS  MEGABYTES  GOALS
# with "-" for what is not known; rows of one JOB and several sizes give the growth. GOALS are such as
# "ratio 3; power 1.1; kB 1; seconds 2": at most so many times the peer, such a growth, so many kB for
# each of SIZE beyond the smallest, such a time. What falls short is listed below the table. Other
# lines are for people. A *_bench program lists its cases to Google Benchmark, where a number behind the
# name is the size, and with the only argument --peers prints result lines instead.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source tests/packages.sh
install_packages "${build_packages[@]}" "${bench_packages[@]}"

build=build-release
keep=
against=
while [ $# -gt 0 ]; do
  case $1 in
    --keep) keep=tests/bench/RESULTS.md ;;
    --against) against=$2; shift ;;
    *) build=$1 ;;
  esac
  shift
done
cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DSKEINFALL_BENCHMARKS=ON \
  -DSKEINFALL_TESTS=OFF > /dev/null
cmake --build "$build"
if [ -n "$against" ]; then
  exec python3 tests/bench/counts.py "$build/cli/skeinfall" --against "$against"
fi
python3 tests/bench/table.py "$build" ${keep:+"$keep"}
