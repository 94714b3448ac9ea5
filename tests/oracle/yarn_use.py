"""The regression of yarn use, solved anew by numpy.

usage: yarn_use.py left_out_makes

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
