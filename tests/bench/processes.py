"""Whole runs of the program beside their peers: start-up and convert beside GNU units, cover beside
sqlite3 reading the same rows, need and joins beside sheet.py. Usage: processes.py SKEINFALL

Prints result lines as run.sh tells of them.
"""

import os
import pathlib
import random
import subprocess
import sys
import tempfile
import time

import varied

HERE = pathlib.Path(__file__).resolve().parent
PROGRAM = str(pathlib.Path(sys.argv[1]).resolve())
ROWS = "SELECT * FROM holding JOIN yarn ON yarn.number = holding.yarn"


def once(command):
    """Seconds of one run; exit code 1 is an answer, not a fault."""
    begin = time.perf_counter()
    code = subprocess.call(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    if code not in (0, 1):
        sys.exit(f"{command} failed with {code}")
    return time.perf_counter() - begin


def memory(command):
    """Peak MB. GNU time starts it: a child of this script would be charged for Python's own."""
    with tempfile.NamedTemporaryFile(mode="r", encoding="utf-8") as said:
        subprocess.call(["time", "--quiet", "--format=%M", "--output", said.name] + command,
                        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        return int(said.read()) / 1024


def best(command, runs):
    """The quickest of the runs, few when they are long, and peak MB."""
    least = once(command)
    for _ in range(runs if least < 1.0 else 2):
        least = min(least, once(command))
    return least, memory(command)


def compare(job, size, ours, peer, theirs, runs=20, goals="power 1.1"):
    seconds, megabytes = best(ours, runs)
    peer_seconds, peer_megabytes = best(theirs, runs)
    print("result", job, size, f"{seconds:.6f}", f"{megabytes:.1f}", peer, f"{peer_seconds:.6f}",
          f"{peer_megabytes:.1f}", goals, sep="\t", flush=True)


def alone(job, size, ours, goals):
    seconds, megabytes = best(ours, 5)
    print("result", job, size, f"{seconds:.6f}", f"{megabytes:.1f}", "-", "-", "-", goals, sep="\t",
          flush=True)


def start_up():
    compare("skeinfall --version", "-", [PROGRAM, "--version"], "units --version",
            ["units", "--version"], 200, "ratio 1.5")
    compare("skeinfall convert", "-", [PROGRAM, "convert", "6 oz", "--to", "g"],
            "units -t", ["units", "-t", "6 oz", "g"], 200, "ratio 1.5")


def make_stash(count):
    random.seed(20260201)
    yarns = count // 25
    length = [50 + 5 * random.randrange(70) for _ in range(yarns)]
    with open(f"stash{count}.csv", "w", encoding="utf-8") as out:
        out.write("id,yarn,colourway,dye_lot,fibre,label_length,label_mass,state,weighed,scale\n")
        for i in range(count):
            yarn, colour = random.randrange(yarns), random.randrange(3)
            part = random.randrange(4) == 0
            weighed = f"{random.randrange(5, 95)} g,1 g" if part else ","
            out.write(f"s{i},Yarn {yarn},colour {colour},{random.randrange(4)},100% wool,"
                      f"{length[yarn]} m,100 g,{'part' if part else 'whole'},{weighed}\n")


def make_project(name, count, least, most):
    """Twelve yarns of the stash of that many skeins, so many metres of each."""
    with open(name, "w", encoding="utf-8") as out:
        out.write('title = "Twelve colours"\ncraft = "crochet"\n\n[gauge]\n'
                  'stitches = "14 per 10 cm"\nrows = "10 per 10 cm"\nstitch = "sc"\n')
        for role in range(12):
            out.write(f'\n[yarn.C{role}]\nname = "Yarn {random.randrange(count // 25)}"\n'
                      f'colour = "colour {random.randrange(3)}"\n'
                      f'total = "{random.randrange(least, most)} m"\n')


def cover():
    for count in (2_000, 100_000):
        make_stash(count)
        make_project("enough.toml", count, 30, 45)
        subprocess.run([PROGRAM, "stash", "import", f"stash{count}.csv", "--stash", f"s{count}"],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        compare("cover: 12 yarns, so many skeins", count,
                [PROGRAM, "cover", "enough.toml", "--stash", f"s{count}"],
                "sqlite3 reads the rows", ["sqlite3", f"s{count}", ROWS],
                goals=f"ratio {1.5 if count == 100_000 else 2}; power 1.1; kB 2")
    make_project("short.toml", 2_000, 80, 700)
    compare("cover: 12 yarns, some of them short", 2_000,
            [PROGRAM, "cover", "short.toml", "--stash", "s2000"],
            "sqlite3 reads the rows", ["sqlite3", "s2000", ROWS], goals="ratio 2")


def ranking():
    """A thousand projects of a folder against a household's stash."""
    varied.write("varied.csv", 1_000)
    subprocess.run([PROGRAM, "stash", "import", "varied.csv", "--stash", "varied"], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    os.mkdir("makes")
    for number in range(1_000):
        varied.write_project(f"makes/{number}.toml", 1_000, 1 + number % 4, number)
    alone("cover --all, so many projects", 1_000,
          [PROGRAM, "cover", "--all", "makes", "--stash", "varied"], "seconds 2")


def page():
    """A page, a PDF and a picture of a blanket of ten thousand rows in stripes."""
    with open("blanket.toml", "w", encoding="utf-8") as out:
        out.write('title = "Long blanket"\ncraft = "crochet"\n[gauge]\n'
                  'stitches = "14 per 10 cm"\nrows = "10 per 10 cm"\nstitch = "sc"\n')
        for yarn in "AB":
            out.write(f'[yarn.{yarn}]\nname = "Yarn {yarn}"\ngrist = "200 m / 100 g"\n'
                      'rate = "0.03 m per stitch"\n')
        out.write('[[piece]]\nname = "blanket"\nstitches = 150\nrows = 10000\n'
                  'stripes = [{ yarn = "A", rows = 2 }, { yarn = "B", rows = 3 }]\n')
    alone("report: page, PDF and picture of so many rows", 10_000,
          [PROGRAM, "report", "blanket.toml", "--html", "page.html", "--pdf", "page.pdf",
           "--picture", "make.svg", "--replace", "--have", "A: 400 skeins of 200 m / 100 g",
           "--have", "B: 600 skeins of 200 m / 100 g"], "seconds 1; MB 500")


def shawl(rows):
    """A triangle that grows by two stitches every second row, and skeins that suffice for it."""
    path = f"shawl{rows}.toml"
    with open(path, "w", encoding="utf-8") as out:
        out.write('title = "Shawl"\ncraft = "knit"\n[gauge]\nstitches = "22 per 10 cm"\n'
                  'rows = "30 per 10 cm"\nstitch = "stockinette"\n[yarn.MC]\n'
                  'name = "Fine"\ngrist = "400 m / 100 g"\n[[swatch]]\nyarn = "MC"\n'
                  'stitches = 33\nrows = 45\nmass = "6.7 g"\nscale = "0.1 g"\n[[piece]]\n'
                  f'name = "shawl"\nyarn = "MC"\nstitches = 7\nrows = {rows}\n'
                  'increase = 2\nevery = 2\nfoundation_rows = 1.5\n')
    return path


def last_row(text):
    """The row after which the first skein ends: both programs tell it."""
    return next((int(line.split("row ")[1].split()[0].strip(",")) for line in text.splitlines()
                 if line.startswith("skein 1 ends after") or line.startswith("  1 to ")), None)


def output(command):
    return subprocess.run(command, check=False, capture_output=True, text=True).stdout


def sheet():
    for rows in (400, 4_000):
        project = shawl(rows)
        compare("need: a shawl of so many rows", rows, [PROGRAM, "need", project],
                "Python sheet", ["python3", str(HERE / "sheet.py"), project])
        length = 400 if rows == 400 else 15_000
        skeins = 20
        ours = [PROGRAM, "joins", project, "--skein", f"{skeins} x {length} m"]
        theirs = ["python3", str(HERE / "sheet.py"), project, str(skeins), str(length)]
        if last_row(output(ours)) is None or last_row(output(ours)) != last_row(output(theirs)):
            sys.exit(f"{ours} and sheet.py join the second skein at different rows")
        compare("joins: a shawl of so many rows", rows, ours, "Python sheet", theirs)


def main():
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        start_up()
        cover()
        ranking()
        page()
        sheet()


main()
