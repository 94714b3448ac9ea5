#!/usr/bin/env bash
# Writes pages of the sample projects and of hard ones, then looks at them in Debian's Chromium.
# Usage: check.sh SKEINFALL SOURCE WORK (the program, the repository, a scratch folder).
set -euo pipefail
skeinfall=$(realpath "$1") source=$(realpath "$2") work=$(realpath -m "$3")

mkdir -p "$work"
cd "$work"
cp "$source"/tests/page/{package.json,package-lock.json,{page,answers,makers}_test.mjs} .
if ! cmp -s package-lock.json node_modules/.installed; then
  npm ci --no-audit --no-fund
  cp package-lock.json node_modules/.installed
fi

rm -rf pages
mkdir pages
export SKEINFALL_STASH=$work/pages/stash.skeinfall
projects=$source/sample_stash/projects
"$skeinfall" stash import "$source/sample_stash/stash.csv" >/dev/null

# A verdict that is not "covered" ends with 1: the page is written all the same.
page() { "$skeinfall" report "$2" --html "pages/$1.html" "${@:3}" >/dev/null || [ $? -eq 1 ]; }
page cowl "$projects/lantern-cowl.toml"
page blanket "$projects/threepenny-blanket.toml"
page mittens "$projects/ferryman-mittens.toml"
page shawl "$projects/tern-shawl.toml"
page fine "$projects/long-ferry-wrap.toml" --scale "0.1 oz" --tare "0.5 oz"
"$skeinfall" materials "$projects/wharfside-pullover.toml" --format html >pages/pullover.html

sed -e 's|^title = .*|title = "<b>\&amp;</b> \\"שמלה\\" 🧶 مرحبا <script>alert(1)</script>"|' \
  -e 's|^name = "cowl"|name = "גליל <i>x</i> 🧣"|' \
  "$projects/lantern-cowl.toml" >pages/hard.toml
page hard pages/hard.toml

sizes=$(seq -f '"size %g"' -s ', ' 1 40)
counts=$(seq -s ', ' 60 2 138)
sed -e "s|^craft = .*|&\nsizes = [$sizes]|" -e "s|^stitches = [0-9].*|stitches = [$counts]|" \
  "$source/tests/page/vest.toml" >pages/vest.toml
"$skeinfall" materials pages/vest.toml --format html >pages/sizes.html

sed -e 's|^rows = [0-9].*|rows = 10000|' "$source/tests/page/vest.toml" >pages/long.toml
page long pages/long.toml

sed -e '/^stitches = 60/d' -e 's|^rows = 60|rows = ["Ch 61.", "Row 1: sc in 2nd ch from hook and in each ch across. (60 sc)", "Row 2: ch 1, turn, *sc in next st, ch 1, skip next st; rep from * to last 2 sts, sc in last 2 sts.", "Rows 3-60: rep row 2."]|' \
  "$source/tests/page/vest.toml" >pages/written.toml
page written pages/written.toml

"$skeinfall" report "$projects/long-ferry-wrap.toml" --for-makers --html pages/offer-wrap.html >/dev/null
"$skeinfall" report "$projects/threepenny-blanket.toml" --for-makers --html pages/offer-blanket.html >/dev/null
"$skeinfall" report "$projects/wharfside-pullover.toml" --for-makers --html pages/offer-sizes.html >/dev/null
page stranded "$source/tests/page/stranded.toml" --have "oat: 2 balls of 200 yd / 100 g" --have "slate: 2 balls of 200 yd / 100 g"
page names "$source/tests/page/names.toml" --have "MC: 9 balls of 200 m / 100 g" --have "CC1: 4 balls of 180 m / 100 g" --have "CC2: 6 balls of 180 m / 100 g" --have "CC3: 4 balls of 180 m / 100 g"
"$skeinfall" report "$source/tests/page/names.toml" --for-makers --html pages/offer-names.html >/dev/null
sed -e 's|^rows = 60|rows = 40\ncount = 40|' -e '$a [[finish]]\nkind = "joining"\nyarn = "MC"\nof = "body"\ncolumns = 5' \
  "$source/tests/page/vest.toml" >pages/squares.toml
"$skeinfall" report pages/squares.toml --for-makers --html pages/offer-motifs.html >/dev/null

# More series by hand: SERIES=1000.
SKEINFALL=$skeinfall PROJECTS=$projects SOURCE=$source SERIES="${SERIES:-200}" \
  node --test --test-concurrency=2 page_test.mjs answers_test.mjs makers_test.mjs
