#!/usr/bin/env python3
"""Instructions of the paths that are walked most, which do not depend on how busy a machine is. Usage:

    counts.py PROGRAM [--against OLD] [--skeins N]

Runs each command under valgrind's callgrind on a stash of N skeins of varied.py (2000) and prints
its millions of instructions. With OLD, another build of the program, each of its own commands on a
stash of its own making, and what changed by more than 5 %; exit code 1 when something grew.
"""
import argparse
import os
import re
import subprocess
import sys
import tempfile

import varied

COMMANDS = {
    "--version": ["--version"],
    "convert": ["convert", "6 oz"],
    "stash import": ["stash", "import", "in.csv", "--stash", "new"],
    "stash import, again": ["stash", "import", "in.csv", "--stash", "s"],
    "stash list": ["stash", "list", "--stash", "s"],
    "stash show": ["stash", "show", "v77", "--stash", "s"],
    "stash export": ["stash", "export", "--format", "json", "--stash", "s"],
    "stash verify": ["stash", "verify", "--stash", "s"],
    "cover --need": ["cover", "--need", "380 yd", "--class", "4", "--stash", "s"],
}


def counts(program, skeins):
    out = {}
    with tempfile.TemporaryDirectory() as folder:
        varied.write(os.path.join(folder, "in.csv"), skeins)
        environment = dict(os.environ, XDG_CONFIG_HOME=folder, NO_COLOR="1")
        subprocess.run([program, "stash", "import", "in.csv", "--stash", "s"], cwd=folder,
                       env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                       check=True)
        for name, command in COMMANDS.items():
            said = subprocess.run(
                ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", program, *command],
                cwd=folder, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                text=True, check=False).stderr
            found = re.search(r"Collected : (\d+)", said)
            if found is None:
                sys.exit(f"no count of {name}: {said[-300:]}")
            out[name] = int(found[1])
    return out


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--against")
    parser.add_argument("--skeins", type=int, default=2000)
    options = parser.parse_args()
    new = counts(os.path.realpath(options.program), options.skeins)
    if options.against is None:
        for name, count in new.items():
            print(f"{name:24} {count / 1e6:10.1f} M")
        return 0
    old = counts(os.path.realpath(options.against), options.skeins)
    grew = False
    for name, count in new.items():
        change = count / old[name] - 1
        print(f"{name:24} {old[name] / 1e6:10.1f} M {count / 1e6:10.1f} M {100 * change:+7.1f} %"
              + ("   changed" if abs(change) > 0.05 else ""))
        grew = grew or change > 0.05
    return 1 if grew else 0


sys.exit(main())
