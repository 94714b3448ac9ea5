#!/usr/bin/env python3
"""Changes one token of a source at a time and counts which changes the tests notice. By hand.

    python3 tests/mutants/run.py --build build --seed 1 --count 60

Samples evenly over the rooms that decide what is enough. A change that does not compile is drawn
again. Survivors are printed with place, line and change. Files are put back, also after Ctrl-C.
"""

import argparse
import pathlib
import random
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
# The tests of a room, the nearest first; the program's own come last.
ROOMS = {
    "need": ["need_test", "cover_test", "joins_test"],
    "chain": ["chain_test", "joins_test", "cover_test"],
    "plan": ["plan_test", "cover_test", "joins_test"],
    "cover": ["cover_test"],
    "joins": ["joins_test"],
    "notation": ["notation_test", "need_test"],
    "fit": ["fit_test"],
    "colours": ["colours_test"],
}
LAST = ["materials_test", "report_test", "exchange_test", "cli_test"]
CHANGES = [
    (r" < ", " <= "), (r" <= ", " < "), (r" > ", " >= "), (r" >= ", " > "),
    (r" == ", " != "), (r" != ", " == "), (r" \+ ", " - "), (r" - ", " + "),
    (r" \* ", " / "), (r" / ", " * "), (r" && ", " || "), (r" \|\| ", " && "),
    (r" \+= ", " -= "), (r"\btrue\b", "false"), (r"\bfalse\b", "true"),
    (r"std::min\b", "std::max"), (r"std::max\b", "std::min"),
    (r"(?<![\w.])([2-9]|[1-9]\d+)(?![\w.'])", None), (r"(?<![\w.])0(?![\w.'])", "1"),
    (r"(?<![\w.])1(?![\w.'])", "0"),
]


def places(path):
    """Every change that could be made in a source: offset, end, new text."""
    text = path.read_text()
    # Comments, strings and directives are blanked out so that offsets stay.
    bare = re.sub(r'//[^\n]*|^\s*#[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])\'',
                  lambda m: " " * len(m.group()), text, flags=re.M)
    for pattern, to in CHANGES:
        for match in re.finditer(pattern, bare):
            new = to if to is not None else str(int(match.group()) + 1)
            yield match.start(), match.end(), new


def run(command, seconds):
    try:
        return subprocess.run(command, cwd=ROOT, stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL, timeout=seconds).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def noticed_by(room, build):
    """The first test program that fails, "" when none does, nothing when it does not compile."""
    if not run(["ninja", "-C", build, "skeinfall"], 900):
        return None
    for test in ROOMS[room] + LAST:
        if not (ROOT / build / "tests" / test).exists():
            continue
        if not run(["ninja", "-C", build, test, "skeinfall_program"], 900):
            return None
        if not run([f"{build}/tests/{test}", "--gtest_brief=1"], 600):
            return test
    return ""


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--build", default="build")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--count", type=int, default=60)
    options.add_argument("--rooms", nargs="*", help="only these")
    asked = options.parse_args()
    draw = random.Random(asked.seed)
    rooms = asked.rooms or [r for r in ROOMS if (ROOT / "lib/skeinfall" / r).is_dir()]
    sources = {room: sorted((ROOT / "lib/skeinfall" / room).rglob("*.cpp")) for room in rooms}
    tried = survived = 0
    print(f"seed {asked.seed}", flush=True)
    while tried < asked.count:
        room = rooms[tried % len(rooms)]
        found = [(path, *place) for path in sources[room] for place in places(path)]
        path, begin, end, new = draw.choice(found)
        text = path.read_text()
        line = text.count("\n", 0, begin) + 1
        try:
            path.write_text(text[:begin] + new + text[end:])
            by = noticed_by(room, asked.build)
        finally:
            path.write_text(text)
        if by is None:
            continue
        tried += 1
        survived += by == ""
        print(f"{tried:3} {'noticed by ' + by if by else 'SURVIVED'}: "
              f"{path.relative_to(ROOT)}:{line}: {text[begin:end].strip()!r} -> {new.strip()!r}: "
              f"{text.splitlines()[line - 1].strip()}", flush=True)
    print(f"{tried - survived} of {tried} noticed")
    return 0 if survived * 10 <= tried else 1


if __name__ == "__main__":
    sys.exit(main())
