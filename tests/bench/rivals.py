"""What the core's solve time stands beside: scipy's brentq on the same balance, and PHREEQC.

Reads the document of core.rs on standard input, prints one line of JSON: for each task that is
the pH, seconds for one solution in each way, the largest deviation of each way's pH from the
core's, and the versions. As in core.rs the quickest of fifteen batches of 10 ms counts.
"""

import json
import math
import sys
import time
from importlib.metadata import version

from phreeqpython import PhreeqPython
from scipy.optimize import brentq

LEAST_BATCH = 0.01
BATCHES = 15

# The bracket in pH, and how near brentq comes: its own default.
LOW, HIGH = -2.0, 16.0
XTOL = 2e-12


def seconds(work, mixtures):
    """Seconds for one mixture, where `work` solves a list of them."""

    def batch(times):
        start = time.perf_counter()
        for _ in range(times):
            work(mixtures)
        return time.perf_counter() - start

    times = 1
    while batch(times) < LEAST_BATCH:
        times *= 2
    return min(batch(times) for _ in range(BATCHES)) / times / len(mixtures)


# --- scipy, plain: as a teacher writes it down, any number of acids with any number of protons.


def charge(ph, mixture, pkw):
    """The sum of all charges at this pH, mol/dm3."""
    h = 10**-ph
    total = h - 10**-pkw / h
    for ion in mixture["strong"]:
        total += ion["charge"] * ion["molar"]
    for acid in mixture["weak"]:
        shares = [1.0]
        for pka in acid["pka"]:
            shares.append(shares[-1] * 10**-pka / h)
        whole = sum(shares)
        for lost, share in enumerate(shares):
            total += acid["molar"] * share / whole * (acid["top_charge"] - lost)
    return total


def plain(task, mixtures):
    pkw = task["pkw"]
    return [brentq(charge, LOW, HIGH, args=(mixture, pkw), xtol=XTOL) for mixture in mixtures]


# --- scipy, lean: everything that does not depend on the pH worked out beforehand, one acid, the
# shares as a polynomial in [H+] written out for its number of protons, nothing but floats.


def lean_function(mixture, pkw):
    [acid] = mixture["weak"]
    strong = sum(ion["charge"] * ion["molar"] for ion in mixture["strong"])
    kw, c, exp, ln10 = 10**-pkw, acid["molar"], math.exp, math.log(10)
    strong += acid["top_charge"] * c
    constants = [10**-pka for pka in acid["pka"]]
    if len(constants) == 1:
        [k] = constants

        def f(ph):
            h = exp(-ln10 * ph)
            return h - kw / h + strong - c * k / (h + k)

    else:
        k1, k2, k3 = constants
        k12, k123 = k1 * k2, k1 * k2 * k3

        def f(ph):
            h = exp(-ln10 * ph)
            a, b = h * h * k1, h * k12
            return h - kw / h + strong - c * (a + 2 * b + 3 * k123) / (h * h * h + a + b + k123)

    return f


def lean(functions):
    return [brentq(f, LOW, HIGH, xtol=XTOL) for f in functions]


# --- scipy for the Davies model: the root in the ionic strength, the pH of each by brentq.


def davies_charge(ph, mixture, pkw, unit):
    """The sum of all charges and the ionic strength; `unit` is -log10 of gamma for charge 1."""
    a = 10**-ph
    h, oh = a * 10**unit, 10 ** (unit - pkw) / a
    total, strength = h - oh, h + oh
    for ion in mixture["strong"]:
        total += ion["charge"] * ion["molar"]
        strength += ion["charge"] ** 2 * ion["molar"]
    for acid in mixture["weak"]:
        forms, share = [], 1.0
        for lost, pka in enumerate([None, *acid["pka"]]):
            if lost:
                share *= 10**-pka / a
            z = acid["top_charge"] - lost
            forms.append((z, share * 10 ** (z * z * unit)))
        whole = sum(weight for _, weight in forms)
        for z, weight in forms:
            total += z * acid["molar"] * weight / whole
            strength += z * z * acid["molar"] * weight / whole
    return total, strength / 2


def davies(task, mixtures):
    pkw, big_a = task["pkw"], task["debye_huckel_a"]
    found = []
    for mixture in mixtures:
        ph = None

        def gap(strength):
            nonlocal ph
            root = math.sqrt(strength)
            unit = big_a * (root / (1 + root) - 0.3 * strength)
            ph = brentq(lambda x: davies_charge(x, mixture, pkw, unit)[0], LOW, HIGH, xtol=XTOL)
            return davies_charge(ph, mixture, pkw, unit)[1] - strength

        brentq(gap, 0, 5, xtol=1e-10)
        found.append(ph)
    return found


# --- PHREEQC: the phosphates.


def input_of(mixture):
    """A mixture as PHREEQC's input; the pH follows from the balance of charges."""
    [acid] = mixture["weak"]
    ions = {1: 0.0, -1: 0.0}
    for ion in mixture["strong"]:
        ions[ion["charge"]] += ion["molar"]
    return {"units": "mol/kgw", "pH": "7 charge", "P": acid["molar"], "Na": ions[1], "Cl": ions[-1]}


def same_constants(task):
    """PHREEQC with our constants, Davies coefficients for all ions and none else, and no ion pairs:
    the same model, but for its own Debye-Hückel constant."""
    pp = PhreeqPython(database="phreeqc.dat")
    k1, k2, k3 = task["mixtures"][0]["weak"][0]["pka"]
    absent = -30
    pp.ip.run_string(f"""
SOLUTION_SPECIES
H+ = H+
Na+ = Na+
Cl- = Cl-
PO4-3 = PO4-3
H2O = OH- + H+
    log_k {-task["pkw"]}
PO4-3 + H+ = HPO4-2
    log_k {k3}
PO4-3 + 2H+ = H2PO4-
    log_k {k3 + k2}
PO4-3 + 3H+ = H3PO4
    log_k {k3 + k2 + k1}
    -gamma 0 0
Na+ + OH- = NaOH
    log_k {absent}
Na+ + HPO4-2 = NaHPO4-
    log_k {absent}
END
""")
    return pp


def phreeqc(pp, inputs):
    found = []
    for told in inputs:
        solution = pp.add_solution(told)
        found.append(solution.pH)
        solution.forget()
    return found


def phreeqc_at_once(pp, text, count):
    """All mixtures as one text of input, without what phreeqpython does around each."""
    pp.ip.run_string(text)
    return [pp.ip.get_ph(number) for number in range(1, count + 1)]


def deviation(found, mixtures):
    return max(abs(ph - mixture["ph"]) for ph, mixture in zip(found, mixtures))


def main():
    told = {}
    for task in json.load(sys.stdin):
        mixtures = task["mixtures"]
        if task["work"] != "ph":
            continue
        ways = {}

        def add(name, work, given, mixtures=mixtures, ways=ways):
            ways[name] = {
                "deviation": deviation(work(given), mixtures),
                "seconds": seconds(work, given),
            }

        if task["davies"]:
            add("scipy, plain", lambda some: davies(task, some), mixtures)
            inputs = [input_of(mixture) for mixture in mixtures]
            add("PHREEQC, its own database", lambda some, pp=PhreeqPython(database="phreeqc.dat"): phreeqc(pp, some), inputs)
            pp = same_constants(task)
            add("PHREEQC", lambda some: phreeqc(pp, some), inputs)
            lines = (
                f"SOLUTION {number}\n" + "".join(f"{name} {value}\n" for name, value in one.items())
                for number, one in enumerate(inputs, 1)
            )
            text = "".join(lines) + "END\n"
            add("PHREEQC, one input", lambda some: phreeqc_at_once(pp, text, len(some)), inputs)
        else:
            add("scipy, plain", lambda some: plain(task, some), mixtures)
            add("scipy, lean", lean, [lean_function(mixture, task["pkw"]) for mixture in mixtures])
        told[task["name"]] = ways
    versions = {name: version(name) for name in ("scipy", "phreeqpython")}
    versions["Python"] = sys.version.split()[0]
    print(json.dumps({"tasks": told, "versions": versions}))


main()
