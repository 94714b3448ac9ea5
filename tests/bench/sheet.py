"""Need and joins as a maker's spreadsheet has them: the peer of `skeinfall need` and `skeinfall joins`.

    sheet.py PROJECT.toml             the yarn of each row, added up
    sheet.py PROJECT.toml SKEINS LENGTH   and in which row each of SKEINS of LENGTH metres ends

Reads a project of one yarn with a grist in metres per 100 g, a weighed swatch and pieces with
stitches, rows, increase and every. No bands, no tails' worth, no units but those.
"""

import sys
import tomllib


def main():
    with open(sys.argv[1], "rb") as file:
        project = tomllib.load(file)
    swatch = project["swatch"][0]
    yarn = project["yarn"][swatch["yarn"]]
    metres_per_gram = float(yarn["grist"].split()[0]) / 100.0
    stitch = (float(swatch["mass"].split()[0]) * metres_per_gram
              / (swatch["stitches"] * swatch["rows"]))
    rows = []
    for piece in project["piece"]:
        count = piece["stitches"]
        rows.append(("foundation", count * stitch * piece.get("foundation_rows", 1.0)))
        for number in range(1, piece["rows"] + 1):
            rows.append((f"row {number}", count * stitch))
            if "every" in piece and number % piece["every"] == 0:
                count += piece["increase"]
    print(f"{project['title']}: {sum(length for _, length in rows):.1f} m")
    if len(sys.argv) == 4:
        skeins, length = int(sys.argv[2]), float(sys.argv[3]) - 0.3
        skein, left, before = 1, length, ""
        for name, takes in rows:
            if takes > left:
                print(f"skein {skein} ends after {before}, {left:.1f} m left")
                skein, left = skein + 1, length
                if skein > skeins:
                    sys.exit("the yarn does not suffice")
            left -= takes
            before = name
        print(f"skein {skein} has {left:.1f} m left")


main()
