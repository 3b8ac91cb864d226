#!/usr/bin/env python3
"""Independent check values for daily degree-days: degree_day_vectors.csv and season_tally.csv.

What it does
------------
For every row it builds the temperature curve T(t), 0 <= t <= 1 day, that the
named method assumes, applies the named upper-cutoff rate function r(T), and
integrates r(T(t)) dt by Gauss-Legendre/tanh-sinh quadrature at 60 decimal
digits.  The only analytic knowledge used is where the integrand has kinks:
those times are found by bisection on each monotone half of the curve, so no
closed-form degree-day formula enters the emitted numbers.

Closed forms (derived by hand from the same definitions) are evaluated
separately, only to cross-check; the largest disagreement is printed.

Run:  /usr/bin/python3 make_vectors.py [outdir]     (needs mpmath; numpy optional)
"""
import csv, os, sys
from mpmath import mp, mpf, quad, sin, cos, asin, pi, sqrt, nstr

mp.dps = 60
HALF = mpf(1) / 2

# ------------------------------------------------------------------ rates
def rate(T, L, U, cutoff):
    """Development rate (degree-days per day) at temperature T."""
    if T <= L:
        base = mpf(0)
    else:
        base = T - L
    if cutoff == "none":
        return base
    if cutoff == "horizontal":
        return base if T <= U else max(U - L, mpf(0))
    if cutoff == "vertical":
        return base if T <= U else mpf(0)
    if cutoff == "intermediate":                 # signed: may be negative
        return base if T <= U else (U - L) - (T - U)
    raise ValueError(cutoff)

# ------------------------------------------------------------------ curves
# Each curve is a list of (t0, t1, f) pieces; f is monotone on [t0, t1].
def curve(method, tmin, tmax, nmin):
    if method in ("single_sine", "double_sine"):
        b = tmin if method == "single_sine" else nmin
        m1, a1 = (tmax + tmin) / 2, (tmax - tmin) / 2
        m2, a2 = (tmax + b) / 2, (tmax - b) / 2
        return [(mpf(0), HALF, lambda t: m1 - a1 * cos(2 * pi * t)),
                (HALF, mpf(1), lambda t: m2 - a2 * cos(2 * pi * t))]
    if method in ("single_triangle", "double_triangle"):
        b = tmin if method == "single_triangle" else nmin
        return [(mpf(0), HALF, lambda t: tmin + (tmax - tmin) * 2 * t),
                (HALF, mpf(1), lambda t: tmax + (b - tmax) * (2 * t - 1))]
    raise ValueError(method)

def crossing(f, t0, t1, level):
    """Time in (t0,t1) where monotone f passes level, or None."""
    y0, y1 = f(t0) - level, f(t1) - level
    if y0 == 0 or y1 == 0 or (y0 > 0) == (y1 > 0):
        return None
    lo, hi = t0, t1
    for _ in range(230):                         # 2^-230 ~ 1e-69
        mid = (lo + hi) / 2
        ym = f(mid) - level
        if ym == 0:
            return mid
        if (ym > 0) == (y0 > 0):
            lo = mid
        else:
            hi = mid
    return (lo + hi) / 2

def integrate(method, cutoff, tmin, tmax, nmin, L, U):
    total = mpf(0)
    for t0, t1, f in curve(method, tmin, tmax, nmin):
        levels = [L]
        if cutoff != "none":
            levels.append(U)
        cuts = sorted({c for c in (crossing(f, t0, t1, k) for k in levels) if c is not None})
        pts = [t0] + cuts + [t1]
        for a, b in zip(pts[:-1], pts[1:]):
            # one smooth branch of the rate on each open interval; pick the branch
            # at the midpoint and evaluate it everywhere, so kinks at the ends
            # never pollute the quadrature.
            Tm = f((a + b) / 2)
            if Tm <= L:
                continue
            if cutoff == "none" or Tm <= U:
                g = lambda t: f(t) - L
            elif cutoff == "horizontal":
                g = lambda t: max(U - L, mpf(0))
            elif cutoff == "vertical":
                continue
            else:
                g = lambda t: (U - L) - (f(t) - U)
            total += quad(g, [a, b])
    return total

# ------------------------------------------------- closed forms (cross-check)
def S_half(lo, hi, k, shape):
    """Mean of max(0, T-k) over one half-day running between lo and hi."""
    if lo > hi:
        lo, hi = hi, lo
    if hi <= k:
        return mpf(0)
    if lo >= k:
        return (lo + hi) / 2 - k
    if shape == "sine":
        m, a = (lo + hi) / 2, (hi - lo) / 2
        th = asin((k - m) / a)
        return ((m - k) * (pi / 2 - th) + a * cos(th)) / pi
    return (hi - k) ** 2 / (2 * (hi - lo))

def F_half(lo, hi, k, shape):
    """Fraction of one half-day with T > k."""
    if lo > hi:
        lo, hi = hi, lo
    if hi <= k:
        return mpf(0)
    if lo > k or (lo == k and hi > k):
        return mpf(1)
    if shape == "sine":
        m, a = (lo + hi) / 2, (hi - lo) / 2
        return HALF - asin((k - m) / a) / pi
    return (hi - k) / (hi - lo)

def closed(method, cutoff, tmin, tmax, nmin, L, U):
    shape = "sine" if method.endswith("sine") else "triangle"
    ends = [(tmin, tmax), (tmin if method.startswith("single") else nmin, tmax)]
    out = mpf(0)
    for lo, hi in ends:
        s = S_half(lo, hi, L, shape)
        if cutoff == "horizontal":
            s -= S_half(lo, hi, U, shape)
        elif cutoff == "intermediate":
            s -= 2 * S_half(lo, hi, U, shape)
        elif cutoff == "vertical":
            s -= S_half(lo, hi, U, shape) + (U - L) * F_half(lo, hi, U, shape)
        out += s / 2
    return out

# ------------------------------------------------------------- averaging
def average(variant, cutoff, tmin, tmax, L, U):
    """average_mean : whole-day mean, then compare with thresholds.
       average_clip : min and max compared with thresholds first."""
    if variant == "average_mean":
        m = (tmin + tmax) / 2
        if cutoff == "horizontal":
            m = min(m, U)
        elif cutoff == "vertical":
            if m > U:
                return mpf(0)
        elif cutoff == "intermediate":
            if m > U:
                m = 2 * U - m
        return max(mpf(0), m - L)
    lo, hi = tmin, tmax
    if cutoff == "horizontal":
        lo, hi = min(lo, U), min(hi, U)
    elif cutoff == "intermediate":               # reflect the maximum about U
        hi = 2 * U - hi if hi > U else hi
    elif cutoff == "vertical":
        raise ValueError("no published vertical rule for average_clip")
    lo, hi = max(lo, L), max(hi, L)
    return (lo + hi) / 2 - L

# ------------------------------------------------------------- scenarios
F1 = ("50", "88")
SCEN = [                       # tmin, tmax, next_tmin : thresholds 50/88 F
    ("30", "45", "32"),        # all below
    ("30", "50", "35"),        # tmax == lower
    ("40", "60", "45"),        # straddle lower, mean == lower
    ("45", "75", "50"),        # straddle lower; next_tmin == lower
    ("30", "70", "40"),        # straddle lower, mean == lower
    ("35", "60", "52"),        # straddle lower; next day min above lower
    ("40", "65", "38"),        # straddle lower (worked-example pair)
    ("49.9", "50.1", "49.95"), # tiny straddle
    ("50", "70", "50"),        # tmin == lower
    ("55", "80", "60"),        # between
    ("60", "88", "55"),        # tmax == upper
    ("40", "88", "44"),        # straddle lower, tmax == upper
    ("50", "88", "50"),        # tmin == lower and tmax == upper
    ("60", "95", "66"),        # straddle upper
    ("76", "100", "70"),       # straddle upper, mean == upper
    ("70", "104", "88"),       # straddle upper; next_tmin == upper
    ("87.9", "88.1", "87.8"),  # tiny straddle upper
    ("88", "100", "90"),       # tmin == upper
    ("90", "105", "85"),       # all above (single); double comes back below
    ("92", "101", "95"),       # all above both days
    ("40", "100", "46"),       # straddle both
    ("30", "110", "48"),       # straddle both, wide
    ("49", "89", "51"),        # straddle both, barely
    ("26", "150", "30"),       # straddle both; T exceeds 2U-L
    ("100", "160", "110"),     # all above; intermediate strongly negative
    ("40", "40", "40"),        # constant, below
    ("50", "50", "50"),        # constant at lower
    ("63.5", "63.5", "63.5"),  # constant, between
    ("88", "88", "88"),        # constant at upper
    ("95", "95", "95"),        # constant, above
]
C_SETS = [
    (("10", "31.1"), [("4.4", "18.3", "7.2"), ("-2", "9.9", "0"), ("10", "31.1", "12"),
                      ("8.25", "33.75", "11.5"), ("14.6", "36.2", "16.1"), ("2.5", "17.5", "10")]),
    (("8.9", "30"),   [("1.7", "13.9", "3.3"), ("5.6", "34.4", "9.4"), ("20", "38", "18.9")]),
    (("20", "22"),    [("18", "26", "19"), ("21", "30", "17"), ("15", "21.5", "20.5"), ("24", "28", "23")]),
    (("50", "50"),    [("40", "60", "45"), ("50", "70", "52"), ("30", "50", "50")]),   # lower == upper edge
    (("0", "30"),     [("-5", "5", "-3"), ("-10", "35", "2"), ("12", "42", "15")]),
    (("32", "86"),    [("20", "95", "28"), ("32", "86", "33")]),
]
ODD = [   # next day's minimum above today's maximum (happens in real records)
    ("40", "48", "55"), ("44", "60", "66"), ("60", "84", "90"),
]
METHODS4 = ("single_sine", "double_sine", "single_triangle", "double_triangle")
CUTS3 = ("horizontal", "vertical", "intermediate")

def fmt(x):
    """15 significant digits, plain decimal."""
    if abs(x) < mpf(10) ** -45:
        return "0"
    s = nstr(x, 15, strip_zeros=False, min_fixed=-20, max_fixed=20)
    return s

def rows():
    # no upper threshold
    for m in METHODS4:
        for lo, hi, nx in [SCEN[i] for i in (0, 1, 2, 3, 5, 6, 8, 9, 20, 27)]:
            if m.startswith("single"):
                nx = ""
            yield m, "none", lo, hi, nx, "50", ""
    # Fahrenheit 50/88
    for m in METHODS4:
        for lo, hi, nx in SCEN:
            if m.startswith("double") and lo == hi == nx:
                continue                       # same as single
            for c in CUTS3:
                yield m, c, lo, hi, ("" if m.startswith("single") else nx), F1[0], F1[1]
    for (L, U), sc in C_SETS:
        for m in METHODS4:
            for lo, hi, nx in sc:
                for c in CUTS3:
                    yield m, c, lo, hi, ("" if m.startswith("single") else nx), L, U
    for m in ("double_sine", "double_triangle"):
        for lo, hi, nx in ODD:
            for c in CUTS3:
                yield m, c, lo, hi, nx, F1[0], F1[1]
    # averaging
    AV = [("40", "65"), ("35", "60"), ("50", "70"), ("44", "76"), ("48", "90"), ("65", "90"),
          ("46", "72"), ("42", "63"), ("30", "45"), ("60", "86"), ("88", "100"), ("50", "50"), ("55", "95")]
    for lo, hi in AV:
        yield "average_mean", "none", lo, hi, "", "50", ""
        yield "average_mean", "horizontal", lo, hi, "", "50", "86"
        yield "average_clip", "none", lo, hi, "", "50", ""
        yield "average_clip", "horizontal", lo, hi, "", "50", "86"
        if float(lo) <= 86:      # published rule reflects only the maximum
            yield "average_clip", "intermediate", lo, hi, "", "50", "86"

def value(m, c, lo, hi, nx, L, U):
    lo, hi, L = mpf(lo), mpf(hi), mpf(L)
    U = mpf(U) if U != "" else mpf("1e9")
    n = mpf(nx) if nx != "" else lo
    if m.startswith("average"):
        return average(m, c, lo, hi, L, U), None
    v = integrate(m, c, lo, hi, n, L, U)
    # constant temperature sitting exactly on U: vertical keeps it (rate(U) = U-L)
    return v, closed(m, c, lo, hi, n, L, U)

SEASON = [(41, 63), (45, 70), (38, 58), (44, 66), (50, 74), (53, 79), (55, 85), (58, 91), (60, 94), (57, 88),
          (49, 72), (46, 65), (51, 77), (54, 82)]

def season(out):
    """Fourteen invented spring days, thresholds 50/88 horizontal, day by day and summed."""
    names = ("single_sine", "single_triangle", "double_sine", "average_mean", "average_clip")
    table, total = [], {k: mpf(0) for k in names}
    for i, (lo, hi) in enumerate(SEASON):
        nx = SEASON[i + 1][0] if i + 1 < len(SEASON) else lo
        lo, hi, nx, L, U = mpf(lo), mpf(hi), mpf(nx), mpf(50), mpf(88)
        dd = {k: average(k, "horizontal", lo, hi, L, U) if k.startswith("average") else
              integrate(k, "horizontal", lo, hi, nx if k.startswith("double") else lo, L, U) for k in names}
        for k in names:
            total[k] += dd[k]
        table.append([i + 1, int(lo), int(hi), int(nx)] + [nstr(dd[k], 15) for k in names]
                     + [nstr(total[k], 15) for k in names])
    with open(os.path.join(out, "season_tally.csv"), "w", newline="") as f:
        w = csv.writer(f, lineterminator="\n")
        w.writerow(["day", "tmin", "tmax", "next_tmin"] + ["dd_" + k for k in names] + ["cum_" + k for k in names])
        w.writerows(table)

def main(out):
    os.makedirs(out, exist_ok=True)
    worst, n = mpf(0), 0
    HDR = ["method", "cutoff", "tmin", "tmax", "next_tmin", "lower", "upper", "degree_days"]
    seen = set()
    table = []
    for r in rows():
        if r in seen:
            continue
        seen.add(r)
        v, ref = value(*r)
        if ref is not None:
            d = abs(v - ref)
            worst = max(worst, d)
            if d > mpf("1e-40"):
                print("DISAGREE", r, nstr(v, 20), nstr(ref, 20))
        table.append(list(r) + [fmt(v)])
        n += 1
    with open(os.path.join(out, "degree_day_vectors.csv"), "w", newline="") as f:
        w = csv.writer(f, lineterminator="\n"); w.writerow(HDR); w.writerows(table)
    print(n, "rows; worst |quadrature - closed form| =", nstr(worst, 5))
    season(out)
    # spot check with an unrelated integrator
    try:
        import numpy as np
    except ImportError:
        return
    bad = {}
    for row in table:
        m, c, lo, hi, nx, L, U, dd = row
        if m.startswith("average"):
            continue
        a = [float(x) if x != "" else None for x in (lo, hi, nx, L, U)]
        lo_, hi_, nx_, L_, U_ = a
        nx_ = lo_ if nx_ is None else nx_
        U_ = 1e9 if U_ is None else U_
        def T(t):
            if "sine" in m:
                b = lo_ if t < .5 else nx_
                return (hi_ + b) / 2 - (hi_ - b) / 2 * np.cos(2 * np.pi * t)
            return lo_ + (hi_ - lo_) * 2 * t if t < .5 else hi_ + (nx_ - hi_) * (2 * t - 1)
        def r(t):
            x = T(t)
            if x <= L_: return 0.0
            if c == "none" or x <= U_: return x - L_
            return {"horizontal": U_ - L_, "vertical": 0.0, "intermediate": 2 * U_ - L_ - x}[c]
        N = 20000                                  # plain midpoint rule, no kink knowledge
        tt = (np.arange(N) + .5) / N
        est = float(np.mean([r(t) for t in tt]))
        bad[c] = max(bad.get(c, 0.0), abs(est - float(dd)))
    print("worst |brute midpoint, 20000 pts - vector| by cutoff:", {k: "%.1e" % v for k, v in bad.items()})

if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__)))
