#!/usr/bin/env python3
"""The largest inputs that are let in, each through every command that takes them: time and memory.

    limits.py PROGRAM [--only WORD] [--keep RESULTS.md]

Goal: at most 2 s and 500 MB, a stash of up to 100 000 skeins among them. Inputs are made here, at
the limits that the readers state: rows and stitches of a project, sizes, yarns, pieces, stripes,
lengths of texts, rows of a sheet. A command that refuses an input is fine too, when it does so within
the goal: what counts is that nothing hangs and nothing fills the memory.
"""
import argparse
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "bench"))
import varied  # noqa: E402

SECONDS = 2.0
MEGABYTES = 500
GIVE_UP = 60

HEAD = ('title = "Limit"\ncraft = "crochet"\n{sizes}[gauge]\nstitches = "{gauge} per 10 cm"\n'
        'rows = "{gauge} per 10 cm"\nstitch = "sc"\n')
YARN = '[yarn.{id}]\nname = "{name}"\ngrist = "200 m / 100 g"\nrate = "0.03 m per stitch"\n'


def project(pieces, yarns=1, sizes="", gauge=14, name="Yarn"):
    head = HEAD.format(sizes=sizes, gauge=gauge)
    return head + "".join(YARN.format(id=f"Y{n}", name=f"{name} {n}") for n in range(yarns)) + pieces


def piece(name="body", more="yarn = \"Y0\"\nstitches = 100\nrows = 100\n"):
    return f'[[piece]]\nname = "{name}"\n{more}'


def projects():
    """Name and text of each project at a limit."""
    striped = "stripes = [" + ", ".join(
        f'{{ yarn = "Y{n % 2}", rows = 1 }}' for n in range(2)) + "]\n"
    sizes = ", ".join(f'"S{n}"' for n in range(100))
    return {
        "200 000 rows": project(piece(more='yarn = "Y0"\nstitches = 100\nrows = 200000\n')),
        "rows of 1 000 000 stitches": project(
            piece(more='yarn = "Y0"\nstitches = 1000000\nrows = 1000\n')),
        "stripes of one row, 200 000": project(
            piece(more=f"stitches = 100\nrows = 200000\n{striped}"), yarns=2),
        "100 sizes of 2 000 rows": project(
            piece(more='yarn = "Y0"\nstitches = 100\nrows = 2000\n'), sizes=f"sizes = [{sizes}]\n"),
        "300 pieces": project("".join(piece(f"piece {n}") for n in range(300))),
        "a piece 2 000 times": project(
            piece(more='yarn = "Y0"\nstitches = 100\nrows = 100\ncount = 2000\n')),
        "100 yarns": project("".join(
            piece(f"piece {n}", f'yarn = "Y{n}"\nstitches = 100\nrows = 100\n')
            for n in range(100)), yarns=100),
        "the finest gauge": project(piece(more='yarn = "Y0"\nwidth = "1 m"\nlength = "40 m"\n'),
                                    gauge=1000),
        "names of 1 000 bytes": project(piece("n" * 1000), name="y" * 190),
    }


def patterns():
    rows = "\n".join(f"Row {n}: sc in each st across, turn. (100 sts)" for n in range(2, 20001))
    return {"a pattern of 20 000 rows": "Craft: crochet\nCh 101.\nRow 1: Sc in 2nd ch from hook and in "
            f"each ch across, turn. (100 sts)\n{rows}\nFasten off.\n"}


PLANNING = [["need"], ["cover"], ["buy"], ["largest"], ["joins"], ["joins", "--picture", "j.svg"],
            ["check"], ["materials"], ["report", "--html", "r.html"], ["report", "--pdf", "r.pdf"],
            ["report", "--picture", "r.svg"], ["report", "--picture", "r.png"],
            ["progress", "--row", "60", "--mass", "78 g"], ["stripes"], ["fit", "--width", "1 m"]]
STASH = [["stash", "list"], ["stash", "list", "--format", "json"], ["stash", "show", "v77"],
         ["stash", "history", "v77"], ["stash", "verify"], ["stash", "export"],
         ["stash", "export", "--format", "json"], ["stash", "backup", "copy"],
         ["stash", "use", "v77", "1 m", "--in", "Hat"], ["stash", "undo"],
         ["cover", "--need", "380 yd", "--class", "4"],
         ["cover", "--need", "380 yd", "--class", "4", "--why"],
         ["cover", "three.toml"], ["buy", "three.toml"], ["cover", "twelve.toml"],
         ["stash", "import", "in.csv"]]


def measured(command, folder, environment):
    """Seconds, peak megabytes, exit code (None: given up)."""
    with open(os.path.join(folder, "said"), "w") as said:
        begin = time.perf_counter()
        child = subprocess.Popen(command, cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                                 stdout=subprocess.DEVNULL, stderr=said)
        timer = None
        while True:
            pid, status, used = os.wait4(child.pid, os.WNOHANG)
            if pid:
                break
            if time.perf_counter() - begin > GIVE_UP and timer is None:
                child.kill()
                timer = True
            time.sleep(0.005)
        took = time.perf_counter() - begin
    child.returncode = os.waitstatus_to_exitcode(status)
    return took, used.ru_maxrss / 1024, None if timer else child.returncode, \
        used.ru_utime + used.ru_stime


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--only", default="")
    parser.add_argument("--keep")
    parser.add_argument("--skeins", type=int, default=100_000)
    options = parser.parse_args()
    program = os.path.realpath(options.program)
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        environment = {"HOME": folder, "NO_COLOR": "1", "PATH": os.environ["PATH"],
                       "SKEINFALL_STASH": os.path.join(folder, "stash")}

        def run(what, command):
            if options.only and options.only not in f"{what}: {' '.join(command)}":
                return
            took, megabytes, code, used = measured([program, *command], folder, environment)
            fine = code is not None and used <= SECONDS and megabytes <= MEGABYTES \
                and code in (0, 1, 2)
            rows.append((what, " ".join(command), used, megabytes, code, fine))
            print(f"{'   ' if fine else '-> '}{what}: {' '.join(command)}: {used:.2f} s of the "
                  f"processor, {took:.2f} s, {megabytes:.0f} MB, exit {code}", flush=True)

        for what, text in projects().items():
            name = what.replace(" ", "-") + ".toml"
            with open(os.path.join(folder, name), "w", encoding="utf-8") as out:
                out.write(text)
            for command in PLANNING:
                have = [] if command[0] in ("check", "need", "materials", "fit", "progress") else \
                    [word for yarn in sorted(set(re.findall(r"\[yarn\.(\w+)\]", text)))[:2]
                     for word in ("--have", f"{yarn}: 60 skeins of 200 m / 100 g")]
                run(what, [command[0], name, *command[1:], *have,
                           *(["--replace"] if "." in command[-1] else [])])
        for what, text in patterns().items():
            with open(os.path.join(folder, "pattern.txt"), "w", encoding="utf-8") as out:
                out.write(text)
            run(what, ["read", "pattern.txt"])
        what = f"{options.skeins:,} skeins".replace(",", " ")
        varied.write(os.path.join(folder, "in.csv"), options.skeins)
        for name, yarns in (("three", 3), ("twelve", 12)):
            varied.write_project(os.path.join(folder, name + ".toml"), options.skeins, yarns)
        only, options.only = options.only, ""
        run(what, ["stash", "import", "in.csv"])
        options.only = only
        for command in STASH:
            run(what, command)
        with open(os.path.join(folder, "in.json"), "w", encoding="utf-8") as out:
            subprocess.run([program, "stash", "export", "--format", "json"], stdout=out, check=False,
                           env=environment, cwd=folder)
        environment["SKEINFALL_STASH"] = os.path.join(folder, "other")
        run(what, ["stash", "import", "in.json"])
    short = [row for row in rows if not row[-1]]
    print(f"{len(rows)} runs, {len(short)} beyond {SECONDS:g} s or {MEGABYTES} MB")
    if options.keep:
        with open(options.keep, "w", encoding="utf-8") as out:
            out.write("# Limits\n\nKept by `python3 tests/fault/limits.py PROGRAM --keep FILE`: "
                      "seconds of the processor and peak memory\nof each command on the largest inputs; "
                      f"the goal is {SECONDS:g} s and {MEGABYTES} MB.\n\n"
                      "| input | command | s | MB | exit | |\n|---|---|--:|--:|--:|---|\n")
            for what, command, used, megabytes, code, fine in rows:
                out.write(f"| {what} | {command} | {used:.2f} | {megabytes:.0f} | {code} | "
                          f"{'' if fine else 'beyond'} |\n")
    return 1 if short else 0


sys.exit(main())
