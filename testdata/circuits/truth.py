#!/usr/bin/env python3
"""The lap of each line of this folder, by a program that shares no code with
tripwear (Debian's python3-numpy and python3-scipy): a periodic cubic spline
through the points by arc length, cells of a meter, a quasi-steady lap (Lenzo
and Rossi, Applied Sciences 10(4) 1498, 2020).

    /usr/bin/python3 testdata/circuits/truth.py > testdata/circuits/truth.csv
"""
import glob
import os

import numpy as np
from scipy.interpolate import CubicSpline

HERE = os.path.dirname(os.path.abspath(__file__))
G, RHO, ROLLING, ROTATING = 9.80665, 1.20, 0.013, 1.04
# The car and the pace: 172 hp, rear drive.
MASS, POWER, FRONT, HEIGHT, BASE, DRAG, MU, PACE = 1385.0, 172 * 745.7, 0.53, 0.48, 2.51, 0.66, 1.0, 0.80


def curvature(places):
    """Curvature (1/m, + left) at nodes of about a meter, their spacing, the length."""
    ring = np.vstack([places, places[:1]])
    at = np.r_[0, np.cumsum(np.hypot(*np.diff(ring, axis=0).T))]
    for _ in range(3):  # the parameter becomes the length along the curve
        spline = CubicSpline(at, ring, bc_type="periodic")
        fine = np.linspace(0, at[-1], 40 * len(at))
        speed = np.hypot(*spline(fine, 1).T)
        gone = np.r_[0, np.cumsum((speed[1:] + speed[:-1]) / 2 * np.diff(fine))]
        at = np.interp(at, fine, gone)
    spline = CubicSpline(at, ring, bc_type="periodic")
    n = round(at[-1])
    s = np.arange(n) * at[-1] / n
    (dx, dy), (ddx, ddy) = spline(s, 1).T, spline(s, 2).T
    return (dx * ddy - dy * ddx) / np.hypot(dx, dy) ** 3, at[-1] / n, at[-1]


def drive(k, ds):
    """Squared speeds at the nodes."""
    n, grip = len(k), PACE * MU * G
    rear = grip * (1 - FRONT) / (1 - PACE * MU * HEIGHT / BASE)
    power, drag, rolling = 0.87 * PACE * POWER / MASS, RHO * DRAG / 2 / MASS, ROLLING * G
    u = np.minimum(grip / np.maximum(np.abs(k), 1e-9), 90.0**2)
    slowest = int(np.argmin(u))
    spare = lambda i: np.sqrt(max(0.0, 1 - (u[i] * abs(k[i]) / grip) ** 2))
    for _ in range(3):
        for j in range(1, n + 1):
            i, was = (slowest + j) % n, (slowest + j - 1) % n
            resist = drag * u[was] + rolling
            a = min(rear * spare(was) - resist, (power / np.sqrt(u[was]) - resist) / ROTATING)
            u[i] = min(u[i], u[was] + 2 * ds * a)
    for j in range(1, n + 1):
        i, after = (slowest - j) % n, (slowest - j + 1) % n
        u[i] = min(u[i], u[after] + 2 * ds * (grip * spare(after) + drag * u[after] + rolling))
    return u


def brakings(v, dt, ax):
    """Number of the heavy brakings: over 0.3 g, releases under 0.3 s bridged, 5 m/s
    at least."""
    n, begin = len(v), int(np.argmax(v))
    found, first, last, released = 0, None, None, 0.0
    for j in range(n + 1):
        i = (begin + j) % n
        if j < n and ax[i] < -0.3 * G:
            first, last, released = (v[i] if first is None else first), v[(i + 1) % n], 0.0
            continue
        released += dt[i]
        if first is not None and (released >= 0.3 or j == n):
            found += first - last >= 5
            first = None
    return found


def main():
    print("circuit,length_m,turning_deg,share_by_angle,share_by_load,lap_s,brake_mj,impulse_kns_per_km,brakings")
    for path in sorted(glob.glob(os.path.join(HERE, "*-line.csv"))):
        k, ds, length = curvature(np.loadtxt(path, delimiter=",", skiprows=1))
        u = drive(k, ds)
        after = np.roll(u, -1)
        v, middle = np.sqrt(u), (u + after) / 2
        dt, ax = 2 * ds / (v + np.sqrt(after)), (after - u) / 2 / ds
        force = MASS * (ROTATING * ax + RHO * DRAG / 2 / MASS * middle + ROLLING * G)
        bend = (k + np.roll(k, -1)) / 2
        load = np.abs(bend) * middle * dt
        number = brakings(v, dt, ax)
        print(
            f"{os.path.basename(path)[:-9]},{length:.1f},{np.degrees(k.sum() * ds):.1f},"
            f"{k[k > 0].sum() / np.abs(k).sum():.4f},{load[bend > 0].sum() / load.sum():.4f},{dt.sum():.2f},"
            f"{-np.minimum(force, 0).sum() * ds / 1e6:.3f},{MASS * load.sum() / length:.1f},{number}"
        )


if __name__ == "__main__":
    main()
