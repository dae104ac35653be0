"""Random mixtures for comparing the engine with the reference solver.

    python mixtures.py [--count 1200] [--seed 20250] > cases.json

Each mixture gives two cases, one for each model, in the protocol of equilibrium.py, with
three more fields: "mixture" (its number), "family" (how it was drawn) and "recipe", the
steps by which the engine makes it:

    {"do": "water", "volume_l": v}
    {"do": "weak", "system": i, "protons": p, "mol": m, "counter_charge": 1|-1|2|-2}
    {"do": "strong_acid", "mol_h": m, "anion_charge": -1|-2}
    {"do": "strong_alkali", "mol_oh": m, "cation_charge": 1|2}
    {"do": "salt", "mol": m, "cation_charge": 1..3, "anion_charge": -1..-3}

"protons" is the mean number of protons carried as entered, from 0 to the number of
constants, not always whole. Its charge is balanced by a counter-ion of the opposite
sign; where it is neutral there is none, whatever "counter_charge" says. "mol" of a salt
counts electroneutral formula units: two anions of charge -1 for each cation of charge
2. Only water brings volume.

The totals are summed from the recipe as rationals of the floats and given as exact
strings, so the reference solves exactly the mixture that the engine adds up in floats.

Numbers come from random() of the Mersenne Twister, whose sequence for an integer seed
the standard library promises to keep; they are rounded to seven digits, which keeps
them the same where pow differs in the last bit.
"""

import argparse
import json
import math
import random
import sys
from fractions import Fraction

SEED = 20250
COUNT = 1200
LEAST, MOST = 1e-7, 2.0  # mol/dm3 of each substance added

# pKw and the Debye-Hueckel A at the ends of the range, 60 C and 0 C.
HOT, COLD = (13.0, 0.5425), (14.95, 0.4883)


class Draw:
    """Named draws from one Mersenne Twister."""

    def __init__(self, seed):
        self.random = random.Random(seed).random

    def uniform(self, low, high):
        return float(f"{low + (high - low) * self.random():.7g}")

    def log_uniform(self, low, high):
        return float(f"{low * (high / low) ** self.random():.7g}")

    def whole(self, low, high):
        return low + int(self.random() * (high - low + 1))

    def of(self, options):
        return options[int(self.random() * len(options))]

    def chance(self, probability):
        return self.random() < probability


class Batch:
    """A mixture being made: the recipe and, in step with it, the exact totals."""

    def __init__(self, draw, least=LEAST, most=MOST):
        self.draw = draw
        self.least, self.most = least, most
        self.recipe, self.systems, self.totals = [], [], []
        self.strong = {}
        self.volume = Fraction(0)

    def water(self):
        """One to three portions of water, 1e-3 to 10 dm3 in all but for rounding."""
        whole = self.draw.log_uniform(1e-3, 10.0)
        for _ in range(portions := self.draw.whole(1, 3)):
            portion = float(f"{whole / portions:.7g}")
            self.recipe.append({"do": "water", "volume_l": portion})
            self.volume += Fraction(portion)

    def amount(self):
        """An amount whose concentration is log-uniform."""
        concentration = self.draw.log_uniform(self.least, self.most)
        return float(f"{concentration * float(self.volume):.7g}")

    def ion(self, charge, amount):
        self.strong[charge] = self.strong.get(charge, Fraction(0)) + amount

    def system(self, steps=None, near=False):
        """A new weak system; `near` puts two constants within 0.3 of each other."""
        steps = steps or self.draw.whole(2 if near else 1, 3)
        pka = sorted(self.draw.uniform(0.0, 14.0) for _ in range(steps))
        if near:
            k = self.draw.whole(1, steps - 1)
            pka[k] = float(f"{pka[k - 1] + self.draw.uniform(0.0, 0.3):.7g}")
            pka.sort()
        # No form beyond charge -3, where the engine's range of charges ends.
        top_charge = self.draw.of([z for z in (-1, 0, 1, 2) if z - steps >= -3])
        self.systems.append({"top_charge": top_charge, "pka": pka})
        self.totals.append(Fraction(0))
        return len(self.systems) - 1

    def protons(self, system):
        """As acid, as the fully deprotonated salt, as a whole step, or part-way."""
        most = len(self.systems[system]["pka"])
        kind = self.draw.whole(0, 3)
        if kind == 0:
            return float(most)
        if kind == 1:
            return 0.0
        return float(self.draw.whole(0, most)) if kind == 2 else self.draw.uniform(0.0, most)

    def weak(self, system, protons, mol):
        steps = len(self.systems[system]["pka"])
        charge = self.systems[system]["top_charge"] - steps + Fraction(protons)
        magnitude = 2 if self.draw.chance(0.2) else 1
        counter = -magnitude if charge > 0 else magnitude
        step = {"do": "weak", "system": system, "protons": protons, "mol": mol}
        self.recipe.append({**step, "counter_charge": counter})
        self.totals[system] += Fraction(mol)
        self.ion(counter, abs(charge) * Fraction(mol) / magnitude)

    def strong_acid(self, mol):
        charge = self.draw.of([-1, -1, -2])
        self.recipe.append({"do": "strong_acid", "mol_h": mol, "anion_charge": charge})
        self.ion(charge, Fraction(mol) / -charge)

    def strong_alkali(self, mol):
        charge = self.draw.of([1, 1, 2])
        self.recipe.append({"do": "strong_alkali", "mol_oh": mol, "cation_charge": charge})
        self.ion(charge, Fraction(mol) / charge)

    def salt(self):
        cation, anion = self.draw.of([(1, -1), (2, -1), (1, -2), (2, -2), (3, -1), (1, -3)])
        mol = self.amount()
        step = {"do": "salt", "mol": mol, "cation_charge": cation, "anion_charge": anion}
        self.recipe.append(step)
        common = math.gcd(cation, -anion)
        self.ion(cation, Fraction(mol) * (-anion // common))
        self.ion(anion, Fraction(mol) * (cation // common))

    def weak_systems(self, count, near=False):
        """So many systems, each entered once or twice."""
        for system in [self.system(near=near) for _ in range(count)]:
            for _ in range(self.draw.whole(1, 2)):
                self.weak(system, self.protons(system), self.amount())

    def additions(self):
        """Any of strong acid, strong alkali and salt."""
        if self.draw.chance(0.5):
            self.strong_acid(self.amount())
        if self.draw.chance(0.5):
            self.strong_alkali(self.amount())
        if self.draw.chance(0.5):
            self.salt()


def strong_only(batch):
    kind = batch.draw.whole(0, 2)
    if kind != 1:
        batch.strong_acid(batch.amount())
    if kind != 0:
        batch.strong_alkali(batch.amount())
    if batch.draw.chance(0.3):
        batch.salt()


def neutralized_strong(batch):
    """Equal amounts of H+ and OH-: back to water, in a salt solution."""
    mol = batch.amount()
    batch.strong_acid(mol)
    batch.strong_alkali(mol)


def neutralized_weak(batch):
    """A weak acid and strong alkali, or a weak base and strong acid, in equal amounts of
    substance, or with half the amount of titrant."""
    system, mol = batch.system(), batch.amount()
    titrant = mol if batch.draw.chance(0.5) else mol / 2
    if batch.draw.chance(0.5):
        batch.weak(system, float(len(batch.systems[system]["pka"])), mol)
        batch.strong_alkali(titrant)
    else:
        batch.weak(system, 0.0, mol)
        batch.strong_acid(titrant)


def buffer(batch):
    """One monoprotic pair, both partners entered, then some acid or alkali."""
    system = batch.system(steps=1)
    batch.weak(system, 1.0, batch.amount())
    batch.weak(system, 0.0, batch.amount())
    batch.draw.of([batch.strong_acid, batch.strong_alkali])(batch.amount())


def one_weak(batch):
    batch.weak_systems(1)


def one_weak_with_additions(batch):
    batch.weak_systems(1)
    batch.additions()


def two_weak(batch):
    batch.weak_systems(2)
    batch.additions()


def three_weak(batch):
    batch.weak_systems(3)
    batch.additions()


def near_equal_constants(batch):
    batch.weak_systems(batch.draw.whole(1, 2), near=True)
    batch.additions()


def very_dilute(batch):
    """Where water's own ions count."""
    batch.least, batch.most = LEAST, 1e-5
    batch.weak_systems(batch.draw.whole(1, 3))
    batch.additions()


def pure_water(batch):
    """Nothing dissolved."""


# Each family and how many of every forty mixtures it gets.
FAMILIES = [
    (pure_water, 1),
    (strong_only, 3),
    (Batch.salt, 1),
    (neutralized_strong, 1),
    (neutralized_weak, 4),
    (buffer, 5),
    (one_weak, 4),
    (one_weak_with_additions, 6),
    (two_weak, 4),
    (three_weak, 4),
    (near_equal_constants, 4),
    (very_dilute, 3),
]
SCHEDULE = [family for family, share in FAMILIES for _ in range(share)]


def mixture(number, draw):
    """The two cases of one mixture."""
    family = SCHEDULE[number % len(SCHEDULE)]
    batch = Batch(draw)
    batch.water()
    family(batch)
    cold = draw.random()
    pkw, a = (float(f"{h + (c - h) * cold:.5g}") for h, c in zip(HOT, COLD))
    weak = [
        {**system, "total_mol": float(total), "total_mol_exact": str(total)}
        for system, total in zip(batch.systems, batch.totals)
    ]
    strong = [
        {"charge": charge, "mol": float(mol), "mol_exact": str(mol)}
        for charge, mol in sorted(batch.strong.items())
        if mol != 0
    ]
    for model in ("ideal", "davies"):
        yield {
            "id": 2 * number + (model == "davies"),
            "mixture": number,
            "family": family.__name__,
            "model": model,
            "pkw": pkw,
            "debye_huckel_a": a,
            "volume_l": float(batch.volume),
            "volume_l_exact": str(batch.volume),
            "weak": weak,
            "strong": strong,
            "recipe": batch.recipe,
        }


def mixtures(count=COUNT, seed=SEED):
    draw = Draw(seed)
    return [case for number in range(count) for case in mixture(number, draw)]


def main():
    parser = argparse.ArgumentParser(description="Draw random acid-base mixtures.")
    parser.add_argument("--count", type=int, default=COUNT)
    parser.add_argument("--seed", type=int, default=SEED)
    options = parser.parse_args()
    json.dump({"cases": mixtures(options.count, options.seed)}, sys.stdout)
    sys.stdout.write("\n")


if __name__ == "__main__":
    main()
