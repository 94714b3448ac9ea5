#!/usr/bin/env python3
"""The stash against the sqlite3 program: import, list, a cold query. Usage:

    tests/bench/stash.py PROGRAM [RUNS]

sqlite3 does the same work by hand: it lays out the same schema, reads the same CSV file with
.import into a table of its own, and brings it from there into yarn, skein, movement and
description, with every constraint and trigger on. Listing, it prints what `stash list` shows; the
cold query reads one skein. Each pair runs in turn, the best of RUNS counts.
"""
import os
import random
import resource
import subprocess
import sys
import tempfile
import time

program = os.path.realpath(sys.argv[1])
runs = int(sys.argv[2]) if len(sys.argv) > 2 else 5
schema = os.path.join(os.path.dirname(os.path.realpath(__file__)), "../../schema")
lay_out = "".join(open(os.path.join(schema, name)).read()
                  for name in ("schema.sql", "reference.sql"))

BY_HAND = """
PRAGMA foreign_keys = ON; PRAGMA journal_mode = WAL;
BEGIN IMMEDIATE;
.import --csv FILE given
INSERT INTO entry (number, day) VALUES (1, '2024-05-31');
INSERT INTO yarn (name, class, fibre_json, label_length_text, label_length_m, label_mass_text,
        label_mass_g)
    SELECT DISTINCT yarn, CAST(class AS INTEGER), '[["wool",1.0]]', label_length,
        CAST(label_length AS REAL), label_mass, CAST(label_mass AS REAL) FROM given;
INSERT INTO skein (id) SELECT id FROM given ORDER BY given.rowid;
INSERT INTO movement (entry, skein, kind, day, amount_text, amount_g, scale_text, scale_g,
        purpose, note)
    SELECT 1, skein, kind, '2024-05-31', text, g, step, step_g, '', '' FROM (
        SELECT skein.number AS skein, 0 AS place, 'bought' AS kind, NULL AS text, NULL AS g,
            NULL AS step, NULL AS step_g
        FROM given JOIN skein USING (id)
        UNION ALL
        SELECT skein.number, 1, 'weighed', weighed, CAST(weighed AS REAL), scale,
            CAST(scale AS REAL)
        FROM given JOIN skein USING (id) WHERE weighed <> '') ORDER BY skein, place;
INSERT INTO description (movement, yarn, colourway, dye_lot, state, knots, note)
    SELECT movement.number, yarn.number, colourway, dye_lot, state, 0, ''
    FROM given JOIN skein USING (id)
        JOIN movement ON movement.skein = skein.number AND movement.kind = 'bought'
        JOIN yarn ON yarn.name = given.yarn AND yarn.label_length_text = given.label_length;
DROP TABLE given;
COMMIT;
"""
LIST = """
SELECT id, name, colourway, class, coalesce(shade_group, dye_lot), state, weighed_text,
    coalesce(left_m, left_g * label_length_m / label_mass_g)
FROM holding JOIN yarn ON yarn.number = holding.yarn ORDER BY arrival;
"""
ONE = """
SELECT * FROM holding JOIN yarn ON yarn.number = holding.yarn
WHERE holding.skein = 7778;
"""


def make(path, count):
    rng = random.Random(20260201)
    yarns = max(1, count // 25)
    length = [130 + 5 * rng.randrange(20) for _ in range(yarns)]
    with open(path, "w") as out:
        out.write("id,yarn,colourway,dye_lot,class,fibre,label_length,label_mass,state,weighed,"
                  "scale\n")
        for i in range(count):
            y, part = rng.randrange(yarns), rng.randrange(4) == 0
            weighed = f"{rng.randrange(5, 95)} g,1 g" if part else ","
            out.write(f"x{i},Yarn {y},colour {rng.randrange(3)},{rng.randrange(4)},4,100% wool,"
                      f"{length[y]} m,100 g,{'part' if part else 'whole'},{weighed}\n")


def seconds(command, stdin=None):
    """Wall time, with the output read from a pipe."""
    before = time.perf_counter()
    done = subprocess.run(command, input=stdin or "", stdout=subprocess.PIPE, text=True, check=True)
    took = time.perf_counter() - before
    assert done.returncode == 0
    return took


def beside(what, size, goal, ours, theirs):
    best = [ours(), theirs()]
    for _ in range(runs - 1):
        best = [min(best[0], ours()), min(best[1], theirs())]
    print("result", what, size, f"{best[0]:.6f}", "-", "sqlite3", f"{best[1]:.6f}", "-", sep="\t")
    print(f"{what} ({size})\n    skeinfall {1000 * best[0]:.1f} ms, sqlite3 {1000 * best[1]:.1f} ms: "
          f"{best[0] / best[1]:.2f} times, {1000 * (best[0] - best[1]):+.1f} ms (goal {goal})",
          flush=True)


def fresh(name):
    for end in ("", "-wal", "-shm"):
        if os.path.exists(name + end):
            os.remove(name + end)
    return name


def says(file, sql):
    return subprocess.run(["sqlite3", file, sql], capture_output=True, check=True).stdout


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    for count in (10_000, 100_000):
        make(f"{count}.csv", count)
    by_hand = lay_out + BY_HAND.replace("FILE", "100000.csv")
    bring_in = [program, "stash", "import", "100000.csv", "--stash"]
    beside("skeinfall stash import", 100_000, "at most 3 times",
           lambda: seconds([*bring_in, fresh("ours")]),
           lambda: seconds(["sqlite3", "-bail", fresh("theirs")], by_hand))
    sums = "SELECT count(*), total(weighed_g), total(left_m) FROM holding"
    assert says("ours", sums) == says("theirs", sums)
    assert says("ours", "SELECT id FROM skein WHERE number = 7778") == b"x7777\n"
    if os.fork() == 0:
        subprocess.run([*bring_in, fresh("measured")], stdout=subprocess.DEVNULL, check=True)
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
        print(f"    peak memory {peak // 1024} MB", flush=True)
        os._exit(0)
    os.wait()

    subprocess.run([program, "stash", "import", "10000.csv", "--stash", fresh("ten")],
                   stdout=subprocess.DEVNULL, check=True)
    beside("skeinfall stash list to a pipe", 10_000, "at most 2 times",
           lambda: seconds([program, "stash", "list", "--stash", "ten"]),
           lambda: seconds(["sqlite3", "ten", LIST]))
    for name, count in (("ten", 10_000), ("ours", 100_000)):
        beside("skeinfall stash show, cold", count, "at most 20 ms over sqlite3",
               lambda: seconds([program, "stash", "show", "x7777", "--stash", name]),
               lambda: seconds(["sqlite3", name, ONE]))
