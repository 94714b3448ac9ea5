#!/usr/bin/env python3
"""Attacks the program and its stash from outside, and counts what held. Usage:

    tests/fault/attack.py PROGRAM [--rounds N] [--seed N] [--keep RESULTS.md]

Every kind of attack runs N rounds (12 in the ordinary tests; by hand a few hundred). After each the
stash must be as it was before or after the command, or be refused with a way out; nothing that was
acknowledged may be lost; no file but the one named may change. Exit code 1 when anything did not
hold; the seed is printed and runs the same again.
"""
import argparse
import os
import random
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

parser = argparse.ArgumentParser()
parser.add_argument("program")
parser.add_argument("--rounds", type=int, default=12)
parser.add_argument("--seed", type=int, default=None)
parser.add_argument("--keep")
options = parser.parse_args()
PROGRAM = os.path.realpath(options.program)
SEED = options.seed if options.seed is not None else int(
    os.environ.get("SKEINFALL_SEED", random.randrange(2**31)))
chance = random.Random(SEED)
faults = []


def run(*arguments, limit=None, stdout=subprocess.PIPE, seconds=60):
    """Exit code, output and messages; a signal is a negative code."""
    def bound():
        if limit:
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    done = subprocess.run([PROGRAM, *arguments], stdout=stdout, stderr=subprocess.PIPE,
                          preexec_fn=bound, timeout=seconds, check=False)
    return done.returncode, (done.stdout or b"").decode(errors="replace"), \
        done.stderr.decode(errors="replace")


def bytes_of(name):
    with open(name, "rb") as file:
        return file.read()


def put(name, data):
    with open(name, "wb") as file:
        file.write(data)


def expect(true, what):
    if not true:
        faults.append(what)
    return true


def make(count):
    with open("made.csv", "w", encoding="utf-8") as out:
        out.write("yarn,colourway,dye_lot,label_length,label_mass,state,weighed,scale,note\n")
        for i in range(count):
            part = chance.randrange(4) == 0
            out.write(f"Yarn {chance.randrange(count // 8 + 1)},{chance.choice('abc')},"
                      f"L{chance.randrange(9)},{100 + chance.randrange(99)} m,50 g,"
                      f"{'part,' + str(5 + chance.randrange(40)) + ' g,1 g' if part else 'whole,,'},"
                      f"note {i}\n")
    code, _, said = run("stash", "import", "made.csv", "--stash", "good")
    assert code == 0, said


def listed(stash):
    code, out, said = run("stash", "list", "--format", "json", "--stash", stash)
    return (out if code == 0 else None), said


def refused_with_a_way_out(said):
    return "Traceback" not in said and any(
        word in said for word in ("stash rescue", "stash verify", "Name another", "stash restore",
                                  "Begin one", "newer skeinfall", "stash upgrade"))


def killed():
    """At a random moment of a command that writes; what was printed as added is there."""
    shutil.copy("good", "s")
    before = len(run("stash", "list", "--ids", "--stash", "s")[1].split())
    child = subprocess.Popen([PROGRAM, "stash", "add", "--yarn", "New", "--count", "20", "--stash",
                              "s"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    time.sleep(chance.random() * 0.12)
    child.kill()
    told = child.communicate()[0].decode()
    code, out, _ = run("stash", "list", "--ids", "--stash", "s")
    now = len(out.split())
    return expect(code == 0 and now in ([before + 20] if told else [before, before + 20]),
                  f"killed: {before} before, {now} after, told {told!r}") and \
        expect(run("stash", "verify", "--stash", "s")[0] == 0, "killed: not sound")


def full_disk():
    """Files may not grow past a random size."""
    shutil.copy("good", "s")
    size = os.path.getsize("s")
    before = listed("s")[0]
    code, _, said = run("stash", "import", "more.csv", "--as-new", "--stash", "s",
                        limit=size + chance.randrange(200_000))
    after = listed("s")[0]
    return expect(code >= 0 and (after == before) == (code != 0), f"full disk: code {code}: {said}")


def exchanged_pages():
    """The answer is whole, or refused."""
    data = bytearray(bytes_of("good"))
    size = 4096
    a, b = (chance.randrange(1, len(data) // size) * size for _ in range(2))
    data[a:a + size], data[b:b + size] = data[b:b + size], data[a:a + size]
    return answers_whole_or_refuses(bytes(data), f"pages {a} and {b} exchanged")


def flipped_bytes():
    data = bytearray(bytes_of("good"))
    for _ in range(chance.randrange(1, 6)):
        data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
    return answers_whole_or_refuses(bytes(data), "bytes flipped")


def cut():
    data = bytes_of("good")
    return answers_whole_or_refuses(data[:chance.randrange(len(data))], "cut")


def answers_whole_or_refuses(data, what):
    put("s", data)
    try:
        out, said = listed("s")
        held = expect(out == ANSWER or (out is None and refused_with_a_way_out(said)),
                      f"{what}: answered otherwise: {said[:200]}")
        code, _, said = run("stash", "rescue", "--stash", "s")
        held = expect(code in (0, 1, 3), f"{what}: rescue ended with {code}: {said[:200]}") and held
    except subprocess.TimeoutExpired:
        return expect(False, f"{what}: did not end")
    return expect(bytes_of("s") == data, f"{what}: reading changed the file") and held


HOSTILE = ["CREATE TRIGGER spy AFTER INSERT ON movement BEGIN DELETE FROM promise; END",
           "CREATE TABLE more (a)", "DROP INDEX movement_by_skein",
           "DROP VIEW standing; CREATE VIEW standing AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL"
           " SELECT i + 1 FROM n) SELECT i AS number, i AS skein FROM n"]


def hostile_layout():
    shutil.copy("good", "s")
    with sqlite3.connect("s") as database:
        database.executescript(chance.choice(HOSTILE))
    database.close()
    command = chance.choice([["list"], ["add", "--yarn", "x"], ["verify"], ["undo"], ["export"],
                             ["backup", "copy"]])
    try:
        code, _, said = run("stash", *command, "--stash", "s", seconds=20)
    except subprocess.TimeoutExpired:
        return expect(False, f"hostile layout: {command} did not end")
    return expect(code == 3, f"hostile layout: {command} ended with {code}: {said}")


def planted_links():
    """Nothing is written through a link at a name that may be a part's."""
    put("victim", b"precious")
    for end in (".part", ".tmp", "~", ".skeinfall-part-x"):
        if not os.path.lexists("copy" + end):
            os.symlink("victim", "copy" + end)
    if os.path.exists("copy"):
        os.remove("copy")
    code = run("stash", "backup", "copy", "--stash", "good")[0]
    return expect(code == 0 and bytes_of("victim") == b"precious", "planted links: written through")


def short_of_memory():
    """Ends in a clear line, the stash whole."""
    shutil.copy("good", "s")
    before = bytes_of("s")
    most = chance.randrange(24, 120) * 1024 * 1024
    done = subprocess.run([PROGRAM, "stash", "add", "--yarn", "x", "--stash", "s"],
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (most, most)))
    said = done.stderr.decode(errors="replace")
    return expect(done.returncode == 0 or bytes_of("s") == before or
                  run("stash", "verify", "--stash", "s")[0] == 0, "memory: not whole") and \
        expect("damaged" not in said, f"memory: told as damage: {said}")


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    make(400)
    shutil.copy("made.csv", "more.csv")
    ANSWER = listed("good")[0]
    table = []
    for attack in (killed, full_disk, exchanged_pages, flipped_bytes, cut, hostile_layout,
                   planted_links, short_of_memory):
        begin = time.monotonic()
        survived = sum(bool(attack()) for _ in range(options.rounds))
        table.append(f"| {attack.__name__.replace('_', ' ')} | {options.rounds} | {survived} | "
                     f"{time.monotonic() - begin:.0f} s |")
        print(table[-1], flush=True)
    for fault in faults[:20]:
        print("not held:", fault)
    print("seed", SEED)
if options.keep:
    with open(os.path.join(os.path.dirname(os.path.realpath(__file__)),
                           os.path.basename(options.keep)), "w", encoding="utf-8") as out:
        out.write("# What was tried from outside, and what held\n\n"
                  "Written by `tests/fault/attack.py PROGRAM --rounds N --keep RESULTS.md`, which "
                  f"tells what each attack is; seed {SEED}, a stash of 400 skeins.\n\n"
                  "| attack | tried | held | took |\n|---|---|---|---|\n" + "\n".join(table) + "\n")
sys.exit(1 if faults else 0)
