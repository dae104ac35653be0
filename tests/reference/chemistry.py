"""The equations of an acid-base mixture, in double precision or in 60 digits.

A mixture has one unknown at given activity coefficients, [H+]: mass action gives the
share of every form of every weak system, Kw gives [OH-], and the sum of all charges
rises with [H+] from below zero to above, so it has exactly one root.
"""

import math
from fractions import Fraction

from mpmath import mp, mpf

mp.dps = 60

# Upper bound of sqrt(I)/(1 + sqrt(I)) - 0.3 I over all I (its maximum is 0.2469).
DAVIES_BRACKET_MAX = 0.25


class Unsolved(Exception):
    """The case has no answer that passes its own checks."""


class FloatField:
    """Double precision, for finding where the roots are."""

    number = float
    exp = staticmethod(math.exp)
    sqrt = staticmethod(math.sqrt)
    ln10 = math.log(10)
    # Newton's last step in ln[H+]: the error after it is about the square of it.
    last_step = 1e-7


class DigitField:
    """60-digit arithmetic, for the answers."""

    number = mpf
    exp = staticmethod(mp.exp)
    sqrt = staticmethod(mp.sqrt)
    ln10 = mp.log(10)
    last_step = mpf(10) ** -26


def exact(entry, name):
    """The rational value of a field, from its exact string or its binary float."""
    text = entry.get(name + "_exact")
    return Fraction(text) if text is not None else Fraction(float(entry[name]))


def to_mpf(fraction):
    return mpf(fraction.numerator) / mpf(fraction.denominator)


class WeakSystem:
    """An acid with all its conjugate forms, at a total concentration."""

    def __init__(self, weak, total, field):
        self.total, self.field = total, field
        # Charges from the form with most protons to that with none left to lose.
        self.charges = [int(weak["top_charge"]) - k for k in range(len(weak["pka"]) + 1)]
        # ln of the product of the constants down to each form: Ka1 Ka2 ... Kak.
        self.ln_beta = [field.number(0)]
        for pka in weak["pka"]:
            self.ln_beta.append(self.ln_beta[-1] - field.ln10 * field.number(pka))

    def weights(self, ln_activity_h, unit):
        """Amounts of the forms relative to each other: beta_k / (a(H+)^k gamma_k)."""
        ln_weights = []
        lost = 0
        for charge, ln_beta in zip(self.charges, self.ln_beta):
            ln_weights.append(ln_beta - lost * ln_activity_h - charge * charge * unit)
            lost += 1
        highest = max(ln_weights)
        return [self.field.exp(w - highest) for w in ln_weights]

    def concentrations(self, ln_activity_h, unit):
        weights = self.weights(ln_activity_h, unit)
        whole = sum(weights)
        return [self.total * w / whole for w in weights]


class Composition:
    """What was put in, as concentrations in one number field."""

    def __init__(self, case, field):
        def number(fraction):
            return field.number(to_mpf(fraction))

        volume = exact(case, "volume_l")
        if volume <= 0:
            raise Unsolved("volume must be positive")
        self.field = field
        self.davies = {"davies": True, "ideal": False}[case["model"]]
        self.a = field.number(case["debye_huckel_a"]) if self.davies else field.number(0)
        self.ln_kw = -field.ln10 * field.number(case["pkw"])
        self.systems = [
            WeakSystem(weak, number(exact(weak, "total_mol") / volume), field)
            for weak in case["weak"]
        ]
        strong = [(int(i["charge"]), exact(i, "mol") / volume) for i in case["strong"]]
        # Summed as rationals, so that nothing is lost where the charges cancel.
        self.strong_charge = number(sum((z * c for z, c in strong), Fraction(0)))
        self.strong_strength = number(sum((z * z * c for z, c in strong), Fraction(0)) / 2)
        self.positive = float(sum(z * c for z, c in strong if z > 0))
        self.negative = float(sum(-z * c for z, c in strong if z < 0))
        self.most_strength = float(self.strong_strength)
        for system in self.systems:
            total, top, bottom = float(system.total), system.charges[0], system.charges[-1]
            self.positive += max(top, 0) * total
            self.negative += max(-bottom, 0) * total
            self.most_strength += max(top * top, bottom * bottom) * total / 2
        # So far without water's own ions, of which there are at most the charge they
        # balance and sqrt([H+][OH-]) each.
        water = 2 * math.exp(float(self.ln_kw) / 2) * 10 ** (float(self.a) * DAVIES_BRACKET_MAX)
        self.most_strength += (self.positive + self.negative + water) / 2

    def unit_ln_gamma(self, strength):
        """ln of the activity coefficient of an ion of charge 1 (multiply by z^2)."""
        root = self.field.sqrt(strength)
        return -self.field.ln10 * self.a * (root / (1 + root) - strength * 3 / 10)

    def water(self, ln_h, unit):
        """Concentrations of H+ and OH-."""
        return self.field.exp(ln_h), self.field.exp(self.ln_kw - 2 * unit - ln_h)

    def balance(self, ln_h, unit):
        """Sum of all charges, its derivative to ln[H+] (always positive), and the ionic
        strength of the species present at this [H+]."""
        h, oh = self.water(ln_h, unit)
        charge, slope = h - oh + self.strong_charge, h + oh
        strength = self.strong_strength + (h + oh) / 2
        for system in self.systems:
            whole = first = second = 0
            for z, weight in zip(system.charges, system.weights(ln_h + unit, unit)):
                whole += weight
                first += z * weight
                second += z * z * weight
            mean, mean_square = first / whole, second / whole
            charge += system.total * mean
            # A variance, so not negative, whatever the rounding.
            slope += system.total * max(mean_square - mean * mean, 0)
            strength += system.total * mean_square / 2
        return charge, slope, strength

    def bracket_ln_h(self, unit):
        """An interval of ln[H+] on which the charge is sure to change sign.

        With s = sqrt([H+][OH-]), [H+] = n + s + 1 outweighs [OH-] and any negative charge
        n, and [OH-] = p + s + 1 outweighs [H+] and any positive charge p."""
        ln_product = float(self.ln_kw - 2 * unit)
        s = math.exp(ln_product / 2)
        low = ln_product - math.log(self.positive + s + 1)
        return self.field.number(low), self.field.number(math.log(self.negative + s + 1))

    def solve_ln_h(self, unit, guess=None):
        """ln[H+] at given activity coefficients.

        Newton's method inside a shrinking bracket; bisection where Newton leaves it or
        gains too little."""
        low, high = self.bracket_ln_h(unit)
        x = guess if guess is not None and low < guess < high else (low + high) / 2
        before = None
        for _ in range(400):
            charge, slope, _ = self.balance(x, unit)
            if charge > 0:
                high = x
            else:
                low = x
            step = -charge / slope
            if abs(step) <= self.field.last_step:
                return x + step
            slow = before is not None and 2 * abs(charge) > before
            before = abs(charge)
            if low < x + step < high and not slow:
                x += step
            else:
                x, before = (low + high) / 2, None
                if not low < x < high:
                    # No number lies between: as near as this precision comes.
                    return x
        raise Unsolved("the charge balance did not converge")
