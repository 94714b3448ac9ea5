"""The regression of yarn use, solved anew by numpy.

usage: yarn_use.py left_out_makes

Whole balls are checked apart: what stands for an interval has to leave the mean and the variance of
the rest's law cut off outside it, here by summing that law over a fine grid.

The program poses the regression (rows, what was seen, noise, what is believed before) and gives its
own solution by normal equations. Here the same law is solved by conditioning the joint normal law
of coefficients and observations, which shares no formula with it. Coefficients and covariance have
to agree to 1e-6.
"""

import json
import subprocess
import sys

import numpy

posed = json.loads(subprocess.run([sys.argv[1], "--posed"], check=True, capture_output=True).stdout)
rows, noise = numpy.array(posed["rows"]), numpy.array(posed["noise"])
seen, mean, spread = (numpy.array(posed[key]).ravel() for key in ("seen", "mean", "spread"))
before = numpy.diag(spread**2)
gain = before @ rows.T @ numpy.linalg.inv(rows @ before @ rows.T + noise)
coefficients = mean + gain @ (seen - rows @ mean)
covariance = before - gain @ rows @ before
off = max(abs(coefficients - numpy.array(posed["coefficients"]).ravel()).max(),
          abs(covariance - numpy.array(posed["covariance"])).max())
print(f"{rows.shape[0]} makes, {rows.shape[1]} coefficients, farthest apart {off:.1e}")
if rows.shape[0] < 100 or not off < 1e-6:
    sys.exit("the two solutions differ")

# All that was said, whole balls as the normal observations that stand for them.
least, most, own = (numpy.array(posed[key]).ravel() for key in ("least", "most", "of_interval"))
law = rows @ before @ rows.T + noise - numpy.diag(own)
whole = numpy.flatnonzero(own > 0)
every = numpy.linalg.inv(law + numpy.diag(own))
after = rows @ mean + law @ every @ (seen - rows @ mean)
left = numpy.diag(law - law @ every @ law)
worst = 0.0
for i in whole:
    variance = 1 / (1 / left[i] - 1 / own[i])
    centre = variance * (after[i] / left[i] - seen[i] / own[i])
    grid = numpy.linspace(least[i], most[i], 200001)
    weight = numpy.exp(-(grid - centre) ** 2 / (2 * variance))
    weight[[0, -1]] *= 0.5
    cut = (grid * weight).sum() / weight.sum()
    spread = ((grid - cut) ** 2 * weight).sum() / weight.sum()
    worst = max(worst, abs(cut - after[i]), abs(spread - left[i]))
print(f"{whole.size} makes of whole balls, farthest apart {worst:.1e}")
if whole.size < 10 or not worst < 1e-6:
    sys.exit("an interval does not count by its probability")
