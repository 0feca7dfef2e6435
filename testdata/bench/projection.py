"""The projection of BenchmarkProject in vectorised numpy, for a ratio.

12 legs, 34 points in 12 sets, 10,000 draws, a Latin hypercube whose second
half mirrors its first: lognormal road and circuit factors, a pace error whose
effect is a quadratic in the logarithm, a gauge error; 5, 50 and 95 % quantiles
and the chances of limit and margin of every point and of the worst point of
every set, after every leg.

Run with Debian's python3-numpy:  /usr/bin/python3 testdata/bench/projection.py
"""
import statistics
import time

import numpy as np

LEGS, DRAWS = 12, 10_000
POINTS = [6, 6, 2, 2, 4, 4, 2, 2, 2, 2, 1, 1]
NEW, START, LIMIT, MARGIN, GAUGE = 8e-3, 6e-3, 1.6e-3, 2.4e-3, 2e-4
SLICES = np.array([statistics.NormalDist().inv_cdf((k + 0.5) / DRAWS) for k in range(DRAWS)])
UPPER = SLICES[DRAWS // 2 :]


def shuffled(rng, values):
    order = rng.permutation(values)
    return order, rng.random(len(values), dtype=np.float32) < 0.5


def normals(rng):
    half, minus = shuffled(rng, UPPER)
    half[minus] *= -1
    return np.concatenate((half, -half[::-1]))


def factors(rng, spread):
    half, minus = shuffled(rng, np.exp(spread * UPPER))
    half[minus] = 1 / half[minus]
    return np.concatenate((half, 1 / half[::-1]))


def project(rng):
    z = SLICES
    out = []
    for points in POINTS:
        road = factors(rng, 0.25)
        circuit = factors(rng, 0.40)
        summary = circuit * factors(rng, 0.30)
        levels = np.empty((points, LEGS, DRAWS))
        for i in range(points):
            level = START + GAUGE * normals(rng)
            mid = 4e-4 * (1 + i / 20)
            low, high = np.log(4e-4 * np.exp(-0.2) / mid), np.log(4e-4 * np.exp(0.25) / mid)
            effect = mid * np.exp(z * ((high - low) / 2 + z * (high + low) / 2))
            for j in range(LEGS):
                if j % 2 == 0:
                    level = level - 2e-4 * road
                elif j % 4 == 3:
                    level = level - effect * summary
                else:
                    level = level - effect * circuit
                levels[i, j] = level
        worst = ((levels - LIMIT) / (NEW - LIMIT)).min(axis=0)
        out.append((
            np.quantile(levels, [0.05, 0.5, 0.95], axis=2, method="inverted_cdf"),
            (levels <= LIMIT).mean(axis=2), (levels <= MARGIN).mean(axis=2),
            np.quantile(worst, [0.05, 0.5, 0.95], axis=1, method="inverted_cdf"),
            (worst <= 0).mean(axis=1), (levels <= MARGIN).any(axis=0).mean(axis=1),
        ))
    return out


times = []
for seed in range(8):
    begin = time.perf_counter()
    project(np.random.default_rng(seed))
    times.append(time.perf_counter() - begin)
print(f"{1e3 * min(times):.0f} ms at best, {1e3 * sorted(times)[len(times) // 2]:.0f} ms median of {len(times)}")
