#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""One whole job, worked out again in another language.

The demo's pond (weather-samples/courtyard-pond.lua), typed in by hand, and the
formulas of docs/methods, without a line of Tarn's code: levels, pump and pipes,
falls, stream, storm, bed, earth, liner, stone, a year's top-up.  Each figure is
looked for in what `tarn sheet`, `tarn bed` and `tarn topup` print, and has to agree to the
last printed digit.  Python's standard library is all that it needs.

    python3 tests/independent/courtyard.py build/tarn
"""

import csv
import math
import re
import subprocess
import sys
from datetime import date, timedelta

# ---- units, in SI ------------------------------------------------------------
inch, ft, yd = 0.0254, 0.3048, 0.9144
gallon = 231 * inch ** 3
gph, gpm, gpd = gallon / 3600, gallon / 60, gallon / 86400
pound = 0.45359237
ton = 2000 * pound
g = 9.80665

# ---- the pond, as a tape and the labels give it ------------------------------
LENGTH, WIDTH, DEPTH = 18 * ft + 5 * inch, 9 * ft + 2 * inch, 43 * inch
FACTOR, SLOPE = 0.81, 0.2
SHELVES = [(13 * inch, 10 * inch), (26 * inch, 14 * inch)]      # depth, width
LIP = DEPTH - 3.5 * inch
TARGET, TRIGGER, INTAKE = LIP - 1.5 * inch, LIP - 2.5 * inch, LIP - 8 * inch
SILL, PUMP_MINIMUM = LIP - 13 * inch, LIP - 15 * inch

BED_LENGTH, BED_WIDTH = 28 * inch, 104 * inch
COVER = 3 * inch
LAYERS = [(8 * inch, 2 * inch, 0.42), (16 * inch, 5 / 8 * inch, 0.38)]


# ---- the basin ---------------------------------------------------------------
def inset(d):
    """How far the plan has shrunk at a depth under the edge."""
    return SLOPE * d + sum(w for z, w in SHELVES if z <= d + 1e-12)


def plan(d, i=None):
    i = inset(d) if i is None else i
    return FACTOR * (LENGTH - 2 * i) * (WIDTH - 2 * i)


def volume(level):
    """Between shelves the plan is a square of the depth: Simpson is exact."""
    top = DEPTH - level
    cuts = [top] + [z for z, _ in SHELVES if z > top] + [DEPTH]
    total = 0
    for a, b in zip(cuts, cuts[1:]):
        below = sum(w for z, w in SHELVES if z <= a + 1e-12)
        p = [plan(0, SLOPE * d + below) for d in (a, (a + b) / 2, b)]
        total += (b - a) / 6 * (p[0] + 4 * p[1] + p[2])
    return total


def surface(level):
    return plan(DEPTH - level)


def level_of(v):
    lo, hi = 0.0, DEPTH
    for _ in range(100):
        mid = (lo + hi) / 2
        lo, hi = (mid, hi) if volume(mid) < v else (lo, mid)
    return (lo + hi) / 2


# ---- water -------------------------------------------------------------------
def viscosity(t_c):
    """IAPWS SR6-08(2011), eq. 7: four powers of T / 300 K [Pa s]."""
    t = (t_c + 273.15) / 300
    return 1e-6 * (280.68 * t ** -1.9 + 511.45 * t ** -7.7 +
                   61.131 * t ** -19.6 + 0.45903 * t ** -40)


def density(t):
    """Kell 1975, eq. 16 [kg/m3]."""
    return (999.83952 + 16.945176 * t - 7.9870401e-3 * t ** 2 -
            46.170461e-6 * t ** 3 + 105.56302e-9 * t ** 4 -
            280.54253e-12 * t ** 5) / (1 + 16.879850e-3 * t)


# ---- pump, pipes -------------------------------------------------------------
CURVE = [(0, 15.5 * ft), (700 * gph, 13.8 * ft), (1500 * gph, 10.6 * ft),
         (2300 * gph, 5.4 * ft), (2800 * gph, 0)]


def slopes(points):
    """Fritsch and Butland 1984: weighted harmonic means; three-point ends."""
    h = [b[0] - a[0] for a, b in zip(points, points[1:])]
    d = [(b[1] - a[1]) / s for (a, b), s in zip(zip(points, points[1:]), h)]

    def end(h0, h1, d0, d1):
        s = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
        if s * d0 <= 0:
            return 0.0
        return 3 * d0 if d0 * d1 < 0 and abs(s) > 3 * abs(d0) else s

    out = [end(h[0], h[1], d[0], d[1])]
    for k in range(1, len(d)):
        w1, w2 = 2 * h[k] + h[k - 1], h[k] + 2 * h[k - 1]
        out.append((w1 + w2) / (w1 / d[k - 1] + w2 / d[k])
                   if d[k - 1] * d[k] > 0 else 0.0)
    out.append(end(h[-1], h[-2], d[-1], d[-2]))
    return out


def pump_head(q, points=CURVE):
    m = slopes(points)
    for k in range(len(points) - 1):
        (x0, y0), (x1, y1) = points[k], points[k + 1]
        if x0 <= q <= x1:
            h = x1 - x0
            t = (q - x0) / h
            return ((1 + 2 * t) * (1 - t) ** 2 * y0 + t * (1 - t) ** 2 * h * m[k] +
                    t * t * (3 - 2 * t) * y1 + t * t * (t - 1) * h * m[k + 1])
    return float("nan")


def friction(re_, rel):
    """64/Re, Colebrook from 4000, a straight line of logarithms between."""
    def colebrook(r):
        x = 6.0
        for _ in range(200):
            x = -2 * math.log10(rel / 3.7 + 2.51 * x / r)
        return 1 / x ** 2
    if re_ <= 2300:
        return 64 / re_
    if re_ >= 4000:
        return colebrook(re_)
    a, b = 64 / 2300, colebrook(4000)
    s = math.log(re_ / 2300) / math.log(4000 / 2300)
    return math.exp(math.log(a) + s * math.log(b / a))


NU = viscosity(15) / density(15)


def pipe_loss(q, length, inside, k):
    v = q / (math.pi / 4 * inside ** 2)
    f = friction(v * inside / NU, 1.5e-6 / inside)
    return (f * length / inside + k) * v * v / (2 * g)


def bed_branch(q, pond):
    """Entrance, three elbows, check valve, ball valve, exit."""
    k = 0.8 + 3 * 1.5 + 2.0 + 0.04 + 1.0
    return 21.5 * inch + LIP - pond + pipe_loss(q, 21 * ft, INSIDE_15, k)


def jet_branch(q, pond):
    """Two elbows, ball valve; the nozzle spends the rest."""
    area = math.pi / 4 * (5 / 8 * inch) ** 2
    return (pipe_loss(q, 9 * ft, INSIDE_10, 2 * 1.5 + 0.04) +
            (q / (0.6 * area)) ** 2 / (2 * g))


# schedule 40 PVC by its average inside [in]: outside less two average walls
INSIDE_15 = 1.590 * inch
INSIDE_10 = 1.029 * inch


def root(f, lo, hi):
    """Where a rising function is zero."""
    for _ in range(200):
        mid = (lo + hi) / 2
        lo, hi = (mid, hi) if f(mid) < 0 else (lo, mid)
    return (lo + hi) / 2


def network(pond):
    def taken(branch, head):
        if branch(1e-9, pond) >= head:
            return 0.0
        return root(lambda q: branch(q, pond) - head, 1e-9, 0.01)

    def surplus(head):
        return (taken(bed_branch, head) + taken(jet_branch, head) -
                root(lambda q: head - pump_head(q), 0, CURVE[-1][0]))
    head = root(surplus, 0.01, 15.4 * ft)
    return head, taken(bed_branch, head), taken(jet_branch, head)


# ---- falls, stream -----------------------------------------------------------
def fall(q, width, drop):
    """Rough stone, C 1.6: head, depth on the lip, landing of its back."""
    head = (q / (1.6 * width)) ** (2 / 3)
    depth = 0.715 * ((q / width) ** 2 / g) ** (1 / 3)
    speed = q / (width * depth)
    return head, depth, speed * math.sqrt(2 * drop / g)


def stream_depth(q):
    w, s, n = 1.5 * ft, 5 / 84, 0.035
    return root(lambda y: (w * y) ** (5 / 3) / (w + 2 * y) ** (2 / 3) *
                math.sqrt(s) / n - q, 1e-6, 1)


# ---- the design storm --------------------------------------------------------
def storm_rise(start, area_rain):
    """Level pool over a lip of C 1.705, half of it clogged; Runge-Kutta."""
    inflow = area_rain * 2 * inch / 3600

    def rate(v):
        h = max(level_of(v) - LIP, 0)
        return inflow - 1.705 * 14 * inch * 0.5 * h ** 1.5
    v, step, top = volume(start), 5.0, 0
    for _ in range(int(1800 / step)):
        k1 = rate(v)
        k2 = rate(v + step / 2 * k1)
        k3 = rate(v + step / 2 * k2)
        k4 = rate(v + step * k3)
        v += step / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        top = max(top, level_of(v))
    return top


# ---- the bed -----------------------------------------------------------------
def ergun(v, d, n, t_c):
    """Gradient by Ergun 1952, with the gravity that the bed's page names."""
    mu, rho, g0 = viscosity(t_c), density(t_c), 9.81
    a = 150 * mu * (1 - n) ** 2 / (rho * g0 * n ** 3 * d ** 2)
    b = 1.75 * (1 - n) / (g0 * n ** 3 * d)
    return a * v + b * v * v


def lateral_rise(q, length, y, d, n, t_c):
    """Water that came up evenly, on its way along the top to a full-width lip."""
    mu, rho, g0 = viscosity(t_c), density(t_c), 9.81
    a = 150 * mu * (1 - n) ** 2 / (rho * g0 * n ** 3 * d ** 2)
    b = 1.75 * (1 - n) / (g0 * n ** 3 * d)
    return a * q * length ** 2 / (2 * y) + b * q * q * length ** 3 / (3 * y * y)


# ---- evaporation, day by day -------------------------------------------------
def saturation(t):
    return 0.6108 * math.exp(17.27 * t / (t + 237.3))


def day_evaporation(day, tmin, tmax, wind10):
    """(open water by Penman 1956, grass by FAO-56) [mm]."""
    lat, z, shelter, shade = math.radians(47.45), 130.0, 0.5, 0.85
    j = day.timetuple().tm_yday
    dr = 1 + 0.033 * math.cos(2 * math.pi * j / 365)
    dec = 0.409 * math.sin(2 * math.pi * j / 365 - 1.39)
    ws = math.acos(-math.tan(lat) * math.tan(dec))
    ra = 24 * 60 / math.pi * 0.0820 * dr * (
        ws * math.sin(lat) * math.sin(dec) +
        math.cos(lat) * math.cos(dec) * math.sin(ws))
    rso = (0.75 + 2e-5 * z) * ra
    rs = min(0.16 * math.sqrt(max(tmax - tmin, 0)) * ra, rso)
    ratio = min(max(rs / rso, 0.3), 1)
    rs *= shade
    ea = saturation(tmin)
    t = (tmin + tmax) / 2
    es = (saturation(tmin) + saturation(tmax)) / 2
    sigma = 4.903e-9
    rnl = sigma * ((tmax + 273.16) ** 4 + (tmin + 273.16) ** 4) / 2 * (
        0.34 - 0.14 * math.sqrt(ea)) * (1.35 * ratio - 0.35)
    rnl *= shade
    p = 101.3 * ((293 - 0.0065 * z) / 293) ** 5.26
    gamma = 0.665e-3 * p
    delta = 4098 * saturation(t) / (t + 237.3) ** 2
    u2 = wind10 * 4.87 / math.log(67.8 * 10 - 5.42) * shelter
    water = (delta / (delta + gamma) * (0.92 * rs - rnl) / 2.45 +
             gamma / (delta + gamma) * (1.313 + 1.381 * u2) * (es - ea))
    ug = max(u2, 0.5)
    grass = (0.408 * delta * (0.77 * rs - rnl) +
             gamma * 900 / (t + 273) * ug * (es - ea)) / (
                 delta + gamma * (1 + 0.34 * ug))
    # medians of Penman 1956 and of surroundings that are not described:
    # docs/methods/exposure.md
    return max(water, 0) * 0.88 * 1.03, max(grass, 0) * 1.03


def weather(path):
    with open(path) as f:
        for r in csv.DictReader(f):
            yield (date(*map(int, r["date"].split("/"))), float(r["precipitation"]),
                   float(r["temp_min"]), float(r["temp_max"]), float(r["wind"]))


# ---- the ledger --------------------------------------------------------------
PLANT = [0.4, 0.4, 0.6, 1.0, 1.4, 1.6, 1.6, 1.6, 1.4, 1.0, 0.6, 0.4]


def ledger(days, transit, start):
    """Sums over the days: top-up [m3], losses by the ruler, evaporation [m]."""
    bed, stream, edges = BED_LENGTH * BED_WIDTH, 7 * 1.5 * ft * ft, 12 * ft ** 2
    collect = surface(LIP) + bed + stream + edges
    full, high, low = volume(LIP), volume(TARGET), volume(TRIGGER)
    v = start
    out = {"topup": 0, "overflow": 0, "drop": 0, "water": 0, "by_week": []}
    for day, rain, tmin, tmax, wind in days:
        e, grass = (x / 1000 for x in day_evaporation(day, tmin, tmax, wind))
        v += rain / 1000 * collect
        if v > full:
            out["overflow"] += v - full
            v = full
        a = surface(level_of(v))
        loss = (e * a + PLANT[day.month - 1] * grass * bed + 1.5 * e * stream +
                3 * gpd * 86400)
        v -= loss
        out["drop"] += loss / a
        out["water"] += e
        if v < low:
            got = min(high - v, 4 * gpm * 86400)
            out["topup"] += got
            v += got
    return out


# ---- quantities --------------------------------------------------------------
def perimeter(i):
    """Ramanujan's oval, times the root of the areas (an irregular plan)."""
    a, b = LENGTH / 2 - i, WIDTH / 2 - i
    h = ((a - b) / (a + b)) ** 2
    oval = math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    return oval * math.sqrt(FACTOR / (math.pi / 4))


def quantities():
    overlap, i = 1.5 * ft, inset(DEPTH)
    slant = math.sqrt(1 + SLOPE ** 2)
    shelves = sum(w for _, w in SHELVES)
    sheet = [s - 2 * i + 2 * shelves + 2 * DEPTH * slant + 2 * overlap
             for s in (LENGTH, WIDTH)]
    walls, tread, at, inn = 0.0, 0.0, 0.0, 0.0
    for z, w in SHELVES + [(DEPTH, 0)]:
        out = inn + SLOPE * (z - at)
        walls += (perimeter(inn) + perimeter(out)) / 2 * (z - at) * slant
        tread += plan(0, out) - plan(0, out + w)
        at, inn = z, out + w
    strip = perimeter(0) * overlap
    floor = plan(DEPTH)
    return sheet, walls, tread, floor, strip


# ---- beside what Tarn prints -------------------------------------------------
def run(*args):
    done = subprocess.run(args, capture_output=True, text=True)
    if not done.stdout:
        sys.exit(f"{' '.join(args)}: {done.stderr}")
    return done.stdout


class Comparison:
    def __init__(self):
        self.done, self.wrong = 0, 0

    def figure(self, text, pattern, *values):
        """The groups of a pattern, in the text, are these values as printed."""
        found = re.search(pattern, text)
        if not found:
            self.wrong += 1
            print(f"not printed: {pattern}")
            return
        for printed, value in zip(found.groups(), values, strict=True):
            number = printed.replace(",", "")
            digits = len(number.partition(".")[2])
            self.done += 1
            # half a last digit, and a hair for a value on the border
            if abs(float(number) - value) > 0.5 * 10 ** -digits * 1.0001:
                self.wrong += 1
                print(f"{pattern}: printed {printed}, here {value:.6g}")


def words(pattern):
    """A sentence may break over lines anywhere; (#) is a number."""
    return pattern.replace("(#)", r"([\d,.]+)").replace(" ", r"\s+")


def compare(program, samples):
    pond, map_ = samples + "/courtyard-pond.lua", samples + "/seattle-map.lua"
    station = samples + "/seattle_daily_2012_2015.csv"
    sheet = run(program, "sheet", pond, station, "--map", map_, "--materials")
    bed = run(program, "bed", pond, "--full")
    c = Comparison()

    def sheet_says(pattern, *values):
        c.figure(sheet, words(pattern), *values)

    def bed_says(pattern, *values):
        c.figure(bed, words(pattern), *values)

    # water
    head, to_bed, jet = network(TARGET)
    low_head, low_bed, low_jet = network(INTAKE)
    bed_area = BED_LENGTH * BED_WIDTH
    stream = stream_depth(to_bed)
    over_lip = fall(to_bed, 20 * inch, 7 * inch)
    last = fall(to_bed, 14 * inch, 10 * inch)
    on_bed, in_stream = bed_area * over_lip[0], 7 * 1.5 * ft ** 2 * stream
    transit = on_bed + in_stream
    sheet_, walls, treads, floor, strip = quantities()
    wall_stone = walls * 8 * inch * (1 - 0.35) * 2723.14
    gravel = (treads + floor) * 2 * inch * 1601.85
    stone_takes = (wall_stone + gravel) / 2723.14
    net = volume(LIP) - stone_takes
    sheet_says(r"Water: (#) US gal at the overflow \(basin (#) US gal, less (#) US gal",
               net / gallon, volume(LIP) / gallon, stone_takes / gallon)
    sheet_says(r"(#) ft2 surface; one inch of level is (#) US gal",
               surface(LIP) / ft ** 2, (volume(LIP) - volume(LIP - inch)) / gallon)

    # levels: above the floor, surface, volume
    stopped = level_of(volume(TARGET) + transit)
    rain_on = (surface(LIP) + bed_area + 7 * 1.5 * ft ** 2 + 12 * ft ** 2 +
               0.9 * 60 * ft ** 2)
    highest = storm_rise(stopped, rain_on)
    running_full = level_of(volume(LIP) - transit)
    started = level_of(volume(TRIGGER) - transit)
    for label, level in (("Edge of the basin", DEPTH),
                         ("Highest in the design storm", highest),
                         (r"Overflow \(full, pump off\)", LIP),
                         ("Full, pump on", running_full),
                         ("After a stop", stopped),
                         (r"Normal, high \(top-up ends\)", TARGET),
                         (r"Normal, low \(top-up starts\)", TRIGGER),
                         ("After a start, from normal low", started),
                         ("Intake minimum", INTAKE),
                         ("Sill of the intake", SILL),
                         ("Pump minimum", PUMP_MINIMUM)):
        sheet_says(label + " (#) (#) (#) (#)", (DEPTH - level) / inch,
                   level / inch, surface(level) / ft ** 2, volume(level) / gallon)

    # what runs
    sheet_says(r"Pump: (#) US gal/h \((#) US gal/min\) against (#) ft of head, (#) %",
               (to_bed + jet) / gph, (to_bed + jet) / gpm, head / ft,
               (to_bed + jet) / (2800 * gph) * 100)
    sheet_says("at the intake minimum it gives (#) US gal/h", (low_bed + low_jet) / gph)
    sheet_says("Bed: (#) US gal/h, or (#) US gal a day for each ft2", to_bed / gph,
               to_bed / gpd / (bed_area / ft ** 2))
    sheet_says(r"Bed lip: 20.00 in wide, (#) in deep on the lip \(head behind it (#) in\), (#)",
               over_lip[1] / inch, over_lip[0] / inch, to_bed / gph / 20)
    sheet_says(r"Last fall: 14.00 in wide, (#) in deep on the lip \(head behind it (#) in\), (#)",
               last[1] / inch, last[0] / inch, to_bed / gph / 14)
    sheet_says("Stream: (#) in deep at (#) ft/s", stream / inch,
               to_bed / (1.5 * ft * stream) / ft)
    nozzle = math.pi / 4 * (5 / 8 * inch) ** 2
    sheet_says("Jets: 1 of 0.62 in at (#) ft/s", jet / nozzle / ft)
    for name, q, inside, length, loss in (
            ("to the bed", to_bed, INSIDE_15, 21, head - 21.5 * inch - (LIP - TARGET)),
            ("jet", jet, INSIDE_10, 9, head)):
        sheet_says(name + " (#) (#) (#) (#) (#)", inside / inch, length, q / gph,
                   q / (math.pi / 4 * inside ** 2) / ft, loss / ft)
    sheet_says(r"in all: over the bed's lip (#) US gal \(worked out\), stream (#) US gal",
               on_bed / gallon, in_stream / gallon)

    # turnover: what comes to the bed, over the basin up to its overflow
    sheet_says("Turnover: (#) an hour, by the bed's flow",
               to_bed * 3600 / volume(LIP))
    bed_says("Taken (#) (#) 100 %", to_bed / gph, to_bed * 3600 / volume(LIP))

    # storm, intake
    sheet_says("pump stopped: (#) US gal of water, (#) US gal/min at its peak",
               rain_on * inch / gallon, rain_on * 2 * inch / 3600 / gpm)
    sheet_says(r"the level (#) in over the lip with 50 % of the opening clogged; (#) in",
               (highest - LIP) / inch, (DEPTH - highest) / inch)
    opening = 20 * inch * 0.6
    sheet_says("Intake: (#) in2 of open area and (#) ft/s at the intake minimum, (#) ft/s",
               opening * (INTAKE - SILL) / inch ** 2,
               (to_bed + jet) / (opening * (INTAKE - SILL)) / ft,
               (to_bed + jet) / (opening * (TARGET - SILL)) / ft)
    d = 2 * inch
    v = (to_bed + jet) / (math.pi / 4 * d * d)
    sheet_says("A suction of 2.00 in wants (#) in", (d + 2.3 * v * math.sqrt(d / g)) / inch)

    # quantities
    pit, run_ = 2 * ft * bed_area / yd ** 3, 0.5 * 7 * 1.5 * ft ** 3 / yd ** 3
    dug = volume(DEPTH) / yd ** 3 + pit + run_
    sheet_says("dig, in the bank (#) 0 (#)", dug, dug)
    sheet_says("dug soil, loose (#)", 1.4 * dug)
    sheet_says("of it to the berm, in the bank (#)", 1 / 0.95)
    sheet_says("spoil to take away, loose (#)", 1.4 * (dug - 1 / 0.95))
    sheet_says("of it the bed's pit (#)", pit)
    sheet_says("of it the stream (#)", run_)
    up = 2 * (24 * inch + 1.5 * ft)         # both walls with the edge
    bed_sheet = (BED_LENGTH + up) * (BED_WIDTH + up) / ft ** 2
    sheet_says("bed liner (#) 5 (#)", bed_sheet, 1.05 * bed_sheet)
    under = (bed_area + (BED_LENGTH + BED_WIDTH) * up) / ft ** 2
    sheet_says("bed underlay (#) 5 (#)", under, 1.05 * under)
    sheet_says("one sheet of (#) x (#) ft", sheet_[0] / ft, sheet_[1] / ft)
    lying = walls + treads + floor + strip
    sheet_says("pond underlay (#) 5 (#)", lying / ft ** 2, 1.05 * lying / ft ** 2)
    sheet_says("wall stone, way 3 (#)", wall_stone / ton)
    sheet_says("gravel, way 3 (#)", gravel / ton)

    # the year
    days = list(weather(station))
    year = ledger(days, transit, volume(LIP))
    topup = run(program, "topup", pond, station, "--map", map_)
    c.figure(topup, words("has (#) US gal of top-up water, (#) US gal a week on average, (#) USD"),
             year["topup"] / gallon, year["topup"] / gallon / len(days) * 7,
             year["topup"] / gallon / 1000 * 16.5)
    sheet_says("it falls (#) times as far", year["drop"] / year["water"])
    sheet_says("155 W, (#) kWh a day, (#) USD a year", 0.155 * 24, 0.155 * 24 * 365.25 * 0.14)

    # the bed
    q = to_bed / bed_area
    bed_says(r"surface loading of (#) gph/ft2 \((#) m/d\), (#) % of the pond's",
             to_bed / gph / (bed_area / ft ** 2), q * 86400, bed_area / surface(LIP) * 100)
    wet = [(LAYERS[0][0], *LAYERS[0][1:]), (LAYERS[1][0] - COVER, *LAYERS[1][1:])]
    voids = sum(t * n for t, _, n in wet) * bed_area
    bed_says("and (#) min of contact", voids / to_bed / 60)
    for name, (thick, size, n) in zip(("coarse stone", "planting gravel"), wet):
        loss = ergun(q, size, n, 22) * thick / inch
        bed_says(name + r" [\d.]+ \S+ in stone (#) (#)", loss, 10 * loss)
    # sideways to the lip of 20 in, through 13 in of wet gravel; clogged is 10 times
    thick, size, n = wet[1]
    one, two = ergun(1e-3, size, n, 22), ergun(2e-3, size, n, 22)
    square = (two - 2 * one) / 2e-6
    linear, lip, half = one / 1e-3 - square * 1e-3, 20 * inch, BED_WIDTH / 2
    beside = (BED_WIDTH - lip) / 2
    far = BED_LENGTH ** 2 / 2 + BED_WIDTH * BED_LENGTH / math.pi * math.log(
        1 / math.sin(math.pi * lip / 2 / BED_WIDTH))
    for k in range(1, 60):
        wave = k * math.pi / half
        flux = math.sin(wave * lip / 2) / (wave * lip / 2)
        far += 2 * BED_LENGTH / wave * flux * ((1 / math.tanh(wave * BED_LENGTH) - 1) * flux
                                               - (-1) ** k / math.sinh(wave * BED_LENGTH))
    fast = BED_LENGTH ** 3 / 3 + beside ** 3 / 3 + 0.8 * BED_LENGTH ** 2 * beside * (
        beside + lip / 4) / (lip / 2)
    way = linear * q / thick * far + square * (q / thick) ** 2 * fast
    bed_says(r"(#) in over the lip when clean and (#) in when clogged",
             (way + over_lip[0]) / inch, (10 * way + over_lip[0]) / inch)
    feed = 8 * pound * 1000 * 0.02
    ammonia = feed * 0.38 * 0.092
    bed_says("Fish: (#) g of feed a day at 72 F bring (#) g of ammonia", feed, ammonia)
    k = 2500 / 365
    cleaned = to_bed * 86400 * (1 - math.exp(-k / (q * 86400)))
    bed_says("Ammonia N in the pond, mg/L (#)", ammonia / cleaned)
    tons = [t * bed_area * (1 - n) * 2650 / ton for t, _, n in LAYERS]
    for number, name, mass in zip((1, 2), ("coarse stone", "planting gravel"), tons):
        sheet_says(f"bed, layer {number}: {name} (#) 10 (#)", mass, math.ceil(mass * 1.1 * 4) / 4)
    bed_says("coarse stone 2 in stone 8.0 (#) (#)",
             LAYERS[0][0] * bed_area / yd ** 3, tons[0])
    bed_says("planting gravel 5/8 in stone 16.0 (#) (#)",
             LAYERS[1][0] * bed_area / yd ** 3, tons[1])
    print(f"{c.done} figures compared, {c.wrong} differ or are not printed")
    return c.wrong


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit("usage: courtyard.py PROGRAM [FOLDER OF SAMPLES]")
    sys.exit(1 if compare(sys.argv[1], sys.argv[2] if len(sys.argv) > 2
                          else "weather-samples") else 0)
