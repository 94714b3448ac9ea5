#!/usr/bin/env python3
"""The stash against the sqlite3 program on varied data (varied.py), at three sizes. Usage:

    tests/bench/stash.py PROGRAM [RUNS]

sqlite3 does the same work by hand: it lays out the same schema, reads the same CSV file with
.import into a table of its own, and brings it from there into yarn, skein, movement and
description, with every constraint and trigger on. Listing, it prints what `stash list` shows; beside
cover too, for that is what cover has to read; the cold query reads one skein. Each pair runs in
turn, the best of RUNS counts. SIZES="1000 5000" takes other sizes; a million takes some minutes.
"""
import os
import subprocess
import sys
import tempfile
import time

import varied

program = os.path.realpath(sys.argv[1])
runs = int(sys.argv[2]) if len(sys.argv) > 2 else 5
schema = os.path.join(os.path.dirname(os.path.realpath(__file__)), "../../schema")
lay_out = "".join(open(os.path.join(schema, name)).read()
                  for name in ("schema.sql", "reference.sql"))

METRES = "CAST({0} AS REAL) * CASE WHEN {0} LIKE '% m' THEN 1 ELSE 0.9144 END"
GRAMS = "CAST({0} AS REAL) * CASE WHEN {0} LIKE '% g' THEN 1 ELSE 28.349523125 END"
BY_HAND = f"""
PRAGMA foreign_keys = ON; PRAGMA journal_mode = WAL;
BEGIN IMMEDIATE;
.import --csv FILE given
INSERT INTO entry (number, day) VALUES (1, '2024-05-31');
INSERT INTO yarn (name, class, fibre_json, label_length_text, label_length_m, label_mass_text,
        label_mass_g)
    SELECT DISTINCT yarn, CAST(nullif(class, '') AS INTEGER),
        CASE WHEN fibre <> '' THEN '[["' || fibre || '",1.0]]' END, label_length,
        {METRES.format('label_length')}, label_mass, {GRAMS.format('label_mass')} FROM given;
INSERT INTO skein (id) SELECT id FROM given ORDER BY given.rowid;
INSERT INTO movement (entry, skein, kind, day, amount_text, amount_g, scale_text, scale_g,
        tare_text, tare_g, purpose, note)
    SELECT 1, skein, kind, '2024-05-31', text, g, step, step_g, tare, tare_g, '', '' FROM (
        SELECT skein.number AS skein, 0 AS place, 'bought' AS kind, NULL AS text, NULL AS g,
            NULL AS step, NULL AS step_g, NULL AS tare, NULL AS tare_g
        FROM given JOIN skein USING (id)
        UNION ALL
        SELECT skein.number, 1, 'weighed', weighed, CAST(weighed AS REAL), scale,
            CAST(scale AS REAL), nullif(tare, ''), CAST(nullif(tare, '') AS REAL)
        FROM given JOIN skein USING (id) WHERE weighed <> '') ORDER BY skein, place;
INSERT INTO description (movement, yarn, colourway, dye_lot, shade_group, state, knots, note)
    SELECT movement.number, yarn.number, colourway, nullif(dye_lot, ''), nullif(shade_group, ''),
        state, CAST(knots AS INTEGER), given.note
    FROM given JOIN skein USING (id)
        JOIN movement ON movement.skein = skein.number AND movement.kind = 'bought'
        JOIN yarn ON yarn.name = given.yarn
            AND coalesce(yarn.class, -1) = coalesce(CAST(nullif(given.class, '') AS INTEGER), -1)
            AND coalesce(fibre_json, '')
                = coalesce(CASE WHEN fibre <> '' THEN '[["' || fibre || '",1.0]]' END, '')
            AND coalesce(yarn.label_length_text, '') = given.label_length
            AND coalesce(yarn.label_length_m, 0) = {METRES.format('given.label_length')}
            AND coalesce(yarn.label_mass_text, '') = given.label_mass;
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
WHERE holding.skein = 778;
"""


def measured(command, stdin=None, fails=False):
    """Wall time, with the output read from a pipe, and peak megabytes."""
    with tempfile.TemporaryFile("w+") as given:
        given.write(stdin or "")
        given.seek(0)
        before = time.perf_counter()
        child = subprocess.Popen(command, stdin=given, stdout=subprocess.PIPE,
                                 stderr=subprocess.DEVNULL)
        child.stdout.read()
        _, status, used = os.wait4(child.pid, 0)
        took = time.perf_counter() - before
    child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode == 0 or (fails and child.returncode == 1), command
    return took, used.ru_maxrss / 1024


def beside(what, size, goals, ours, theirs):
    best = [ours(), theirs()]
    for _ in range(runs - 1 if best[0][0] < 2.0 else 1):
        best = [min(best[0], ours()), min(best[1], theirs())]
    (mine, my_memory), (other, other_memory) = best
    print("result", what, size, f"{mine:.6f}", f"{my_memory:.0f}", "sqlite3", f"{other:.6f}",
          f"{other_memory:.0f}", goals, sep="\t")
    print(f"{what} ({size})\n    skeinfall {1000 * mine:.1f} ms, {my_memory:.0f} MB; sqlite3 "
          f"{1000 * other:.1f} ms: {mine / other:.2f} times ({goals})", flush=True)


def fresh(name):
    for end in ("", "-wal", "-shm"):
        if os.path.exists(name + end):
            os.remove(name + end)
    return name


def says(file, sql):
    return subprocess.run(["sqlite3", file, sql], capture_output=True, check=True).stdout


SIZES = tuple(int(size) for size in os.environ.get("SIZES", "1000 10000 100000").split())
with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    for count in SIZES:
        varied.write(f"{count}.csv", count)
        by_hand = lay_out + BY_HAND.replace("FILE", f"{count}.csv")
        bring_in = [program, "stash", "import", f"{count}.csv", "--stash"]
        beside("skeinfall stash import", count, "ratio 3; power 1.1; kB 1",
               lambda: measured([*bring_in, fresh("ours")]),
               lambda: measured(["sqlite3", "-bail", fresh("theirs")], by_hand))
        sums = "SELECT count(*), round(total(weighed_g)), round(total(left_m)) FROM holding"
        assert says("ours", sums) == says("theirs", sums)
        beside("skeinfall stash list to a pipe", count, "power 1.1",
               lambda: measured([program, "stash", "list", "--stash", "ours"]),
               lambda: measured(["sqlite3", "ours", LIST]))
        beside("skeinfall cover --need", count,
               f"ratio {1.5 if count >= 100_000 else 2}; power 1.1; kB 2",
               lambda: measured([program, "cover", "--need", "380 yd", "--class", "4", "--stash",
                                 "ours"], fails=True),
               lambda: measured(["sqlite3", "ours", LIST]))
        varied.write_project("twelve.toml", count, 12)
        beside("skeinfall cover, twelve yarns", count, "power 1.1; kB 2",
               lambda: measured([program, "cover", "twelve.toml", "--stash", "ours"], fails=True),
               lambda: measured(["sqlite3", "ours", LIST]))
        beside("skeinfall stash export", count, "power 1.1",
               lambda: measured([program, "stash", "export", "--format", "json", "--stash",
                                 "ours"]),
               lambda: measured(["sqlite3", "-json", "ours", "SELECT * FROM movement LEFT JOIN"
                                 " description ON movement = number"]))
        beside("skeinfall stash verify", count, "power 1.1",
               lambda: measured([program, "stash", "verify", "--stash", "ours"]),
               lambda: measured(["sqlite3", "ours", "PRAGMA integrity_check"]))
        beside("skeinfall stash show, cold", count, "ratio 1.5",
               lambda: measured([program, "stash", "show", "v777", "--stash", "ours"]),
               lambda: measured(["sqlite3", "ours", ONE]))
