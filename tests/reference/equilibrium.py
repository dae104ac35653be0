"""Acid-base equilibria of mixtures, solved in 60-digit arithmetic: the yardstick for the engine.

Reads cases as JSON on standard input, writes answers as JSON on standard output:

    python equilibrium.py [--processes N] < cases.json > answers.json

The input is one document {"cases": [case, ...]}, answered by one document, or one
case a line, answered by one line each. A case, all amounts in mol and dm3:

    {"id": 0, "model": "ideal" | "davies", "pkw": 14.0, "debye_huckel_a": 0.509,
     "volume_l": 0.2,
     "weak": [{"top_charge": 0, "pka": [4.756], "total_mol": 0.02}],
     "strong": [{"charge": 1, "mol": 0.01}]}

Numbers stand for exactly the binary value of their 64-bit float. "volume_l_exact",
"total_mol_exact" and "mol_exact", strings such as "3/7", take precedence where given.
Unknown fields are ignored. "strong" lists ions that take no part in proton transfer.

Every root is shown to lie within a relative 1e-40. An answer, every quantity a string of
30 significant digits (concentrations in mol/dm3):

    {"id": 0, "ph": "-log10 of the activity of H+", "ionic_strength": "...",
     "h": "concentration of H+", "oh": "concentration of OH-",
     "species": [["fully protonated form", "one proton lost", ...], ...],
     "roots": 1, "residual": "...", "buffer_capacity": "...", "slope": "..."}

`roots` counts the self-consistent ionic strengths found (the smallest is returned),
`residual` is the largest relative error left in any equation, recomputed from the
answer alone, `buffer_capacity` is d[strong base]/dpH at fixed ionic strength, and
`slope` is the derivative of I(species at I) - I at the root: near zero, the root is
ill-conditioned.

Model. Charge balance and one mass balance for each weak system; constants in
activities: Ka = a(H+) a(base)/a(acid), Kw = a(H+) a(OH-), a(H2O) = 1. Ideal: activity =
concentration. Davies 1962, Ion Association, p. 41: log10 g = -A z^2 (sqrt(I)/(1 +
sqrt(I)) - 0.3 I), with I = 1/2 sum of z^2 c over all ions, H+ and OH- included.
"""

import argparse
import json
import math
import multiprocessing
import sys

from chemistry import Composition, DigitField, FloatField, Unsolved, exact, to_mpf
from mpmath import mp, mpf

PRINTED_DIGITS = 30
# Relative half-width of the interval on which every root must show a change of sign.
ENCLOSURE = mpf(10) ** -40
# Points on each of the two grids, logarithmic and linear, on which roots are looked for.
SCAN_POINTS = 120


class StrengthGap:
    """I(species at I) - I as a function of I; its roots are self-consistent."""

    def __init__(self, composition, ln_h=None):
        self.composition, self.ln_h = composition, ln_h

    def __call__(self, strength):
        unit = self.composition.unit_ln_gamma(strength)
        self.ln_h = self.composition.solve_ln_h(unit, self.ln_h)
        return self.composition.balance(self.ln_h, unit)[2] - strength


def dip(gap, left, middle, right, sign):
    """A point in [left, right] where sign*gap is not positive, or None.

    Golden-section search, called where three scan points have the middle one lowest."""
    ratio = (math.sqrt(5) - 1) / 2
    for _ in range(60):
        longer_right = right - middle > middle - left
        x = middle + (1 - ratio) * ((right - middle) if longer_right else (left - middle))
        value = sign * gap(x)
        if value <= 0:
            return x
        if value < sign * gap(middle):
            left, right = (middle, right) if longer_right else (left, middle)
            middle = x
        elif longer_right:
            right = x
        else:
            left = x
        if right - left < 1e-9 * right:
            return None
    return None


def scan(composition):
    """Brackets of all self-consistent ionic strengths seen, the smallest first.

    Below the first point no root can exist: there activity coefficients are below 1, so
    that I >= sqrt([H+][OH-]) >= sqrt(Kw). Above the last one I is larger than any
    mixture of these substances can give."""
    first = min(math.exp(composition.ln_kw / 2) / 100, 1e-9)
    last = 1.001 * composition.most_strength
    ratio = (last / first) ** (1 / SCAN_POINTS)
    points = {first * ratio**k for k in range(SCAN_POINTS)}
    points |= {last * k / SCAN_POINTS for k in range(1, SCAN_POINTS + 1)}
    points = sorted(points)
    gap = StrengthGap(composition)
    values = [gap(x) for x in points]
    if not (values[0] > 0 > values[-1]):
        raise Unsolved("the scan does not enclose the ionic strength")
    extra = []
    for k in range(1, len(points) - 1):
        sign = 1 if values[k] > 0 else -1
        left, middle, right = (sign * v for v in values[k - 1 : k + 2])
        if left > 0 and right > 0 and middle <= left and middle <= right:
            x = dip(gap, points[k - 1], points[k], points[k + 1], sign)
            if x is not None:
                extra.append((x, gap(x)))
    table = sorted(list(zip(points, values)) + extra)
    return [(a[0], b[0]) for a, b in zip(table, table[1:]) if (a[1] > 0) != (b[1] > 0)]


def narrow(gap, low, high):
    """Bisection in double precision of a bracket where gap falls from + to -."""
    for _ in range(60):
        middle = (low + high) / 2
        if not low < middle < high or high - low < 1e-11 * high:
            break
        low, high = (middle, high) if gap(middle) > 0 else (low, middle)
    return low, high


def polish(gap, low, high):
    """The root of gap in [low, high] by the secant method, to more digits than the
    enclosure that is asked of it afterwards, and the slope there."""
    x0, x1 = mpf(low), mpf(high)
    if x0 == x1:
        x1 = x0 * (1 + mpf(10) ** -12)
    y0, y1 = gap(x0), gap(x1)
    slope = (y1 - y0) / (x1 - x0)
    for _ in range(60):
        if y1 == y0:
            break
        slope = (y1 - y0) / (x1 - x0)
        step = -y1 / slope
        x0, y0, x1 = x1, y1, x1 + step
        if abs(step) < mpf(10) ** -45 * x1:
            return x1, slope
        y1 = gap(x1)
    raise Unsolved("the ionic strength did not converge")


def enclosed(function, x, width, rising):
    """Whether function changes sign, in the stated direction, within x +- width."""
    below, above = function(x - width), function(x + width)
    return (below < 0 < above) if rising else (below > 0 > above)


def solve(case):
    """The answer to one case, as a dictionary of strings."""
    precise = Composition(case, DigitField)
    rough = Composition(case, FloatField)
    roots, slope, unit = 1, mpf(-1), mpf(0)
    if precise.davies:
        brackets = scan(rough)
        roots = len(brackets)
        rough_gap = StrengthGap(rough)
        low, high = narrow(rough_gap, *brackets[0])
        gap = StrengthGap(precise, mpf(rough_gap.ln_h))
        strength, slope = polish(gap, low, high)
        if not brackets[0][0] <= strength <= brackets[0][1]:
            raise Unsolved("the ionic strength left its bracket")
        if not enclosed(gap, strength, ENCLOSURE * strength, rising=False):
            raise Unsolved("no change of sign at the ionic strength")
        unit = precise.unit_ln_gamma(strength)
        ln_h = precise.solve_ln_h(unit, gap.ln_h)
    else:
        ln_h = precise.solve_ln_h(unit, mpf(rough.solve_ln_h(0.0)))
        strength = precise.balance(ln_h, unit)[2]
    if not enclosed(lambda x: precise.balance(x, unit)[0], ln_h, ENCLOSURE, rising=True):
        raise Unsolved("no change of sign at the concentration of H+")
    return answer(case, precise, ln_h, unit, strength, roots, slope)


def answer(case, composition, ln_h, unit, strength, roots, slope):
    h, oh = composition.water(ln_h, unit)
    ph = -(ln_h + unit) / mp.log(10)
    species = [system.concentrations(ln_h + unit, unit) for system in composition.systems]

    def digits(value):
        return mp.nstr(value, PRINTED_DIGITS)

    return {
        "id": case["id"],
        "ph": digits(ph),
        "ionic_strength": digits(strength),
        "h": digits(h),
        "oh": digits(oh),
        "species": [[digits(c) for c in forms] for forms in species],
        "roots": roots,
        "residual": mp.nstr(residual(case, ph, h, oh, species, strength), 5),
        "buffer_capacity": digits(composition.balance(ln_h, unit)[1] * mp.log(10)),
        "slope": mp.nstr(slope, 8),
    }


def residual(case, ph, h, oh, species, strength):
    """The largest relative error in any equation, from the concentrations alone.

    Written out law by law, apart from the formulas that found the answer: the laws of
    mass action in pK units, every balance relative to the sum of its terms."""
    volume = to_mpf(exact(case, "volume_l"))
    root = mp.sqrt(strength)
    a = mpf(case["debye_huckel_a"]) if case["model"] == "davies" else mpf(0)

    def p_activity(concentration, z):
        log_gamma = -a * z**2 * (root / (1 + root) - mpf(3) / 10 * strength)
        return -mp.log10(concentration) - log_gamma

    errors = [p_activity(h, 1) - ph, p_activity(oh, -1) + ph - mpf(case["pkw"])]
    ions = [(1, h), (-1, oh)]
    ions += [(ion["charge"], to_mpf(exact(ion, "mol")) / volume) for ion in case["strong"]]
    for weak, forms in zip(case["weak"], species):
        top, total = weak["top_charge"], to_mpf(exact(weak, "total_mol")) / volume
        ions += [(top - k, c) for k, c in enumerate(forms)]
        if total == 0:
            continue
        errors.append(sum(forms) / total - 1)
        for k, pka in enumerate(weak["pka"]):
            base, acid = p_activity(forms[k + 1], top - k - 1), p_activity(forms[k], top - k)
            errors.append(ph + base - acid - mpf(pka))
    errors.append(sum(z * c for z, c in ions) / sum(abs(z) * c for z, c in ions))
    errors.append(sum(z * z * c for z, c in ions) / 2 / strength - 1)
    return max(abs(e) for e in errors)


def solve_all(cases, processes=2):
    """Answers to all cases, in order, on several processes."""
    if processes < 2 or len(cases) < 8:
        return [solve(case) for case in cases]
    with multiprocessing.Pool(processes) as pool:
        return pool.map(solve, cases, chunksize=8)


def main():
    parser = argparse.ArgumentParser(description="Solve acid-base mixtures in 60-digit arithmetic.")
    parser.add_argument("--processes", type=int, default=2)
    options = parser.parse_args()
    text = sys.stdin.read()
    try:
        document = json.loads(text)
    except json.JSONDecodeError:
        document = None
    if isinstance(document, dict) and "cases" in document:
        json.dump({"cases": solve_all(document["cases"], options.processes)}, sys.stdout)
        sys.stdout.write("\n")
        return
    lines = [json.loads(line) for line in text.splitlines() if line.strip()]
    for reply in solve_all(lines, options.processes):
        sys.stdout.write(json.dumps(reply) + "\n")


if __name__ == "__main__":
    main()
