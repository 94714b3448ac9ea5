"""Completes command lines in a real shell on a terminal of its own, as a maker would with Tab.

Arguments: the shell (bash, zsh or fish) and the skeinfall program. Each case is what is typed,
<Tab> among it, and the words that the program would then get; the typed line is turned into
"print_words LINE" before Enter, so that the shell itself says what its words are.
"""

import os
import pathlib
import pty
import select
import shutil
import subprocess
import sys
import tempfile
import time

shell, program = sys.argv[1], pathlib.Path(sys.argv[2]).resolve()
work = pathlib.Path(tempfile.mkdtemp(prefix="skeinfall-complete-"))

CASES = [
    ("skeinfall cov\t", "skeinfall|cover"),
    ("skeinfall sta\twei\t", "skeinfall|stash|weigh"),
    ("skeinfall stash weigh on\t", "skeinfall|stash|weigh|onlyone"),
    ("skeinfall stash weigh onlyone on\t", "skeinfall|stash|weigh|onlyone|on"),
    ("skeinfall stash weigh --scale on\t", "skeinfall|stash|weigh|--scale|on"),
    ("skeinfall stash weigh --scale 1g on\t", "skeinfall|stash|weigh|--scale|1g|onlyone"),
    ("skeinfall cover --conf\t", "skeinfall|cover|--confidence"),
    ("skeinfall cover --format j\t", "skeinfall|cover|--format|json"),
    ("skeinfall cover --format=j\t", "skeinfall|cover|--format=json"),
    ("skeinfall cover --confidence 9\t", "skeinfall|cover|--confidence|9"),
    ("skeinfall materials --format m\t", "skeinfall|materials|--format|markdown"),
    ("skeinfall cover la\t", "skeinfall|cover|lamp.toml"),
    ("skeinfall buy lamp.toml oth\t", "skeinfall|buy|lamp.toml|other.toml"),
    ("skeinfall cover --stash lamp.sk\t", "skeinfall|cover|--stash|lamp.skeinfall"),
    ("skeinfall stash import lamp.c\t", "skeinfall|stash|import|lamp.csv"),
    ("skeinfall convert --terms U\tK", "skeinfall|convert|--terms|UK"),
    ("skeinfall substitute --for k\t", "skeinfall|substitute|--for|kitchen heat"),
    ("skeinfall stash list --so\tlen\t", "skeinfall|stash|list|--sort|length"),
    ("skeinfall completion z\t", "skeinfall|completion|zsh"),
    ("skeinfall help subst\t", "skeinfall|help|substitute"),
    ("skeinfall --vers\t", "skeinfall|--version"),
    ("skeinfall cover --nosuch\t", "skeinfall|cover|--nosuch"),
    ("skeinfall nosuch la\t", "skeinfall|nosuch|la"),
]

SET_UP = {
    # What is typed into the shell before the cases.
    "bash": "PS1='> '; print_words() { local IFS='|'; echo \"$*\" >> words; }; "
            "source <(skeinfall completion bash)",
    "zsh": "PS1='> '; print_words() { local IFS='|'; echo \"$*\" >> words; }; "
           "autoload -Uz compinit; compinit -u -d dump; source <(skeinfall completion zsh)",
    "fish": "function fish_prompt; echo '> '; end; "
            "function print_words; string join '|' -- $argv >> words; end; "
            "skeinfall completion fish | source",
}
START = {"bash": ["bash", "--norc", "--noprofile", "-i"], "zsh": ["zsh", "-f", "-i"],
         "fish": ["fish", "--no-config", "-i"]}


def lines():
    path = work / "words"
    return path.read_text().splitlines() if path.exists() else []


def main():
    for name in ("lamp.toml", "other.toml", "lamp.csv", "lamp.skeinfall"):
        (work / name).touch()
    folder = work / "bin"
    folder.mkdir()
    (folder / "skeinfall").symlink_to(program)
    world = {"PATH": f"{folder}:{os.environ['PATH']}", "HOME": str(work), "TERM": "dumb",
             "LC_ALL": "C.UTF-8", "SKEINFALL_STASH": str(work / "mine")}
    subprocess.run(["skeinfall", "stash", "add", "--yarn", "Sedge", "--label", "100 m / 50 g",
                    "--id", "onlyone"], env=world, check=True, stdout=subprocess.DEVNULL)

    child, terminal = pty.fork()
    if child == 0:
        os.chdir(work)
        os.execvpe(START[shell][0], START[shell], world)
    shown = b""

    def read_for(seconds, until):
        nonlocal shown
        end = time.monotonic() + seconds
        while time.monotonic() < end and not until():
            if select.select([terminal], [], [], 0.05)[0]:
                try:
                    shown += os.read(terminal, 65536)
                except OSError:
                    return

    def enter(text):
        before = len(lines())
        os.write(terminal, text.encode() + b"\x01print_words \r")
        read_for(30, lambda: len(lines()) > before)
        after = lines()
        if len(after) <= before:
            raise SystemExit(f"{shell} did not answer to {text!r}; it showed:\n"
                             + shown.decode(errors="replace")[-2000:])
        return after[before]

    read_for(30, lambda: bool(shown))
    os.write(terminal, SET_UP[shell].encode() + b"\r")
    enter("ready")
    wrong = 0
    for typed, wanted in CASES:
        # On a busy machine a shell may lose what is typed ahead while it completes. What it
        # completes wrongly it completes wrongly again.
        for _ in range(3):
            got = enter(typed)
            # An option's value may come as a word of its own or after "=".
            right = got.replace("=", "|") == wanted.replace("=", "|")
            if right:
                break
        if not right:
            wrong += 1
            print(f"{shell}: {typed!r} became {got!r} instead of {wanted!r}")
    os.write(terminal, b"exit\r")
    os.close(terminal)
    os.waitpid(child, 0)
    shutil.rmtree(work)
    print(f"{shell}: {len(CASES) - wrong} of {len(CASES)} command lines completed as they should")
    return 1 if wrong else 0


sys.exit(main())
