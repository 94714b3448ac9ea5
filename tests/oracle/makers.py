"""Simulates makers: how often does yarn last that was said to last so surely?

Usage: makers.py PROGRAM [--seed N] [--makes N] [--worlds N] [--wide] [--sure N] [--jobs N]
                 [--all-every N] [--near] [--between LOW:HIGH] [--check] [--goals]
Each make is a panel of double crochet from equal skeins of the swatch's own yarn, some with hardly
enough. The program sees what a maker sees: a swatch of 28 stitches by 20 rows and its weight,
labels and counts. Then worlds are drawn from the spreads that the program states (README, "What it
assumes"), and every row is worked: a row that its skein does not finish is taken back and begun
with the next skein. A second maker goes by the slip: after each row for which it has a weight the
skein is laid on a scale, and left where it shows less. Nothing of the library is used. With --wide
a skein holds 4 to 12 rows.

Prints promised against held: the chance of cover, of joins and of the largest size, by bins of what
was promised; the rows that skeins safely reach; what a need is said to stay within; what progress
says half-way; makers by the slip who run out inside a row; and how often the length left of a yarn
without a label lies in the band that identify gives. "set aside": cover where one skein is promised
to another make; "in work": cover of the rest, asked with readings of the work in the stash.

--check: exit code 1 where one statement misses by more than chance does once in a thousand.
--goals: exit code 1 where a goal of tests/oracle/RESULTS.md is missed.
--sure N: besides, for the first N makes called sure, 2 000 worlds each.
--all-every N: need, largest and progress are asked of every so many makes alone.
--near: makes of about as many skeins as just suffice, which are promised 80 to 100 %.
--between LOW:HIGH: only makes to whose joins the program gives a chance between so many per cent;
others are drawn again before anything of them is worked.
--jobs N: so many at a time; the answer is the same.
"""

import argparse
import concurrent.futures
import functools
import json
import math
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import numpy

ROW, DRIFT, STEP = 0.03, 0.03, 0.1       # relative spreads of rows and of drift; the scale's step
SKEIN_M, SKEIN_G, TOLERANCE_G = 100.0, 50.0, 4.5
OWN = TOLERANCE_G / 2.0537 / SKEIN_G     # 98 % of skeins lie above the tolerable deficiency
SWATCH_STITCHES, SWATCH_ROWS, FOUNDATION = 28, 20, 0.48
LABEL = 0.035                            # a label's length per mass lies within this
SURE = 1.645                             # deviations of 95 %
TAIL = 0.15                              # one end, in metres; every skein has two
GRIST = SKEIN_M / SKEIN_G
KITCHEN = 1.0                            # step of the scale beside the work, in grams
BINS = [(0, 50), (50, 80), (80, 90), (90, 95), (95, 98), (98, 100)]
TAPE, UNEVEN, AIR = 0.01, 0.02, 0.015    # a sample: its tape's half width, its yarn, its day
TWO_SIDED = 1.96                         # deviations of 19 in 20
JOINS = 6                                # whose safe rows are looked at
ONCE_IN_A_THOUSAND = 3.09                # of a normal law, one side

PROJECT = """title = "Panel"
[gauge]
stitches = "13 per 10 cm"
rows = "8 per 10 cm"
stitch = "dc"
[yarn.MC]
name = "Panel yarn"
fibre = "100% polyester"
grist = "100 m / 50 g"
[[swatch]]
stitches = {stitches}
rows = {rows}
mass = "{mass:.1f} g"
scale = "{step} g"
[[piece]]
name = "panel"
stitches = {wide}
rows = {high}
"""
LABELS = "id,yarn,fibre,label length,label mass,dye lot\n"
SKEIN = "b{},Panel yarn,100% polyester,100 m,50 g,1\n"


def ask(program, stash, *words):
    """An answer in JSON; exit codes 0 and 1 are answers."""
    done = subprocess.run([program, *words, "--format", "json"], capture_output=True, text=True,
                          env={**os.environ, "SKEINFALL_STASH": str(stash)}, check=False)
    if done.returncode > 1:
        sys.exit(f"{' '.join(map(str, words))}: {done.stderr}")
    return json.loads(done.stdout)


class Make:
    """What the maker sees of one panel."""

    def __init__(self, pick, wide, near=False):
        self.mass = round(pick.uniform(17.0, 28.0), 1)
        per_stitch = self.mass * GRIST / (SWATCH_STITCHES * SWATCH_ROWS)
        usable = SKEIN_M - 2 * TAIL
        rows_a_skein = pick.uniform(4.0, 12.0) if wide else pick.uniform(4.0, 40.0)
        self.stitches = max(5, round(usable / rows_a_skein / per_stitch))
        self.row = self.stitches * per_stitch
        self.skeins = int(pick.integers(2, 13))
        # From a little short to two skeins to spare, or about as many as just suffice.
        held = self.skeins - (pick.uniform(-0.1, 2.0) if not near else
                              0.02 * self.skeins + pick.uniform(0.0, 0.14) * self.skeins +
                              pick.uniform(0.0, 0.5) / rows_a_skein * self.skeins)
        self.rows = max(2, round(held * usable / self.row - FOUNDATION))

    def text(self):
        """The project file."""
        return PROJECT.format(stitches=SWATCH_STITCHES, rows=SWATCH_ROWS, mass=self.mass,
                              step=STEP, wide=self.stitches, high=self.rows)

    def common(self, pick, worlds):
        """What the hands take beyond the swatch's figure, given what the swatch showed."""
        swatch = math.hypot(ROW / math.sqrt(SWATCH_ROWS), STEP / math.sqrt(12) / self.mass)
        return (1 + DRIFT * pick.standard_normal(worlds)) * (
            1 + swatch * pick.standard_normal(worlds))

    def takes(self, pick, worlds, rows):
        """Yarn of the foundation and of every row, a world a line."""
        shares = numpy.ones(rows + 1)
        shares[0] = FOUNDATION
        rows_apart = 1 + ROW * pick.standard_normal((worlds, rows + 1))
        return self.row * shares * self.common(pick, worlds)[:, None] * rows_apart

    @staticmethod
    def lengths(pick, worlds, skeins):
        """What skeins hold, ends included."""
        return SKEIN_M * (1 + OWN * pick.standard_normal((worlds, skeins)))


def worked(takes, lengths):
    """How many steps each skein leaves done, a world a line: rows that do not fit are taken back."""
    worlds, steps = takes.shape
    skeins = lengths.shape[1]
    done = numpy.zeros((worlds, skeins), dtype=int)
    at = numpy.zeros(worlds, dtype=int)
    left = lengths[:, 0] - 2 * TAIL
    everyone = numpy.arange(worlds)
    for step in range(steps):
        while True:
            over = (at < skeins) & (left < takes[:, step])
            if not over.any():
                break
            done[everyone[over], at[over]] = step
            at[over] += 1
            again = over & (at < skeins)
            left[again] = lengths[everyone[again], at[again]] - 2 * TAIL
        left -= takes[:, step]
        if (at >= skeins).all():
            break
    for world in range(worlds):
        done[world, at[world]:] = steps
    return done


def by_slip(takes, lengths, weights):
    """Whether the make lasts, and whether a skein ran out inside a row that the slip had not
    forbidden, by its weights: those after each number of steps done, a dictionary a skein. From the
    last skein all is worked that it gives, for there is none to join."""
    steps = len(takes)
    skein, left, inside = 0, lengths[0] - 2 * TAIL, False
    for step in range(steps):
        while True:
            least = weights[skein].get(step) if skein < len(weights) else None
            shown = round((left + TAIL) / GRIST / KITCHEN) * KITCHEN
            stops = least is not None and shown < least
            if left >= takes[step] and (not stops or skein + 1 == len(lengths)):
                break
            inside = inside or not stops
            skein += 1
            if skein == len(lengths):
                return False, inside
            left = lengths[skein] - 2 * TAIL
        left -= takes[step]
    return True, inside


def slip_of(role):
    """The slip's weights for one more row, a dictionary by steps done for each skein."""
    weights = []
    for stretch in role["stretches"] + role["spares"]:
        lines = {}
        for stop in role["stops"]:
            if stop["skein"] == stretch["skein"]:
                for steps in range(stop["steps_done"], stop["until_steps_done"] + 1):
                    lines[steps] = stop["next_g"]
        weights.append(lines)
    return weights


class Tally:
    """Promises, each with how often it was kept."""

    def __init__(self):
        self.chances = {"cover": [], "joins": [], "largest": [], "slip": [], "set aside": [],
                        "in work": []}
        self.safe = [[] for _ in range(JOINS)]
        self.inside = []
        self.needs = []
        self.identified = []
        self.progress = {"it lasts": [], "certain row": [], "join not before": []}
        self.sure = []

    def add(self, other):
        """Takes over what another one holds."""
        for mine, theirs in ((self.chances, other.chances), (self.progress, other.progress)):
            for name, values in theirs.items():
                mine[name].extend(values)
        for mine, theirs in zip(self.safe, other.safe):
            mine.extend(theirs)
        self.inside.extend(other.inside)
        self.needs.extend(other.needs)
        self.identified.extend(other.identified)
        self.sure.extend(other.sure)


def stashes(program, folder):
    """A stash file for every number of skeins."""
    out = {}
    for skeins in range(2, 13):
        sheet, stash = folder / f"{skeins}.csv", folder / f"{skeins}.skeinfall"
        sheet.write_text(LABELS + "".join(SKEIN.format(i + 1) for i in range(skeins)),
                         encoding="utf-8")
        subprocess.run([program, "stash", "import", str(sheet), "--stash", str(stash)], check=True,
                       capture_output=True)
        out[skeins] = stash
    return out


def look_at(number, folder, stash_of, given):
    """Asks the program of one make, and works it in so many worlds."""
    program, tally = given.program, Tally()
    pick = numpy.random.default_rng([given.seed, number])
    project = folder / f"p{number}.toml"
    while True:
        make = Make(pick, given.wide, given.near)
        stash = stash_of[make.skeins]
        project.write_text(make.text(), encoding="utf-8")
        joins = ask(program, stash, "joins", project)
        if given.between[0] <= 100 * joins["chance"] <= given.between[1]:
            break
    role = joins["roles"][0]
    takes = make.takes(pick, given.worlds, make.rows)
    lengths = make.lengths(pick, given.worlds, make.skeins)
    chosen = len(role["stretches"]) + len(role["spares"])
    done = worked(takes, lengths[:, :chosen])

    def kept(name, promised, held):
        tally.chances[name].append((100 * promised, 100 * float(held)))

    kept("joins", joins["chance"], (done[:, -1] > make.rows).mean())
    for at, stretch in enumerate(role["stretches"][:JOINS]):
        if at + 1 < chosen:
            tally.safe[at].append(100 * float(
                (done[:, at] >= stretch["earliest"]["steps_done"]).mean()))
    weights = slip_of(role)
    slips = [by_slip(takes[world], lengths[world, :chosen], weights)
             for world in range(min(given.worlds, 40))]
    kept("slip", joins["chance_by_slip"], numpy.mean([lasts for lasts, _ in slips]))
    tally.inside.append(100 * float(numpy.mean([inside for _, inside in slips])))
    if number % given.all_every == 0:
        cover = ask(program, stash, "cover", project)
        taken = len(cover["roles"][0]["skeins"])
        kept("cover", cover["chance"],
             (worked(takes, lengths[:, :taken])[:, -1] > make.rows).mean())
        need = ask(program, stash, "need", project)["roles"][0]
        label = 1 + LABEL * pick.uniform(-1, 1, given.worlds)
        sure = need["need_m"] + SURE * need["spread_m"]
        tally.needs.append(100 * float((takes.sum(axis=1) * label <= sure).mean()))
        largest(program, make, project, stash, pick, given, tally)
        half_way(program, make, project, stash, takes[0], lengths[0], tally)
        with_set_aside(program, make, project, stash, takes, lengths, tally)
        order = [int(one["skein"][1:]) - 1 for one in role["stretches"] + role["spares"]]
        in_work(program, make, project, stash, takes[0], lengths[0], order, pick, tally)
        identified(program, stash, pick, given, tally)
        if number < given.sure_among and cover["chance"] >= 0.95:
            many = worked(make.takes(pick, 2000, make.rows), make.lengths(pick, 2000, taken))
            tally.sure.append(100 * float((many[:, -1] > make.rows).mean()))
    project.unlink()
    return tally


def largest(program, make, project, stash, pick, given, tally):
    """The most rows that are sure, worked with all skeins."""
    sure = ask(program, stash, "largest", project)["sure"]
    if sure is None:
        return
    done = worked(make.takes(pick, given.worlds, sure["value"]),
                  make.lengths(pick, given.worlds, make.skeins))
    tally.chances["largest"].append(
        (100 * sure["chance"], 100 * float((done[:, -1] > sure["value"]).mean())))


def half_way(program, make, project, stash, takes, lengths, tally):
    """One world, weighed at the start of its last skein and half-way through what it does."""
    done = worked(takes[None, :], lengths[None, :])[0]
    begun = 0 if make.skeins == 1 else int(done[-2])
    whole = int(done[-1]) - begun
    if begun < 1 or whole < 4:
        return
    steps = begun + whole // 2
    used = takes[begun:steps].sum()

    def shown(length):
        return round(length / GRIST / KITCHEN) * KITCHEN

    before, now = shown(lengths[-1] - TAIL), shown(lengths[-1] - TAIL - used)
    if now <= 0:
        return
    skein = f"b{make.skeins}"
    told = ask(program, stash, "progress", project, "--no-record", "--reading",
               f"row {begun - 1}: {before} g of {skein}", "--row", str(steps - 1), "--mass",
               f"{now} g", "--skein", skein)
    left = lengths[-1] - 2 * TAIL - used
    rest = numpy.cumsum(takes[steps:])
    fits = steps + int((rest <= left).sum())
    tally.progress["it lasts"].append((100 * told["chance"], 100.0 * (fits > make.rows)))
    tally.progress["certain row"].append(100.0 * (fits >= told["certain"]["steps_done"]))
    tally.progress["join not before"].append(
        100.0 * (fits >= told["next_join"]["certain"]["steps_done"]))


def copied(stash, name):
    """A stash file of its own, to be written to."""
    own = stash.with_name(name + stash.name)
    shutil.copy(stash, own)
    return own


def told(program, stash, *words):
    """Writes to a stash."""
    done = subprocess.run([program, *map(str, words), "--stash", str(stash)], capture_output=True,
                          text=True, check=False)
    if done.returncode > 1:
        sys.exit(f"{' '.join(map(str, words))}: {done.stderr}")


def with_set_aside(program, make, project, stash, takes, lengths, tally):
    """One skein is promised to another make: what is left has to do."""
    own = copied(stash, f"aside{project.stem}-")
    other = project.with_name("other" + project.name)
    other.write_text(make.text().replace('"Panel"', '"Other make"'), encoding="utf-8")
    told(program, own, "stash", "set-aside", other, "--skein", "b1")
    cover = ask(program, own, "cover", project)
    own.unlink()
    other.unlink()
    if "b1" in cover["roles"][0]["chosen"]:
        sys.exit("a skein that is set aside was chosen")
    done = worked(takes, lengths[:, 1:make.skeins])
    tally.chances["set aside"].append(
        (100 * cover["chance"], 100 * float((done[:, -1] > make.rows).mean())))


def in_work(program, make, project, stash, takes, lengths, order, pick, tally):
    """One world, half-way through what one of its skeins does: a reading of each skein after its
    first row and one now are in the stash, and cover is asked for the rest."""
    done = worked(takes[None, :], lengths[order][None, :])[0]
    begins = [0] + [int(steps) for steps in done[:-1]]
    hand = int(pick.integers(0, len(order)))
    if int(done[hand]) - begins[hand] < 6:
        return
    steps = (begins[hand] + int(done[hand])) // 2

    def shown(skein, first, last):
        return round((lengths[skein] - TAIL - takes[first:last].sum()) / GRIST / STEP) * STEP

    words = []
    for at in range(hand + 1):
        if int(done[at]) - begins[at] < 3:
            return
        mass = shown(order[at], begins[at], begins[at] + 2)
        words += ["--reading", f"row {begins[at] + 1}: {mass:.1f} g of b{order[at] + 1}"]
    own = copied(stash, f"work{project.stem}-")
    told(program, own, "progress", project, *words, "--row", steps - 1, "--mass",
         f"{shown(order[hand], begins[hand], steps):.1f} g", "--skein", f"b{order[hand] + 1}",
         "--scale", f"{STEP} g")
    role = ask(program, own, "cover", project)["roles"][0]
    own.unlink()
    rest = [int(name[1:]) - 1 for name in role["chosen"] if name != f"b{order[hand] + 1}"]
    left = lengths[order[hand]] - takes[begins[hand]:steps].sum()
    held = worked(takes[None, steps:], numpy.concatenate([[left], lengths[rest]])[None, :])
    tally.chances["in work"].append(
        (100 * role["chance"], 100.0 * float(held[0, -1] == len(takes) - steps)))


def identified(program, stash, pick, given, tally):
    """A yarn without a label: a sample is measured and weighed, and the rest weighed."""
    grist = pick.uniform(0.8, 5.0)                       # metres a gram
    step = float(pick.choice([0.1, 1.0]))
    sample_g, rest_g = pick.uniform(21, 60) * step, pick.uniform(30, 300)
    shown = max(round(sample_g / step), 20) * step
    length, have = grist * shown, round(rest_g / step) * step
    told = ask(program, stash, "identify", "--length", f"{length:.3f} m", "--mass",
               f"{shown:.1f} g", "--scale", f"{step} g", "--have", f"{have:.1f} g")
    draw = pick.standard_normal
    # The true masses lie anywhere within the step that was read, the true length near the tape's.
    sample = shown + step * pick.uniform(-0.5, 0.5, given.worlds)
    rest = have + step * pick.uniform(-0.5, 0.5, given.worlds)
    of_sample = length * (1 + TAPE * pick.uniform(-1, 1, given.worlds)) / sample
    left = rest * of_sample * (1 + UNEVEN * draw(given.worlds)) * (1 + AIR * draw(given.worlds))
    inside = numpy.abs(left - told["left_m"]) <= TWO_SIDED * told["left_spread_m"]
    tally.identified.append(100 * float(inside.mean()))


def row(name, promised, values, mean, held, error):
    """A line of the table."""
    print(f"{name:22}{promised:>14}{values:7}{mean:8.2f}{held:8.2f}{held - mean:8.2f}{error:8.2f}")


def error_of(values):
    """The standard error of a mean."""
    return float(numpy.std(values, ddof=1) / math.sqrt(len(values)))


def misses(off, error, tolerance, given):
    """Whether a statement holds too little."""
    if given.check:
        return off < -ONCE_IN_A_THOUSAND * max(error, 1e-9) - 0.3
    return off < -tolerance - 2 * error


def binned(name, pairs, tolerance, given, bins=None):
    """Prints a statement by bins of what was promised; the bins that hold too little."""
    bad = 0
    for low, high in bins or BINS:
        inside = [(p, h) for p, h in pairs if low <= p < high or p == high == 100]
        if len(inside) < 2:
            continue
        promised = float(numpy.mean([p for p, _ in inside]))
        held = float(numpy.mean([h for _, h in inside]))
        # Of 0 and 1 alone the spread of few is no measure; the promise's own law is.
        own = math.sqrt(max(0.0, promised * (100 - promised)) / len(inside))
        error = max(error_of([h - p for p, h in inside]),
                    own if all(h in (0.0, 100.0) for _, h in inside) else 0.0)
        row(name, f"{low} to {high} %", len(inside), promised, held, error)
        if low >= 90 and misses(held - promised, error, tolerance, given):
            bad += 1
    return bad


def stated(name, values, least, tolerance, given):
    """Prints a statement that is to hold in so many of a hundred."""
    if len(values) < 2:
        return 0
    held = float(numpy.mean(values))
    own = math.sqrt(least * (100 - least) / len(values))
    error = max(error_of(values), own if all(v in (0.0, 100.0) for v in values) else 0.0)
    row(name, f"{least} %", len(values), least, held, error)
    return 1 if misses(held - least, error, tolerance, given) else 0


def table(tally, given):
    """Prints all of it; how many statements missed."""
    print(f"{'':22}{'promised':>14}{'makes':>7}{'mean':>8}{'held':>8}{'off':>8}{'error':>8}")
    bad = 0
    for name, pairs in tally.chances.items():
        bad += binned(name, pairs, 1.0, given)
    for at, values in enumerate(tally.safe):
        bad += stated(f"safe row, skein {at + 1}", values, 95, 1.0, given)
    bad += stated("need, 95 % sure", tally.needs, 95, 1.5, given)
    bad += binned("progress, it lasts", tally.progress["it lasts"], 1.5, given)
    for name in ("certain row", "join not before"):
        bad += stated("progress, " + name, tally.progress[name], 95, 1.5, given)
    bad += stated("identify, 19 in 20", tally.identified, 95, 1.5, given)
    inside = float(numpy.mean(tally.inside))
    error = error_of(tally.inside)
    row("slip: out inside a row", "under 1 %", len(tally.inside), 1.0, inside, error)
    if inside - (ONCE_IN_A_THOUSAND if given.check else 0.0) * error > 1.0:
        bad += 1
    if tally.sure:
        print(f"{len(tally.sure)} makes called sure, 2 000 worlds each: the least held "
              f"{min(tally.sure):.1f} %, the mean {numpy.mean(tally.sure):.1f} %")
        bad += min(tally.sure) < 92.0
    return bad


def main():
    """Runs the makes and prints the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--seed", type=int, default=20260)
    parser.add_argument("--makes", type=int, default=100)
    parser.add_argument("--worlds", type=int, default=300)
    parser.add_argument("--wide", action="store_true")
    parser.add_argument("--near", action="store_true")
    parser.add_argument("--between", default=(0.0, 100.0),
                        type=lambda text: tuple(float(end) for end in text.split(":")))
    parser.add_argument("--sure", type=int, default=0)
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--all-every", type=int, default=1)
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--goals", action="store_true")
    given = parser.parse_args()
    # About a third of the makes are called sure.
    given.sure_among = 3 * given.sure * given.all_every
    tally = Tally()
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        stash_of = stashes(given.program, folder)
        one_make = functools.partial(look_at, folder=folder, stash_of=stash_of, given=given)
        with concurrent.futures.ProcessPoolExecutor(given.jobs) as pool:
            for one in pool.map(one_make, range(given.makes), chunksize=8):
                tally.add(one)
    low, high = given.between
    print(f"seed {given.seed}, {given.makes} makes, {given.worlds} worlds each"
          f"{', wide rows' if given.wide else ''}"
          f"{f', promised {low:g} to {high:g} %' if (low, high) != (0, 100) else ''}")
    bad = table(tally, given)
    if bad:
        print(f"{bad} statements hold less than was promised")
    return 1 if bad and (given.check or given.goals) else 0


if __name__ == "__main__":
    sys.exit(main())
