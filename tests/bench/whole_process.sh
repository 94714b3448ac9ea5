#!/usr/bin/env bash
# A cold `skeinfall cover` of a 12-yarn project against `sqlite3` reading the same rows, best of 20,
# and the peak memory of both stash sizes. Usage: tests/bench/whole_process.sh PROGRAM
set -euo pipefail
program=$(realpath "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

python3 - <<'PYTHON'
import random
random.seed(20260201)
for count in (2000, 100000):
    yarns = count // 25
    length = [50 + 5 * random.randrange(70) for _ in range(yarns)]
    with open(f"stash{count}.csv", "w") as out:
        out.write("id,yarn,colourway,dye_lot,fibre,label_length,label_mass,state,weighed,scale\n")
        for i in range(count):
            y, c = random.randrange(yarns), random.randrange(3)
            part = random.randrange(4) == 0
            weighed = f"{random.randrange(5, 95)} g,1 g" if part else ","
            out.write(f"s{i},Yarn {y},colour {c},{random.randrange(4)},100% wool,"
                      f"{length[y]} m,100 g,{'part' if part else 'whole'},{weighed}\n")
    with open(f"make{count}.toml", "w") as out:
        out.write('title = "Twelve colours"\ncraft = "crochet"\n\n[gauge]\n'
                  'stitches = "14 per 10 cm"\nrows = "10 per 10 cm"\nstitch = "sc"\n')
        for r in range(12):
            y = random.randrange(yarns)
            out.write(f'\n[yarn.C{r}]\nname = "Yarn {y}"\ncolour = "colour {random.randrange(3)}"\n'
                      f'total = "{random.randrange(80, 700)} m"\n')
PYTHON

best() {  # milliseconds, best of 20
  local least=999999999 begin end code
  for _ in $(seq 20); do
    begin=$(date +%s%N)
    "$@" > /dev/null && code=0 || code=$?
    if [ "$code" -gt 1 ]; then exit "$code"; fi  # 1: the yarn does not suffice
    end=$(date +%s%N)
    if [ $((end - begin)) -lt "$least" ]; then least=$((end - begin)); fi
  done
  echo "$((least / 1000)) us"
}

rows='SELECT * FROM holding JOIN yarn ON yarn.number = holding.yarn'
for count in 2000 100000; do
  "$program" stash import "stash$count.csv" --stash "$count.skeinfall" > /dev/null 2>&1
  echo "$count skeins"
  echo "  skeinfall cover  $(best "$program" cover "make$count.toml" --stash "$count.skeinfall")"
  echo "  sqlite3          $(best sqlite3 "$count.skeinfall" "$rows")"
  python3 - "$program" "make$count.toml" "$count.skeinfall" <<'PYTHON'
import resource, subprocess, sys
subprocess.run([sys.argv[1], "cover", sys.argv[2], "--stash", sys.argv[3]], stdout=subprocess.DEVNULL)
print("  peak memory     ", resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024, "MB")
PYTHON
done
