"""Compares the yarn of whole knitted makes with sums made here from their arithmetic alone.

Usage: knit_makes.py PROGRAM [--fault]
The makes are our own: a stranded mitten, a toe-up sock, a sock from the cuff down and a child's
raglan. What each row takes follows from its shape, not from its words; kinds weigh as
lib/data/stitches.csv says, and a carried strand takes its width and a tenth more. With --fault every
sum is one stitch too large, and all of it has to be noticed. Exit code 1 tells of a difference.
"""

import csv
import json
import pathlib
import subprocess
import sys
import tempfile
from fractions import Fraction

TABLE = pathlib.Path(__file__).resolve().parents[2] / "lib/data/stitches.csv"
with TABLE.open() as file:
    WEIGHT = {row["us"]: Fraction(row["relative_yarn"]) for row in csv.DictReader(file)}
CORPUS = pathlib.Path(__file__).resolve().parents[1] / "notation/corpus"
SLACK = Fraction(11, 10)
GAUGE = 20  # stitches in 10 cm
RATE = Fraction(1, 100)  # metres a stitch

MITTEN = [
    "CO 40 sts. Join in the round.",
    "Rnds 1-12: With MC, *k1, p1; rep from * around.",
    "Rnd 13: *K3 in MC, k1 in CC; rep from * around.",
    "Rnd 14: *K1 MC, k1 CC; rep from * around.",
    "Rnds 15-30: Rep rnds 13 and 14.",
    "Rnd 31: With MC, *k3, k2tog; rep from * around. (32 sts)",
    "Rnd 32: [K1 MC, k1 CC] around.",
    "Rnd 33: With MC, *k2, k2tog; rep from * around. (24 sts)",
    "Rnd 34: With MC, *k1, k2tog; rep from * around. (16 sts)",
    "Rnd 35: With MC, k2tog around. (8 sts)",
]


def lines_of(name, first_line):
    """The piece of a corpus file whose first line begins so, without its counts."""
    out, found = [], False
    for line in (CORPUS / name).read_text().splitlines():
        if line.startswith("== ") or line.startswith("#") or not line:
            if found and out:
                return out
            continue
        text = line.rsplit(" ## ", 1)[0]
        if not out and text.startswith(first_line):
            found = True
        if found:
            out.append(text)
    return out


def mitten():
    main = 12 * 40 + 9 * 30 + 9 * 20 + 32 + 16 + 24 + 16 + 8
    contrast = 9 * 10 + 9 * 20 + 16
    # The contrast rests for one round, and is carried up it: a round high and a fifth more, here
    # told as stitches passed.
    up = Fraction(1, 26) * Fraction(6, 5) / SLACK * GAUGE
    return {"MC": main, "CC": contrast}, {
        "MC": 9 * 10 + 9 * 20 + 16,
        "CC": 9 * 30 + 9 * 20 + 16 + up,
    }


def toe_up():
    toe = 16 + sum(range(20, 49, 4)) + sum(range(20, 45, 4))
    heel = sum(range(8, 24)) + sum(range(9, 25))
    return {"MC": toe + (30 + 24 + 12) * 48 + heel + 48 * WEIGHT["BO"]}, {}


def cuff_down():
    slip = WEIGHT["sl"]
    flap = 12 + (slip + 23) + 10 * ((12 * slip + 12) + (slip + 23))
    turn = (slip + 15) + sum(slip + each for each in range(7, 14)) + 2 * (slip + 13)
    gusset = 60 + 2 * sum(range(48, 59, 2))
    toe = 2 * sum(range(20, 45, 4))
    return {"MC": 16 * 48 + flap + turn + gusset + 20 * 48 + toe}, {}


def raglan():
    yoke = 6 * 56 + 56 + 2 * sum(56 + 8 * turn for turn in range(1, 19))
    body = 124 + 48 * 124 + 124 * WEIGHT["BO"]
    sleeve = 6 * 50 + 48 + sum(5 * (48 - 2 * turn) + 46 - 2 * turn for turn in range(5))
    sleeve += 8 * 38 + 38 * WEIGHT["BO"]
    return {"MC": yoke + body + 2 * sleeve}, {}


def project_of(rows):
    yarns = "".join(f'[yarn.{yarn}]\nrate = "1 cm per stitch"\n' for yarn in ("MC", "CC"))
    return (
        'title = "Make"\ncraft = "knit"\n[gauge]\nstitches = "20 per 10 cm"\n'
        f'rows = "26 per 10 cm"\nstitch = "k"\n{yarns}[[piece]]\nname = "all"\nyarn = "MC"\n'
        'worked = "round"\nfoundation_rows = 0\nbind_off_rows = 0\n'
        f"rows = {json.dumps(rows)}\n"
    )


def need_of(program, rows, folder):
    file = pathlib.Path(folder) / "make.toml"
    file.write_text(project_of(rows))
    run = subprocess.run(
        [program, "need", str(file), "--format", "json"], capture_output=True, text=True, check=False
    )
    if run.returncode != 0:
        return {}, run.stderr
    return {role["role"]: role for role in json.loads(run.stdout)["roles"]}, run.stderr


def part(role, purpose):
    return sum(one["length_m"] for one in role["parts"] if one["part"] == purpose)


def main():
    program, fault = sys.argv[1], "--fault" in sys.argv[2:]
    makes = {
        "mitten": (MITTEN, *mitten()),
        "toe-up sock": (lines_of("knit_makes.txt", "Cast on 16 sts"), *toe_up()),
        "sock from the cuff down": (lines_of("knit_turns.txt", "CO 48 sts"), *cuff_down()),
        "raglan": (lines_of("knit_makes.txt", "Cast on 56 sts"), *raglan()),
    }
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        for name, (rows, body, carried) in makes.items():
            roles, errors = need_of(program, rows, folder)
            for yarn, stitches in body.items():
                wanted = float((stitches + (1 if fault else 0)) * RATE)
                strand = float(carried.get(yarn, 0) * SLACK / GAUGE / 10)
                got = roles.get(yarn)
                if got is None:
                    print(f"{name}: {yarn} has no need. {errors}")
                    wrong += 1
                    continue
                off = abs(part(got, "body") - wanted) > 1e-6
                if off or abs(part(got, "carried") - strand) > 1e-6:
                    print(
                        f"{name}, {yarn}: {part(got, 'body')} m and {part(got, 'carried')} m "
                        f"carried, not {wanted} m and {strand} m"
                    )
                    wrong += 1
    print(f"{len(makes)} makes, {wrong} differences")
    expected = sum(len(body) for _, body, _ in makes.values()) if fault else 0
    return 0 if wrong == expected else 1


if __name__ == "__main__":
    sys.exit(main())
