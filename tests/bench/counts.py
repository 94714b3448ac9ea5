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
    "cover, twelve yarns": ["cover", "twelve.toml", "--stash", "s"],
    "cover --all, forty projects": ["cover", "--all", "makes", "--stash", "s"],
}
SKEINS = 2000


def counts(program, skeins=SKEINS):
    """Instructions of each command, by its name."""
    out = {}
    with tempfile.TemporaryDirectory() as folder:
        varied.write(os.path.join(folder, "in.csv"), skeins)
        varied.write_project(os.path.join(folder, "twelve.toml"), skeins, 12)
        os.mkdir(os.path.join(folder, "makes"))
        for number in range(40):
            varied.write_project(os.path.join(folder, "makes", f"{number}.toml"), skeins, 3, number)
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


def table(found):
    width = max(map(len, found))
    lines = [f"Instructions by callgrind on {SKEINS:,} skeins, in millions:", "",
             f"| {'command'.ljust(width)} | millions |", f"|{'-' * (width + 2)}|---------:|"]
    return "\n".join(lines + [f"| {name.ljust(width)} | {count / 1e6:8.1f} |"
                               for name, count in found.items()])


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--against")
    parser.add_argument("--skeins", type=int, default=SKEINS)
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


if __name__ == "__main__":
    sys.exit(main())
