"""The reference solver against closed forms, its own residuals, and its protocol.

    python -m unittest discover -s tests/reference

Every closed form is solved here by another route: a polynomial for the ideal model, one
fixed-point or one scanned equation for the Davies model.
"""

import json
import subprocess
import sys
import unittest
from fractions import Fraction
from pathlib import Path

import equilibrium
import mixtures
from chemistry import Unsolved
from mpmath import mp, mpf

SOLVER = Path(equilibrium.__file__)
# Answers are printed to 30 digits.
PRINTED = mpf(10) ** -28


def case(weak=(), strong=(), model="ideal", pkw=14.0, a=0.509, volume=1.0):
    return {
        "id": 0, "model": model, "pkw": pkw, "debye_huckel_a": a, "volume_l": volume,
        "weak": [{"top_charge": top, "pka": pka, "total_mol": mol} for top, pka, mol in weak],
        "strong": [{"charge": charge, "mol": mol} for charge, mol in strong],
    }  # fmt: skip


def log_gamma(strength, a=0.509, z=1):
    root = mp.sqrt(strength)
    return -mpf(a) * z * z * (root / (1 + root) - mpf(3) / 10 * strength)


def times(p, q):
    """The product of two polynomials, coefficients from the highest power down."""
    product = [mpf(0)] * (len(p) + len(q) - 1)
    for i, x in enumerate(p):
        for j, y in enumerate(q):
            product[i + j] += x * y
    return product


def plus(p, q):
    size = max(len(p), len(q))
    p, q = ([mpf(0)] * (size - len(r)) + list(r) for r in (p, q))
    return [x + y for x, y in zip(p, q)]


def ph_by_polynomial(top, pka, total, charge, pkw):
    """pH of one weak system in the ideal model, from the roots of its polynomial in h.

    h D(h) (h + charge) - Kw D(h) + total h N(h) = 0, where D is the sum over the forms of
    Ka1...Kak h^(n-k), and N the same sum with each term multiplied by its charge."""
    n = len(pka)
    beta = [mpf(10) ** -sum(map(mpf, pka[:k])) for k in range(n + 1)]
    charged = [b * (top - k) for k, b in enumerate(beta)]
    kw = mpf(10) ** -mpf(pkw)
    polynomial = plus(times([1, mpf(charge), -kw], beta), times([mpf(total), 0], charged))
    roots = mp.polyroots(polynomial, maxsteps=500, extraprec=250)
    positive = [r.real for r in roots if abs(r.imag) < mpf(10) ** -40 and r.real > 0]
    assert len(positive) == 1, positive
    return -mp.log10(positive[0])


class ClosedForms(unittest.TestCase):
    def near(self, text, expected, tolerance=PRINTED):
        self.assertLess(abs(mpf(text) - expected), tolerance * max(1, abs(expected)))

    def test_pure_water_is_half_of_pkw_in_both_models(self):
        for model in ("ideal", "davies"):
            for pkw in (13.034, 14.0, 14.938):
                reply = equilibrium.solve(case(model=model, pkw=pkw))
                self.near(reply["ph"], mpf(pkw) / 2)
                self.assertEqual(reply["h"], reply["oh"])

    def test_strong_acid_and_alkali_are_a_quadratic(self):
        kw = mpf(10) ** -14
        for concentration in (1e-12, 1e-8, 1e-7, 1e-3, 2.0):
            c = mpf(concentration)
            more = (c + mp.sqrt(c * c + 4 * kw)) / 2
            acid = equilibrium.solve(case(strong=[(-1, concentration)]))
            alkali = equilibrium.solve(case(strong=[(1, concentration)]))
            self.near(acid["ph"], -mp.log10(more))
            self.near(alkali["ph"], 14 + mp.log10(more))

    def test_weak_acid_is_a_cubic(self):
        for pka in (0.5, 4.756, 9.25, 13.9):
            for total in (1e-7, 1e-3, 1.5):
                reply = equilibrium.solve(case(weak=[(0, [pka], total)]))
                ka, kw, c = mpf(10) ** -mpf(pka), mpf(10) ** -14, mpf(total)
                roots = mp.polyroots([1, ka, -(kw + ka * c), -ka * kw], maxsteps=300, extraprec=400)
                h = max(r.real for r in roots)
                self.near(reply["ph"], -mp.log10(h))
                self.near(reply["species"][0][1], ka * c / (ka + h))

    def test_buffer_and_polyprotic_systems_are_polynomials(self):
        cases = [
            (0, [4.756], 0.2, 0.1),
            (1, [9.245], 0.6, -0.4),
            (0, [2.148, 7.198, 12.35], 0.05, 0.075),
            (2, [2.0, 2.1, 9.5], 0.3, -0.25),
            (-1, [6.5, 6.5], 1e-6, 2.5e-6),
            (0, [3.128, 4.761, 6.396], 1.9, 5.7),
        ]
        for top, pka, total, charge in cases:
            ion = (1, charge) if charge > 0 else (-1, -charge)
            reply = equilibrium.solve(case(weak=[(top, pka, total)], strong=[ion], pkw=13.995))
            self.near(reply["ph"], ph_by_polynomial(top, pka, total, charge, 13.995))

    def test_half_neutralized_buffer_sits_at_its_pka(self):
        """A concentrated ideal pair of pKa 7 in water of pKw 14: exactly 7."""
        reply = equilibrium.solve(case(weak=[(0, [7.0], 0.5)], strong=[(1, 0.25)]))
        self.near(reply["ph"], mpf(7))

    def test_davies_strong_acid_in_salt_is_a_fixed_point(self):
        """I = (K + Cl + h + oh)/2 and h - oh = Cl - K, iterated from the salt alone."""
        for potassium, chloride in ((0.05, 0.184), (1e-6, 1e-5), (0.5, 0.5000003)):
            k, cl = mpf(potassium), mpf(chloride)
            strength = (k + cl) / 2
            for _ in range(400):
                water = mpf(10) ** (-14 - 2 * log_gamma(strength))
                h = (cl - k + mp.sqrt((cl - k) ** 2 + 4 * water)) / 2
                strength = (k + cl + h + water / h) / 2
            reply = equilibrium.solve(case(strong=[(1, potassium), (-1, chloride)], model="davies"))
            self.near(reply["ph"], -mp.log10(h) - log_gamma(strength))
            self.near(reply["ionic_strength"], strength)
            self.assertEqual(reply["roots"], 1)

    def test_davies_weak_acid_is_one_equation(self):
        """A neutral acid alone: h = A- + OH-, so I = h, and mass action is left to solve."""
        for pka, total in ((4.756, 0.1), (2.0, 1.0), (9.25, 0.01)):

            def excess(h, pka=pka, total=total):
                gamma = mpf(10) ** log_gamma(h)
                base = h - mpf(10) ** -14 / (gamma * gamma * h)
                return base * h * gamma * gamma - mpf(10) ** -mpf(pka) * (mpf(total) - base)

            limits = (mpf(10) ** -7, mpf(total))
            h = mp.findroot(excess, limits, solver="anderson", tol=mpf(10) ** -110, maxsteps=300)
            reply = equilibrium.solve(case(weak=[(0, [pka], total)], model="davies"))
            self.near(reply["ph"], -mp.log10(h) - log_gamma(h), mpf(10) ** -25)
            self.near(reply["ionic_strength"], h, mpf(10) ** -25)
            self.assertEqual(reply["roots"], 1)

    def test_all_self_consistent_ionic_strengths_are_counted(self):
        """A diprotic acid alone, by the ideal polynomial with constants at fixed I.

        At the A of water there is one ionic strength; at an A of 8, far outside physics,
        there are three, and the smallest is returned."""
        pka, total = [4.74, 4.94], 0.02534
        for a, expected in ((0.509, 1), (8.0, 3)):

            def state(strength, a=a):
                lg = [log_gamma(strength, a, z) for z in range(3)]
                pk = [pka[0] + 2 * lg[1], pka[1] + lg[2]]
                ph = ph_by_polynomial(0, pk, total, 0, 14 + 2 * lg[1])
                h = mpf(10) ** -ph
                # With h = OH- + HA- + 2 A2-, I = h + A2-.
                k1, k2 = (mpf(10) ** -p for p in pk)
                return ph - lg[1], h + total * k1 * k2 / (h * h + k1 * h + k1 * k2)

            def gap(strength, state=state):
                return state(strength)[1] - strength

            grid = [mpf(10) ** (mpf(k) / 12 - 5) for k in range(60)]
            values = [gap(x) for x in grid]
            changes = [i for i in range(1, 60) if (values[i - 1] > 0) != (values[i] > 0)]
            reply = equilibrium.solve(case(weak=[(0, pka, total)], model="davies", a=a))
            self.assertEqual(len(changes), expected)
            self.assertEqual(reply["roots"], expected)
            limits = grid[changes[0] - 1], grid[changes[0]]
            strength = mp.findroot(gap, limits, solver="anderson", tol=mpf(10) ** -80)
            self.near(reply["ionic_strength"], strength, mpf(10) ** -25)
            self.near(reply["ph"], state(strength)[0], mpf(10) ** -25)


class Protocol(unittest.TestCase):
    def run_solver(self, text):
        done = subprocess.run(
            [sys.executable, str(SOLVER)], input=text, capture_output=True, text=True, check=True
        )
        return done.stdout

    def test_document_and_lines_give_the_same_answers(self):
        cases = [dict(case(strong=[(-1, k / 10)], model="davies"), id=k) for k in range(1, 11)]
        document = json.loads(self.run_solver(json.dumps({"cases": cases})))["cases"]
        lines = self.run_solver("".join(json.dumps(c) + "\n" for c in cases)).splitlines()
        self.assertEqual(document, [json.loads(line) for line in lines])
        self.assertEqual([reply["id"] for reply in document], list(range(1, 11)))

    def test_exact_strings_come_before_floats(self):
        """A seventh of a mole of acid, and of alkali short of it by 1e-9 mol."""
        strong = [
            {"charge": -1, "mol": 1.0, "mol_exact": "1/7"},
            {"charge": 1, "mol": 1.0, "mol_exact": str(Fraction(1, 7) - Fraction(1, 10**9))},
        ]
        reply = equilibrium.solve(dict(case(), strong=strong))
        c = mpf(10) ** -9
        h = (c + mp.sqrt(c * c + 4 * mpf(10) ** -14)) / 2
        self.assertLess(abs(mpf(reply["h"]) / h - 1), PRINTED)

    def test_a_volume_of_nothing_is_refused(self):
        with self.assertRaises(Unsolved):
            equilibrium.solve(case(volume=0.0))

    def test_the_residual_sees_a_wrong_answer(self):
        """The check of answers recomputes every law: a change in any quantity shows."""
        setup = case(weak=[(0, [4.756], 0.2)], strong=[(1, 0.1)], model="davies")
        reply = equilibrium.solve(setup)
        good = [mpf(reply[name]) for name in ("ph", "h", "oh", "ionic_strength")]
        species = [[mpf(c) for c in reply["species"][0]]]
        ph, h, oh, strength = good
        self.assertLess(equilibrium.residual(setup, ph, h, oh, species, strength), PRINTED)
        for k in range(4):
            bad = [x * (1 + mpf(10) ** -9) if i == k else x for i, x in enumerate(good)]
            wrong = equilibrium.residual(setup, bad[0], bad[1], bad[2], species, bad[3])
            self.assertGreater(wrong, mpf(10) ** -11)
        for k in range(2):
            bad = [[c * (1 + mpf(10) ** -9) if i == k else c for i, c in enumerate(species[0])]]
            wrong = equilibrium.residual(setup, ph, h, oh, bad, strength)
            self.assertGreater(wrong, mpf(10) ** -11)


class Mixtures(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.cases = mixtures.mixtures()

    def test_the_same_seed_gives_the_same_mixtures(self):
        self.assertEqual(self.cases[:80], mixtures.mixtures(count=40))
        self.assertNotEqual(self.cases[:80], mixtures.mixtures(count=40, seed=1))

    def test_there_are_enough_of_every_kind(self):
        self.assertGreaterEqual(len({c["mixture"] for c in self.cases}), 1200)
        families = {family.__name__ for family, _ in mixtures.FAMILIES}
        self.assertEqual({c["family"] for c in self.cases}, families)
        systems = [w for c in self.cases for w in c["weak"]]
        self.assertEqual({w["top_charge"] for w in systems}, {-1, 0, 1, 2})
        self.assertEqual({len(w["pka"]) for w in systems}, {1, 2, 3})
        gaps = [q - p for w in systems for p, q in zip(w["pka"], w["pka"][1:])]
        self.assertGreater(sum(gap < 0.3 for gap in gaps), 50)
        self.assertTrue(all(gap >= 0 for gap in gaps))
        charges = {i["charge"] for c in self.cases for i in c["strong"]}
        self.assertEqual(charges, {-3, -2, -1, 1, 2, 3})

    def test_totals_are_exactly_those_of_the_recipe(self):
        """Adds the recipe up again, by hydrogen balance rather than by counter-ions."""
        for c in self.cases:
            volume, weak, hydrogen = Fraction(0), [Fraction(0)] * len(c["weak"]), Fraction(0)
            for step in c["recipe"]:
                kind = step["do"]
                if kind == "water":
                    volume += Fraction(step["volume_l"])
                elif kind == "weak":
                    system, mol = c["weak"][step["system"]], Fraction(step["mol"])
                    weak[step["system"]] += mol
                    short = len(system["pka"]) - Fraction(step["protons"])
                    hydrogen += mol * (system["top_charge"] - short)
                elif kind == "strong_acid":
                    hydrogen += Fraction(step["mol_h"])
                elif kind == "strong_alkali":
                    hydrogen -= Fraction(step["mol_oh"])
                else:
                    self.assertEqual(kind, "salt")
            self.assertEqual(volume, Fraction(c["volume_l_exact"]))
            self.assertEqual(weak, [Fraction(w["total_mol_exact"]) for w in c["weak"]])
            charge = sum(i["charge"] * Fraction(i["mol_exact"]) for i in c["strong"])
            self.assertEqual(charge + hydrogen, 0)

    def test_a_sample_leaves_no_residual(self):
        for reply in equilibrium.solve_all(self.cases[:80]):
            self.assertLess(mpf(reply["residual"]), mpf(10) ** -45)


if __name__ == "__main__":
    unittest.main()
