"""Times SLSQP of SciPy on triples of paints: fractions of 0 or more that add up to 1, CIELAB distance squared from the target."""
import json
import sys
import time

import numpy as np
import scipy
from scipy.optimize import minimize

with open(sys.argv[1], encoding="utf-8") as file:
    told = json.load(file)
weights = np.array([told["x"], told["y"], told["z"]])
white = np.array(told["white"])
aim = np.array(told["aim"])


def lab(fractions, k, s):
    """Kubelka-Munk, Saunderson with k1 = 0.04, k2 = 0.6 and no share of the first surface seen, CIELAB."""
    absorbed, scattered = fractions @ k, fractions @ s
    inner = scattered / (absorbed + scattered + np.sqrt(absorbed * (absorbed + 2 * scattered)))
    seen = 0.96 * 0.4 * inner / (1 - 0.6 * inner)
    ratio = weights @ seen / white
    f = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio * (29 / 6) ** 2 / 3 + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


triples = [(np.array([p["k"] for p in t]), np.array([p["s"] for p in t])) for t in told["triples"]]
one = {"type": "eq", "fun": lambda c: c.sum() - 1, "jac": lambda c: np.ones(3)}
start = time.perf_counter()
for k, s in triples:
    minimize(lambda c: ((lab(c, k, s) - aim) ** 2).sum(), np.full(3, 1 / 3), method="SLSQP", bounds=[(0, 1)] * 3, constraints=[one])
print(json.dumps({"seconds": time.perf_counter() - start, "version": scipy.__version__}))
