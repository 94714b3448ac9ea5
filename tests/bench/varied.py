"""Stashes as people's are, for benchmarks and tests. Invented throughout, the same for one seed.

    varied.py COUNT [SEED] > stash.csv

Hundreds of yarns, each in several put-ups whose labels differ by a metre or by the unit they are
printed in; colours with and without a lot, lots as they are typed by tired people ("4411", "lot
4411", "Lot 44l1"); part skeins with their weighing; notes; names in Cyrillic, Greek, Japanese and
with accents. The number of yarns grows with the stash as a collector's does: a new one with every
eighth skein, up to a tenth of them bought only once.
"""
import csv
import random
import sys

COLUMNS = ["id", "yarn", "colourway", "dye_lot", "shade_group", "class", "fibre", "label_length",
           "label_mass", "state", "weighed", "scale", "tare", "knots", "note"]
FIRST = ["Fen", "Harbour", "Åker", "Овечка", "Μαλλί", "もこもこ", "Señora", "Brindle", "Quarry",
         "Lantern", "Tidal", "Maple", "Gräs", "Ручей", "Cobble", "Île", "Thistle", "Hollow",
         "Ewe & Co", "No. 7", "Pepper", "Dusk", "Łąka", "Sole", "Bramble"]
SECOND = ["DK", "Sock", "Fingering", "Aran", "Chunky", "Lace", "4 ply", "Tweed", "Cotton", "Silk",
          "шерсть", "糸", "Merino", "Worsted", "Bouclé", "Linen", "Roving", "Sport", "Cable", "Light"]
FIBRES = ["100% wool", "75% wool 25% nylon", "100% cotton", "50% wool 50% alpaca", "100% linen",
          "80% acrylic 20% wool", "70% merino 30% silk", ""]
COLOURS = ["Moss", "Teal", "Off white", "Rust", "Blå", "Синий", "Κόκκινο", "藍", "Natural", "Plum",
           "Storm", "Mustard", "Ash", "Rose", "12 Berry", "0417", "Old gold", "Indigo", "Sand", ""]
NOTES = ["", "", "", "", "", "from the attic box", "gift from Ana", "smells of cedar",
         "has a moth hole, 2 m cut off", "пахнет лавандой", "for the blanket?", "found under the sofa"]


def yarns_of(chance, count):
    """(name, class, fibre, grams, metres) of so many yarns."""
    out = []
    for number in range(count):
        name = f"{chance.choice(FIRST)} {chance.choice(SECOND)}"
        if number >= 120:
            name += f" {chance.choice('ABCDEFGH')}{number}"
        grams = chance.choice([25, 50, 50, 50, 100, 100, 100, 150, 200])
        per_gram = chance.choice([0.9, 1.6, 2.0, 2.1, 2.5, 3.0, 4.2, 7.8])
        weight = {0.9: 5, 1.6: 4, 2.0: 4, 2.1: 3, 2.5: 3, 3.0: 2, 4.2: 1, 7.8: 0}[per_gram]
        out.append((name, weight, chance.choice(FIBRES), grams, round(grams * per_gram)))
    return out


def misspelt(chance, lot):
    way = chance.randrange(12)
    return {0: f"lot {lot}", 1: f"Lot {lot}", 2: lot.replace("1", "l"), 3: f"{lot} ",
            4: lot.lower(), 5: f"#{lot}"}.get(way, lot)


def rows(count, seed=20261128):
    chance = random.Random(seed)
    yarns = yarns_of(chance, max(3, count // 8))
    for number in range(count):
        # Few yarns are loved, most are met once or twice.
        name, weight, fibre, grams, metres = yarns[int(len(yarns) * chance.random() ** 2)]
        length = metres + chance.choice([0, 0, 0, 0, 1, -1, 2])
        if chance.randrange(3) == 0:
            label = (f"{round(length / 0.9144)} yd", f"{grams} g")
        elif chance.randrange(9) == 0:
            label = (f"{round(length / 0.9144)} yards", f"{grams / 28.349523125:.2f} oz")
        else:
            label = (f"{length} m", f"{grams} g")
        colour = chance.choice(COLOURS)
        lot = misspelt(chance, f"{chance.choice('ABCD')}{chance.randrange(1, 400)}") \
            if chance.randrange(4) else ""
        part = chance.randrange(4) == 0
        weighed = part and chance.randrange(5) > 0
        tared = weighed and chance.randrange(8) == 0
        yield [f"v{number}", name, colour, lot,
               "shelf " + chance.choice("abc") if chance.randrange(30) == 0 else "",
               weight if chance.randrange(6) else "", fibre, *label,
               "part" if part else "whole",
               f"{chance.randrange(2, grams) + 25 * tared} g" if weighed else "",
               chance.choice(["1 g", "0.1 g"]) if weighed else "",
               "25 g" if tared else "",
               chance.randrange(3) if chance.randrange(20) == 0 else "", chance.choice(NOTES)]


def write_rows(path, what):
    with open(path, "w", encoding="utf-8", newline="") as out:
        table = csv.writer(out, lineterminator="\n")
        table.writerow(COLUMNS)
        table.writerows(what)


def write(path, count, seed=20261128):
    write_rows(path, rows(count, seed))


def write_project(path, count, yarns, seed=1, most=400):
    """So many yarns of the stash of that many skeins, some metres of each."""
    chance = random.Random(seed)
    of = list(rows(count)) if count <= 2000 else [row for row, _ in zip(rows(count), range(2000))]
    with open(path, "w", encoding="utf-8") as out:
        out.write(f'title = "Make {seed}"\ncraft = "crochet"\n\n[gauge]\nstitches = "14 per 10 cm"\n'
                  'rows = "10 per 10 cm"\nstitch = "sc"\n')
        for yarn in range(yarns):
            row = chance.choice(of)
            out.write(f'\n[yarn.C{yarn}]\nname = "{row[1]}"\ntotal = "{chance.randrange(20, most)} m"\n')
            if chance.randrange(2):
                out.write("one_lot = false\n")


if __name__ == "__main__":
    write("/dev/stdout", int(sys.argv[1]), *map(int, sys.argv[2:3]))
