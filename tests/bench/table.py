"""Runs the benchmarks and prints their table; see run.sh. Usage: table.py BUILD [RESULTS.md]"""

import dataclasses
import datetime
import json
import math
import os
import pathlib
import platform
import subprocess
import sys
import tempfile

import counts

HERE = pathlib.Path(__file__).resolve().parent


@dataclasses.dataclass
class Result:
    job: str
    size: int | None
    seconds: float
    megabytes: float | None = None
    peer: str = ""
    peer_seconds: float | None = None
    peer_megabytes: float | None = None
    goals: dict[str, float] = dataclasses.field(default_factory=dict)


def number(text):
    return None if text == "-" else float(text)


def result_lines(text):
    """Results of the lines that begin with "result"; others are passed over."""
    out = []
    for line in text.splitlines():
        fields = line.split("\t")
        if fields[0] != "result":
            continue
        if len(fields) not in (8, 9):
            sys.exit(f"neither eight nor nine fields: {line!r}")
        size = number(fields[2])
        out.append(Result(fields[1], None if size is None else int(size), float(fields[3]),
                          number(fields[4]), "" if fields[5] == "-" else fields[5],
                          number(fields[6]), number(fields[7]),
                          goals_in(fields[8]) if len(fields) == 9 else {}))
    return out


def goals_in(text):
    return {name: float(most) for name, most in (goal.split() for goal in text.split(";"))}


def watched(command):
    """Output, exit code and peak megabytes of a run."""
    with tempfile.TemporaryFile() as out:
        child = subprocess.Popen(command, stdout=out, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        return out.read().decode(), child.returncode, used.ru_maxrss / 1024


def of_program(program):
    """Each case in a process of its own, so that peak memory is its own too."""
    name = program.name.removesuffix("_bench")
    print(f"# {program.name}", file=sys.stderr, flush=True)
    cases = subprocess.run([program, "--benchmark_list_tests"], check=True, capture_output=True,
                           text=True).stdout.split("\n")
    out = []
    for case in cases:
        if not case or case.endswith(("_BigO", "_RMS")):
            continue
        escaped = "".join("\\" + c if c in "()[]{}.*+?^$|\\" else c for c in case)
        text, code, megabytes = watched([program, f"--benchmark_filter=^{escaped}$",
                                         "--benchmark_format=json"])
        if code != 0:
            sys.exit(f"{program} {case} failed")
        rows = json.loads(text)["benchmarks"]
        row = next(r for r in rows if r.get("run_type", "iteration") == "iteration")
        if row.get("error_occurred"):
            sys.exit(f"{program} {case}: {row['error_message']}")
        parts = case.split("/")
        sizes = [int(part) for part in parts[1:] if part.isdigit()]
        unit = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}[row["time_unit"]]
        out.append(Result(f"{name}: {parts[0].replace('_', ' ')}", sizes[0] if sizes else None,
                          row["real_time"] * unit, megabytes))
    text, code, _ = watched([program, "--peers"])
    return out + (result_lines(text) if code == 0 else [])


def of_script(script, program):
    print(f"# {script.name}", file=sys.stderr, flush=True)
    done = subprocess.run([sys.executable, script, program], check=False, stdout=subprocess.PIPE,
                          text=True)
    if done.returncode != 0:
        sys.exit(f"{script} failed")
    return result_lines(done.stdout)


def time_text(seconds):
    if seconds is None:
        return ""
    for limit, factor, unit in ((1e-6, 1e9, "ns"), (1e-3, 1e6, "us"), (1.0, 1e3, "ms")):
        if seconds < limit:
            return f"{seconds * factor:.3g} {unit}"
    return f"{seconds:.3g} s"


def smaller(results, result):
    """The same job in the smaller sizes, the smallest first."""
    return sorted((r for r in results
                   if r.job == result.job and r.size and result.size and r.size < result.size),
                  key=lambda r: r.size)


def power(results, result):
    """Of the size that the time grows with, from the next smaller size; nothing for the smallest."""
    before = smaller(results, result)[-1:]
    return (math.log(result.seconds / before[0].seconds) / math.log(result.size / before[0].size)
            if before else None)


def growth(results, result):
    found = power(results, result)
    return "" if found is None else f"n^{found:.1f}"


def each_kb(results, result):
    """Memory for each of SIZE beyond the smallest size, in kB of 1000 bytes."""
    least = smaller(results, result)[:1]
    if not least or result.megabytes is None or least[0].megabytes is None:
        return None
    more = (result.megabytes - least[0].megabytes) * 2**20 / 1000
    return more / (result.size - least[0].size)


def falls_short(results):
    """A line for each goal that is not met."""
    out = []
    for one in results:
        found = {"ratio": one.seconds / one.peer_seconds if one.peer_seconds else None,
                 "power": power(results, one), "kB": each_kb(results, one),
                 "seconds": one.seconds, "MB": one.megabytes}
        for name, most in one.goals.items():
            if found[name] is not None and found[name] > most:
                size = "" if one.size is None else f", {one.size:,}"
                out.append(f"- {one.job}{size}: {name} {found[name]:.2f}, goal {most:g}")
    return out


def table(results):
    head = ["job", "size", "skeinfall", "MB", "growth", "peer", "its time", "its MB", "ratio"]
    rows = [[r.job, "" if r.size is None else f"{r.size:,}", time_text(r.seconds),
             "" if r.megabytes is None else f"{r.megabytes:.0f}", growth(results, r), r.peer,
             time_text(r.peer_seconds),
             "" if r.peer_megabytes is None else f"{r.peer_megabytes:.0f}",
             "" if not r.peer_seconds else f"{r.seconds / r.peer_seconds:.2g}"] for r in results]
    widths = [max(len(row[i]) for row in [head] + rows) for i in range(len(head))]
    left = {0, 5}

    def line(cells):
        return "| " + " | ".join(cell.ljust(width) if i in left else cell.rjust(width)
                                 for i, (cell, width) in enumerate(zip(cells, widths))) + " |"

    rule = "|" + "|".join("-" * (width + 2) if i in left else "-" * (width + 1) + ":"
                          for i, width in enumerate(widths)) + "|"
    return "\n".join([line(head), rule] + [line(row) for row in rows])


def machine():
    model = next((line.split(":", 1)[1].strip()
                  for line in pathlib.Path("/proc/cpuinfo").read_text().splitlines()
                  if line.startswith("model name")), platform.machine())
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    load = os.getloadavg()[0]
    return (f"{datetime.date.today().isoformat()}; {model}, {os.cpu_count()} cores, "
            f"{memory:.0f} GB; {platform.system()} {platform.release()}; load at the start "
            f"{load:.1f}")


def main():
    build = pathlib.Path(sys.argv[1]).resolve()
    program = build / "cli/skeinfall"
    only = os.environ.get("ONLY", "")
    where = machine()
    results = []
    for script in sorted(HERE.glob("*.py")):
        helpers = ("table.py", "sheet.py", "varied.py", "counts.py", "same.py")
        if script.name not in helpers and only in script.name:
            results += of_script(script, program)
    for source in sorted(HERE.glob("*_bench.cpp")):
        if only in source.name:
            results += of_program(build / "tests/bench" / source.stem)
    text = (f"{where}\n\nTime is the clock's for one job. Growth is the power of the size by which "
            f"the time grew from the\nnext smaller one. A ratio below 1 says skeinfall is the "
            f"quicker.\n\n{table(results)}\n")
    text += "\nWhat falls short of its goal:\n\n" + ("\n".join(falls_short(results)) or "nothing")
    if "counts" in only or not only:
        text += "\n\n" + counts.table(counts.counts(str(program))) + "\n"
    print(text)
    if len(sys.argv) == 3:
        pathlib.Path(sys.argv[2]).write_text("# Benchmarks\n\nKept by `bash tests/bench/run.sh "
                                             f"--keep`.\n\n{text}", encoding="utf-8")


main()
