"""Answers questions on a terminal as a person does: mistypes, rubs out, completes with Tab.

Argument: the skeinfall program.
"""

import os
import pathlib
import pty
import select
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
work = pathlib.Path(tempfile.mkdtemp(prefix="skeinfall-answers-"))
stash = work / "stash.skeinfall"


left, rub_out, home, end = "\x1b[D", "\x7f", "\x01", "\x04"


def run(arguments, answers, environment=None):
    """Types each answer when its question has come; gives all that was shown and the exit code."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.chdir(work)
        os.environ.update({"TERM": "xterm", "HOME": str(work), "SKEINFALL_STASH": str(stash),
                           "LC_ALL": "C.UTF-8"} | (environment or {}))
        os.execv(program, [str(program), *arguments])
    shown = ""
    waiting = list(answers)
    heard = 0
    while True:
        ready, _, _ = select.select([terminal], [], [], 60)
        if not ready:
            raise SystemExit(f"nothing more came after:\n{shown}")
        try:
            data = os.read(terminal, 4096)
        except OSError:
            data = b""
        if not data:
            break
        shown += data.decode(errors="replace")
        if waiting and waiting[0][0] in shown[heard:]:
            heard = len(shown)
            os.write(terminal, waiting.pop(0)[1].encode())
    _, status = os.waitpid(pid, 0)
    if waiting:
        raise SystemExit(f"never asked {waiting[0][0]!r}:\n{shown}")
    return shown, os.waitstatus_to_exitcode(status)


def check(what, held, shown):
    if not held:
        raise SystemExit(f"{what}:\n{shown}")

# Rubbed out, moved back, a letter of two bytes, a word completed.
shown, code = run(["stash", "add"], [
    ("Yarn", "Slöx" + rub_out + "e Aran\r"), ("Label", "70 yd / 100 g" + home + "1\r"),
    ("Weight class", "\r"), ("Fibre", "\r"), ("Colourway", "dsk" + left + left + "u\r"),
    ("Dye lot", "\r"), ("Whole or part", "wh\t\r"), ("What the scale shows", "\r"),
    ("How many", "2\r")])
check("two skeins were to be added", code == 0 and "added s1, s2" in shown, shown)
shown, code = run(["stash", "show", "s2"], [])
for held in ["Slöe Aran", "170 yd / 100 g", "dusk", "whole"]:
    check(f"{held} is not what was kept", held in shown, shown)

# Letters of a yarn of the stash completed; the end of the answers keeps what was said.
shown, code = run(["new", "scarf.toml"], [
    ("What are you making", "scarf: 33 hdc x 96 rows\r"), ("Your gauge", "\t\r"),
    ("Which hook", "\r"), ("weighed a swatch", "\r"), ("Which yarn", "sl\t\r"),
    ("Is it striped", "\r"), ("how much yarn", "stop\r")])
check("the yarn was not completed", "Slöe Aran" in shown, shown)
check("an ended interview keeps its answers", not (work / "scarf.toml").exists(), shown)
shown, code = run(["new", "scarf.toml"], [
    ("Enter to go on", "\r"), ("Which hook", "\r"), ("weighed a swatch", "\r"),
    ("Is it striped", "?\r"), ("Is it striped", "back\r"),
    ("you said: Slöe Aran; Enter keeps it", "\r"), ("Is it striped", end)])
check("what ? explains", "repeated to the end" in shown, shown)
check("the end of the answers is no mistake", code == 1 and "is kept" in shown, shown)
shown, code = run(["new", "scarf.toml"], [("Enter to go on", "\r"), ("Which hook", end)])
check("the answers are gone", "Slöe Aran" in shown and "14 sts and 10 rows" in shown, shown)

# The end of the answers typed ahead, before anything was asked, ends them all the same.
for ahead in (end, "\r" + end, "\r\r" + end):
    shown, code = run(["new", "scarf.toml"], [("anew", "\r" + ahead)])
    check("typed ahead", code == 1 and "is kept" in shown, shown)

# A terminal that cannot move its cursor is asked line by line.
shown, code = run(["stash", "add"], [
    ("Yarn", "Brook\r"), ("Label", "\r"), ("Weight class", "\r"), ("Fibre", "\r"),
    ("Colourway", "\r"), ("Dye lot", "\r"), ("Whole or part", "whole\r"),
    ("What the scale shows", "\r"), ("How many", "1\r")], {"TERM": "dumb"})
check("a plain terminal", code == 0, shown)
