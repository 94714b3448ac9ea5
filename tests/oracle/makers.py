"""Simulates makers: how often does yarn last that was said to last so surely?

Usage: makers.py PROGRAM [--seed N] [--makes N] [--worlds N] [--wide] [--tolerance POINTS]
Each make is a panel of double crochet from equal skeins of the swatch's own yarn, some with hardly
enough. The program sees what a maker sees: a swatch of 28 stitches by 20 rows and its weight,
labels and counts. Then worlds are drawn from the spreads that the program states (README, "How it
reckons"), and every row is worked: a row that its skein does not finish is taken back and begun
with the next skein. Nothing of the library is used. With --wide a skein holds 4 to 12 rows.

Prints a table of promised against held, for "cover" and for "joins", by bins of what was promised.
Exit code 1 when, with --tolerance, in a bin held falls more than so many points, and two standard
errors, below the mean promise. Standard errors are those of makes, of which each has one promise.
"""

import argparse
import json
import math
import os
import pathlib
import random
import subprocess
import sys
import tempfile

ROW, DRIFT, STEP = 0.03, 0.03, 0.1       # relative spreads of rows and of drift; the scale's step
SKEIN_M, SKEIN_G, TOLERANCE_G = 100.0, 50.0, 4.5
OWN = TOLERANCE_G / 2.0537 / SKEIN_G     # 98 % of skeins lie above the tolerable deficiency
SWATCH_STITCHES, SWATCH_ROWS, FOUNDATION = 28, 20, 0.48
ENDS = 0.3                               # of every skein, in metres
BINS = [(0, 50), (50, 80), (80, 90), (90, 95), (95, 98), (98, 100)]

PROJECT = """title = "Panel"
[gauge]
stitches = "14 per 10 cm"
rows = "8 per 10 cm"
stitch = "dc"
[yarn.MC]
name = "Panel yarn"
fibre = "100% polyester"
grist = "100 m / 50 g"
[[swatch]]
stitches = {stitches}
rows = {rows}
mass = "{mass:.1f} g"
scale = "{step} g"
[[piece]]
name = "panel"
stitches = {wide}
rows = {high}
"""
LABELS = "yarn,fibre,label length,label mass,dye lot\n"
SKEIN = "Panel yarn,100% polyester,100 m,50 g,1\n"


def ask(program, stash, *words):
    """An answer in JSON; exit codes 0 and 1 are answers."""
    done = subprocess.run([program, *words, "--format", "json"], capture_output=True, text=True,
                          env={**os.environ, "SKEINFALL_STASH": str(stash)}, check=False)
    if done.returncode > 1:
        sys.exit(f"{' '.join(words)}: {done.stderr}")
    return json.loads(done.stdout)


class Make:
    """What the maker sees of one panel."""

    def __init__(self, pick, wide):
        self.mass = round(pick.uniform(14.0, 24.0), 1)
        per_stitch = self.mass * SKEIN_M / SKEIN_G / (SWATCH_STITCHES * SWATCH_ROWS)
        usable = SKEIN_M - ENDS
        rows_a_skein = pick.uniform(4.0, 12.0) if wide else pick.uniform(4.0, 40.0)
        self.stitches = max(5, round(usable / rows_a_skein / per_stitch))
        self.row = self.stitches * per_stitch
        self.skeins = pick.randint(2, 12)
        # From a little short to two skeins to spare.
        held = self.skeins - pick.uniform(-0.1, 2.0)
        self.rows = max(2, round(held * usable / self.row - FOUNDATION))

    def text(self):
        """The project file."""
        return PROJECT.format(stitches=SWATCH_STITCHES, rows=SWATCH_ROWS, mass=self.mass,
                              step=STEP, wide=self.stitches, high=self.rows)

    def lasts(self, pick, skeins):
        """One world: whether so many skeins reach the last row."""
        common = (1 + DRIFT * pick.gauss(0, 1)) * (
            1 + math.hypot(ROW / math.sqrt(SWATCH_ROWS), STEP / math.sqrt(12) / self.mass)
            * pick.gauss(0, 1))
        left = 0.0
        for step in range(self.rows + 1):
            share = FOUNDATION if step == 0 else 1.0
            takes = self.row * share * common * (1 + ROW * pick.gauss(0, 1))
            while left < takes:
                if skeins == 0:
                    return False
                skeins -= 1
                left = SKEIN_M * (1 + OWN * pick.gauss(0, 1)) - ENDS
            left -= takes
        return True


def promises(program, make, folder):
    """What cover and joins promise, each with the skeins that it promises it for."""
    stash, project, sheet = (folder / name for name in ("s.skeinfall", "p.toml", "s.csv"))
    stash.unlink(missing_ok=True)
    project.write_text(make.text(), encoding="utf-8")
    sheet.write_text(LABELS + SKEIN * make.skeins, encoding="utf-8")
    subprocess.run([program, "stash", "import", str(sheet), "--stash", str(stash)], check=True,
                   capture_output=True)
    cover = ask(program, stash, "cover", str(project))
    yield "cover", 100 * cover["chance"], len(cover["roles"][0]["skeins"])
    joins = ask(program, stash, "joins", str(project))
    role = joins["roles"][0]
    yield "joins", 100 * joins["chance"], len(role["stretches"]) + len(role["spares"])


def table(seen, tolerance):
    """Prints promised against held; the number of bins that hold too little."""
    bad = 0
    print(f"{'':8}{'promised':>12}{'makes':>7}{'mean':>8}{'held':>8}{'off':>8}{'error':>8}")
    for name in ("cover", "joins"):
        for low, high in BINS:
            inside = [(p, h) for n, p, h in seen
                      if n == name and (low <= p < high or p == high == 100)]
            if len(inside) < 2:
                continue
            off = [held - promised for promised, held in inside]
            mean = sum(off) / len(off)
            error = math.sqrt(sum((o - mean) ** 2 for o in off) / (len(off) - 1) / len(off))
            print(f"{name:8}{f'{low} to {high} %':>12}{len(inside):7}"
                  f"{sum(p for p, _ in inside) / len(inside):8.1f}"
                  f"{sum(h for _, h in inside) / len(inside):8.1f}{mean:8.2f}{error:8.2f}")
            if tolerance is not None and mean < -tolerance - 2 * error:
                bad += 1
    return bad


def main():
    """Runs the makes and prints the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--seed", type=int, default=20260)
    parser.add_argument("--makes", type=int, default=100)
    parser.add_argument("--worlds", type=int, default=300)
    parser.add_argument("--wide", action="store_true")
    parser.add_argument("--tolerance", type=float)
    given = parser.parse_args()
    pick = random.Random(given.seed)
    seen = []
    with tempfile.TemporaryDirectory() as folder:
        for _ in range(given.makes):
            make = Make(pick, given.wide)
            for name, promised, skeins in promises(given.program, make, pathlib.Path(folder)):
                held = sum(make.lasts(pick, skeins) for _ in range(given.worlds))
                seen.append((name, promised, 100 * held / given.worlds))
    print(f"seed {given.seed}, {given.makes} makes, {given.worlds} worlds each"
          f"{', wide rows' if given.wide else ''}")
    bad = table(seen, given.tolerance)
    if bad:
        print(f"{bad} bins hold less than was promised")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
