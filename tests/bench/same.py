#!/usr/bin/env python3
"""Whether two builds of the program answer alike, byte for byte. Usage:

    same.py PROGRAM OLD [--stashes 1000] [--seed 1]

Draws stashes of varied.py of 1 to 80 skeins, with and without ids, lets each program import them into
a stash of its own and compares standard output, messages and exit code of commands that list, export,
choose and buy, for bare needs and for projects whose yarns are drawn from the stash and beside it.
Prints each difference and exits with 1 when there was one.
"""
import argparse
import os
import random
import subprocess
import sys
import tempfile

import varied


def project(chance, rows):
    """A project of one to four yarns, most of them in the stash."""
    out = ['title = "Drawn"', 'craft = "crochet"', "[gauge]", 'stitches = "14 per 10 cm"',
           'rows = "10 per 10 cm"', 'stitch = "sc"']
    for role in range(chance.randrange(1, 5)):
        out += [f"[yarn.C{role}]", f'total = "{chance.randrange(20, 900)} m"']
        row = chance.choice(rows)
        if chance.randrange(3):
            out.append(f'name = "{row[1]}"')
            if chance.randrange(2) and row[2]:
                out.append(f'colour = "{row[2]}"')
        else:
            out.append(f"class = {chance.randrange(7)}")
            if chance.randrange(2):
                out.append(f'grist = "{chance.randrange(80, 500)} m / 100 g"')
        if chance.randrange(4) == 0:
            out.append("one_lot = false")
        if chance.randrange(5) == 0:
            out.append('avoid = ["wool"]')
    return "\n".join(out) + "\n"


def commands(chance):
    need = ["cover", "--need", f"{chance.randrange(20, 1500)} yd", "--class",
            str(chance.randrange(6))]
    return [["stash", "import", "in.csv"], ["stash", "import", "in.csv", "--dry-run"],
            ["stash", "list"], ["stash", "list", "--format", "json"], ["stash", "export"],
            ["stash", "export", "--format", "json"], ["stash", "verify"],
            need, [*need, "--why"], [*need, "--format", "json"],
            ["cover", "--need", f"{chance.randrange(20, 900)} m", "--any-lot"],
            ["cover", "p.toml", "--why"], ["cover", "p.toml", "--format", "json"],
            ["cover", "p.toml", "--split", "--in-turn"], ["buy", "p.toml"],
            ["cover", "--all", "."], ["cover", "--all", ".", "--together"]]


def answers(program, name, folder, asked):
    environment = {"HOME": folder, "NO_COLOR": "1", "PATH": os.environ["PATH"],
                   "SKEINFALL_STASH": os.path.join(folder, name)}
    out = []
    for command in asked:
        done = subprocess.run([program, *command], cwd=folder, env=environment, check=False,
                              capture_output=True)
        told = (done.stdout + b"\0" + done.stderr).replace(name.encode(), b"STASH")
        out.append((done.returncode, told))
    return out


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("old")
    parser.add_argument("--stashes", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    differences = asked_in_all = 0
    codes = {}
    for number in range(options.seed, options.seed + options.stashes):
        chance = random.Random(number)
        rows = list(varied.rows(chance.randrange(1, 81), number))
        if chance.randrange(4) == 0:
            rows = [["", *row[1:]] for row in rows]
        with tempfile.TemporaryDirectory() as folder:
            varied.write_rows(os.path.join(folder, "in.csv"), rows)
            for name in ("p.toml", "q.toml"):
                with open(os.path.join(folder, name), "w", encoding="utf-8") as out:
                    out.write(project(chance, rows))
            asked = commands(chance)
            ours = answers(os.path.realpath(options.program), "stash-of-ours", folder, asked)
            theirs = answers(os.path.realpath(options.old), "stash-of-old", folder, asked)
        for command, mine, other in zip(asked, ours, theirs):
            asked_in_all += 1
            codes[mine[0]] = codes.get(mine[0], 0) + 1
            if mine != other:
                differences += 1
                print(f"seed {number}: {' '.join(command)}: exit {other[0]} -> {mine[0]}")
    print(f"{options.stashes} stashes, {asked_in_all} answers, {differences} differ; exit codes",
          ", ".join(f"{code}: {count}" for code, count in sorted(codes.items())))
    return 1 if differences else 0


sys.exit(main())
