"""Compares the need of random pieces with sums made here, in exact fractions and row by row.

Usage: need.py PROGRAM [--seed N] [--cases N] [--fault]
Pieces are written as row counts, as tables of kinds, and as rows in notation whose stitches this
script makes itself and counts as it writes them. Their yarn is stitches times a stated rate, kinds
weighed as lib/data/stitches.csv says. With --fault every sum here is one stitch too large, and all
of it has to be noticed. Prints the seed; exit code 1 tells of a difference.
"""

import argparse
import csv
import json
import pathlib
import random
import subprocess
import sys
import tempfile
from fractions import Fraction

TABLE = pathlib.Path(__file__).resolve().parents[2] / "lib/data/stitches.csv"
with TABLE.open() as file:
    WEIGHT = {row["us"]: Fraction(row["relative_yarn"]) for row in csv.DictReader(file)}
NO_EDGES = "foundation_rows = 0\nbind_off_rows = 0\n"


def counted(pick):
    """A piece by its counts: growing by `increase` every few rows."""
    first, rows = pick.randint(3, 300), pick.randint(1, 200)
    increase, every = pick.randint(0, 6), pick.randint(1, 5)
    text = f"stitches = {first}\nrows = {rows}\nincrease = {increase}\nevery = {every}\n"
    return text, sum(first + increase * (row // every) for row in range(rows)) * WEIGHT["sc"]


def table(pick):
    """A piece as a table of kinds, each growing in its own way."""
    rows = pick.randint(1, 60)
    kinds = pick.sample(["sc", "hdc", "dc", "tr", "fpdc", "sl st", "ch"], pick.randint(1, 4))
    counts = {kind: pick.randint(1, 90) for kind in kinds}
    more = {kind: pick.randint(0, 3) for kind in kinds}
    inline = [", ".join(f'"{kind}" = {count}' for kind, count in part.items())
              for part in (counts, more)]
    text = (f"rows = [{{ rows = {rows}, stitches = {{ {inline[0]} }}, "
            f"increase = {{ {inline[1]} }} }}]\n")
    return text, sum((counts[kind] + row * more[kind]) * WEIGHT[kind]
                     for kind in kinds for row in range(rows))


def notation(pick):
    """A piece in notation: each row is made of what fits the row below."""
    below = pick.randint(8, 120)
    lines = [f"Ch {below + 1}.",
             f"Row 1: sc in 2nd ch from hook and in each ch across. ({below} sc)"]
    yarn = below * WEIGHT["sc"]
    for number in range(2, pick.randint(2, 30)):
        yarn += WEIGHT["ch"]
        done, made, parts = 0, 0, []
        while below - done > 8:
            left = below - done - 4
            kind = pick.choice(["sc", "hdc", "dc", "tr"])
            times = pick.randint(1, left // 3)
            what = pick.randrange(4)
            if what == 0:
                parts.append(f"{kind} in next {times} sts")
                done, made, yarn = done + times, made + times, yarn + times * WEIGHT[kind]
            elif what == 1:
                parts.append(f"[2 {kind} in next st, sc in next 2 sts] {times} times")
                done, made = done + 3 * times, made + 4 * times
                yarn += times * (2 * WEIGHT[kind] + 2 * WEIGHT["sc"])
            elif what == 2:
                parts.append(f"*{kind} in next st, sc2tog; rep from * {times} times in all")
                done, made = done + 3 * times, made + 2 * times
                yarn += times * (WEIGHT[kind] + WEIGHT["sc2tog"])
            else:
                parts.append(f"sk next st, (sc, {kind}) in next st, {kind}")
                done, made = done + 3, made + 3
                yarn += WEIGHT["sc"] + 2 * WEIGHT[kind]
        rest = below - done
        parts.append("sc to end")
        below, yarn = made + rest, yarn + rest * WEIGHT["sc"]
        lines.append(f"Row {number}: ch 1, turn, {', '.join(parts)}. ({below} sts)")
    return 'rows = """\n' + "\n".join(lines) + '\n"""\n', yarn


def project(pick):
    """A file of a few pieces, and the metres it needs."""
    rate = Fraction(pick.randint(700, 1500), 100)  # cm a stitch, as some fabric has
    text = ('title = "Random"\n[gauge]\nstitches = "14 per 10 cm"\nrows = "16 per 10 cm"\n'
            f'stitch = "sc"\n[yarn.MC]\nrate = "{float(rate)} cm per stitch"\n')
    stitches = Fraction(0)
    for at in range(pick.randint(1, 4)):
        piece, yarn = pick.choice([counted, table, notation])(pick)
        count = pick.randint(1, 3)
        text += f'[[piece]]\nname = "piece {at}"\nyarn = "MC"\ncount = {count}\n{NO_EDGES}{piece}'
        stitches += count * yarn
    return text, stitches, rate / 100


def main():
    options = argparse.ArgumentParser()
    options.add_argument("program")
    options.add_argument("--seed", type=int, default=random.SystemRandom().randrange(2**32))
    options.add_argument("--cases", type=int, default=60)
    options.add_argument("--fault", action="store_true")
    asked = options.parse_args()
    print(f"seed {asked.seed}")
    pick = random.Random(asked.seed)
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "random.toml"
        for case in range(asked.cases):
            text, stitches, rate = project(pick)
            path.write_text(text)
            expected = float((stitches + asked.fault) * rate)
            run = subprocess.run([asked.program, "need", str(path), "--format", "json"],
                                 capture_output=True, text=True)
            parts = json.loads(run.stdout)["roles"][0]["parts"] if run.returncode == 0 else []
            body = sum(part["length_m"] for part in parts if part["part"] == "body")
            if abs(body - expected) <= 1e-9 * expected:
                continue
            wrong += 1
            if not asked.fault:
                print(f"case {case}: {body} m, here {expected} m\n{run.stderr}{text}")
    print(f"{asked.cases} cases, {wrong} differ")
    return int(wrong > 0) if not asked.fault else int(wrong < asked.cases)


sys.exit(main())
