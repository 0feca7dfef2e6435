"""A recorded track whose truth is a closed form; writes figure-eight.csv.

Plain Python, apart from the Go code on purpose: places go through
earth-centred coordinates of WGS84 and back, not through a local plane.

The lap, by elementary geometry: 270 degrees left at R1 = 90 m and 270 degrees
right at R2 = 40 m, joined by two straights that cross at a right angle and
touch both circles, each R1 + R2 = 130 m. Lateral acceleration is 7 m/s2 in
both loops, so v = sqrt(7 R); on the straights the speed changes evenly.

  length      1.5 pi (R1 + R2) + 2 (R1 + R2)                     872.611 m
  lap time    1.5 pi (R1/v1 + R2/v2) + 2 (R1 + R2)/((v1 + v2)/2)  40.592 s
  turning     0 (Hopf: the lap crosses itself once)
  left share  sqrt(R1)/(sqrt(R1) + sqrt(R2)) = 3/5, since the load of a loop
              is the integral of |ay| dt = v times the angle

Five fixes a second, noise of 0.5 m (one standard deviation, each axis), six laps.
"""

import math

A, R1, R2 = 7.0, 90.0, 40.0
V1, V2 = math.sqrt(A * R1), math.sqrt(A * R2)
D = R1 + R2
TIMES = [1.5 * math.pi * R1 / V1, 2 * D / (V1 + V2), 1.5 * math.pi * R2 / V2, 2 * D / (V1 + V2)]
LAP = sum(TIMES)


def place(t):
    """Metres along and across from where the left loop begins, heading along x."""
    t %= LAP
    if t < TIMES[0]:  # left loop, centre (0, R1)
        a = V1 * t / R1
        return R1 * math.sin(a), R1 - R1 * math.cos(a)
    t -= TIMES[0]
    # It leaves at (-R1, R1), heading down (270 degrees left of along).
    if t < TIMES[1]:
        s = V1 * t + (V2 - V1) / TIMES[1] * t * t / 2
        return -R1, R1 - s
    t -= TIMES[1]
    # The right loop begins at (-R1, -R2), heading down, centre (-R1 - R2, -R2).
    if t < TIMES[2]:
        a = V2 * t / R2
        return -R1 - R2 + R2 * math.cos(a), -R2 - R2 * math.sin(a)
    t -= TIMES[2]
    # It leaves at (-R1 - R2, 0), heading along.
    s = V2 * t + (V1 - V2) / TIMES[3] * t * t / 2
    return -R1 - R2 + s, 0.0


def degrees(east, north, lat0, lon0):
    """A place on the plane that touches WGS84 at lat0, lon0, as latitude and longitude."""
    a, f = 6378137.0, 1 / 298.257223563
    e2 = f * (2 - f)
    la, lo = math.radians(lat0), math.radians(lon0)
    n = a / math.sqrt(1 - e2 * math.sin(la) ** 2)
    x = n * math.cos(la) * math.cos(lo) - math.sin(lo) * east - math.sin(la) * math.cos(lo) * north
    y = n * math.cos(la) * math.sin(lo) + math.cos(lo) * east - math.sin(la) * math.sin(lo) * north
    z = n * (1 - e2) * math.sin(la) + math.cos(la) * north
    lon = math.atan2(y, x)
    p = math.hypot(x, y)
    lat = math.atan2(z, p * (1 - e2))
    for _ in range(10):
        n = a / math.sqrt(1 - e2 * math.sin(lat) ** 2)
        lat = math.atan2(z + e2 * n * math.sin(lat), p)
    return math.degrees(lat), math.degrees(lon)


def noise():
    """Normal numbers from a linear congruential generator (MMIX's constants)."""
    state = 2027
    while True:
        u = []
        for _ in range(2):
            state = (6364136223846793005 * state + 1442695040888963407) % 2**64
            u.append((state >> 11) / 2**53 + 1e-16)
        r = math.sqrt(-2 * math.log(u[0]))
        yield r * math.cos(2 * math.pi * u[1])
        yield r * math.sin(2 * math.pi * u[1])


if __name__ == "__main__":
    rng = noise()
    with open(__file__.replace("figure_eight.py", "figure-eight.csv"), "w") as out:
        out.write("# by figure_eight.py: left share 0.6000, lap 40.592 s, 872.611 m\n")
        out.write("time (s),lat (deg),lon (deg)\n")
        t = 0.0
        while t < 6.4 * LAP:
            x, y = place(t)
            lat, lon = degrees(x + 0.5 * next(rng), y + 0.5 * next(rng), -33.5, 149.2)
            out.write(f"{t:.2f},{lat:.7f},{lon:.7f}\n")
            t += 0.2
    print(f"length {1.5 * math.pi * D + 2 * D:.3f} m, lap {LAP:.3f} s, left share {math.sqrt(R1) / (math.sqrt(R1) + math.sqrt(R2)):.4f}")
