"""The published tables of tests/data as cases for the reference solver."""

import csv
import functools
import math
from collections import namedtuple
from pathlib import Path

from equilibrium import solve_all

TABLES = Path(__file__).resolve().parent.parent / "data"
GAS_CONSTANT = 8.314462618  # J/(mol K), exact in the SI of 2019 to these digits
ICE_POINT = 273.15

# One published figure: where it stands, its conditions, the mixture, and the value.
Check = namedtuple("Check", "table row celsius source status case quantity published")


@functools.lru_cache(maxsize=None)
def rows(name):
    with open(TABLES / f"{name}.csv", newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def at_temperature(name, series, column, celsius):
    """Linear interpolation in one series of a table."""
    points = sorted(
        (float(r["temperature_C"]), float(r[column])) for r in rows(name) if r["series"] == series
    )
    for (t0, y0), (t1, y1) in zip(points, points[1:]):
        if t0 <= celsius <= t1:
            return y0 + (y1 - y0) * (celsius - t0) / (t1 - t0)
    raise ValueError(f"{celsius} C is outside {series}")


class Water:
    """The choice of series for pKw and A, at any temperature they cover."""

    def __init__(self, pkw_series, a_series):
        self.pkw_series, self.a_series = pkw_series, a_series

    def pkw(self, celsius):
        return at_temperature("kw_temperature", self.pkw_series, "pKw", celsius)

    def debye_huckel_a(self, celsius):
        return at_temperature("debye_huckel_A", self.a_series, "A_log10_kg0.5_mol-0.5", celsius)


WATER = Water("CRC_Marshall_Franck_1981", "IAPWS_computed")


def pka_at(entry, celsius, use_dcp=True):
    """pKa at a temperature, from the enthalpy and heat capacity of ionization at 25 C.

    ln K(T) = ln K(T0) - dH/R (1/T - 1/T0) + dCp/R (ln(T/T0) + T0/T - 1)."""
    t, t0 = celsius + ICE_POINT, 25 + ICE_POINT
    enthalpy = 1000 * float(entry["dH_ionisation_kJ_per_mol"] or 0)
    heat_capacity = float(entry["dCp_ionisation_J_per_mol_K"] or 0) if use_dcp else 0.0
    change = -enthalpy * (1 / t - 1 / t0) + heat_capacity * (math.log(t / t0) + t0 / t - 1)
    return float(entry["pKa_25C_I0"]) - change / (GAS_CONSTANT * math.log(10))


def acid(key):
    entries = sorted((r for r in rows("pka_25C") if r["key"] == key), key=lambda r: int(r["step"]))
    if not entries:
        raise KeyError(key)
    return entries


def weak(key, celsius, total, use_dcp=True):
    entries = acid(key)
    return {
        "top_charge": int(entries[0]["charge_of_fully_protonated_form"]),
        "pka": [pka_at(entry, celsius, use_dcp) for entry in entries],
        "total_mol": total,
    }


def case(model, water, celsius, weaks, strong):
    """A case of one cubic decimetre (molal recipes are used as they stand)."""
    return {
        "id": 0,
        "model": model,
        "pkw": water.pkw(celsius),
        "debye_huckel_a": water.debye_huckel_a(celsius),
        "volume_l": 1.0,
        "weak": weaks,
        "strong": [{"charge": z, "mol": c} for z, c in strong],
    }


def nist(model, water, use_dcp=True):
    for n, r in enumerate(rows("nist_standards")):
        celsius = float(r["temperature_C"])
        if r["weak_acid_key"]:
            weaks = [weak(r["weak_acid_key"], celsius, float(r["weak_total_mol_per_kg"]), use_dcp)]
            strong = [(1, float(r["strong_cation_mol_per_kg"]))]
        else:
            # The composition is only given in words: 0.0203 mol/kg of Ca(OH)2.
            weaks, strong = [], [(2, 0.0203)]
        setup = case(model, water, celsius, weaks, strong)
        published = float(r["pH_S"])
        yield Check(r["standard"], n, celsius, r["source"], r["status"], setup, "pH", published)


def titrated(name, titrant_charge, model, water):
    """The recipes "base solution, titrant, made up to a volume"."""
    for n, r in enumerate(rows(name)):
        celsius = float(r["temperature_C"])
        base = float(r["base_volume_cm3"]) / float(r["final_volume_cm3"])
        volume = float(r["titrant_volume_cm3"]) / float(r["final_volume_cm3"])
        strong = [
            (1, base * float(r["strong_cation_in_base_mol_per_dm3"])),
            (-1, base * float(r["strong_anion_in_base_mol_per_dm3"])),
            (titrant_charge, volume * float(r["titrant_mol_per_dm3"])),
        ]
        total = base * float(r["weak_total_in_base_mol_per_dm3"])
        weaks = [weak(r["weak_acid_key"], celsius, total)] if r["weak_acid_key"] else []
        setup = case(model, water, celsius, weaks, strong)
        published = float(r["pH_published"])
        yield Check(r["table"], n, celsius, r["source"], r["status"], setup, "pH", published)


def ethanoate(model, water):
    """Walpole's and Gomori's recipes.

    Walpole's pH is on Soerensen's scale (+0.04). Gomori does not say that his is the same;
    his ratios are Walpole's."""
    for n, r in enumerate(rows("buffer_acetate")):
        celsius, whole = float(r["temperature_C"]), float(r["final_volume_cm3"])
        acid_form = float(r["acetic_acid_stock_mol_per_dm3"]) * float(r["acetic_acid_volume_cm3"])
        salt = float(r["sodium_acetate_stock_mol_per_dm3"]) * float(r["sodium_acetate_volume_cm3"])
        weaks = [weak("ethanoic", celsius, (acid_form + salt) / whole)]
        setup = case(model, water, celsius, weaks, [(1, salt / whole)])
        published = float(r["pH_published"]) + 0.04
        yield Check(r["table"], n, celsius, r["source"], r["status"], setup, "pH", published)


def textbook():
    """Worked answers of a textbook: ideal model, Kw = 1.0e-14, its own constants.

    `published` stays text, because its digits say how precise it is."""
    for n, r in enumerate(rows("textbook_examples")):
        constants = [float(k) for k in r["Ka_list"].split()]
        weaks = []
        if constants:
            weaks.append(
                {
                    "top_charge": int(r["charge_of_fully_protonated_form"]),
                    "pka": [-math.log10(k) for k in constants],
                    "total_mol": float(r["weak_total_mol_per_dm3"]),
                }
            )
        setup = {
            "id": r["id"], "model": "ideal", "pkw": 14.0, "debye_huckel_a": 0.0,
            "volume_l": 1.0, "weak": weaks,
            "strong": [
                {"charge": 1, "mol": float(r["strong_cation_mol_per_dm3"])},
                {"charge": -1, "mol": float(r["strong_anion_mol_per_dm3"])},
            ],
        }
        quantity, published = r["quantity"], r["published_answer"]
        yield Check(r["id"], n, 25.0, r["source"], r["status"], setup, quantity, published)


def last_digit(text):
    """The value of one unit in the last printed digit: 0.01 for 4.74, 1e-6 for 7.56e-4."""
    mantissa, _, exponent = text.lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    return 10.0 ** (int(exponent or 0) - decimals)


def deviations(checks):
    """Each check with computed minus published pH."""
    checks = list(checks)
    replies = solve_all([check.case for check in checks])
    return [(c, float(reply["ph"]) - c.published) for c, reply in zip(checks, replies)]


def worst(pairs, wanted=lambda check: True):
    """The largest deviation, with its sign, and where it stands."""
    pairs = [(check, d) for check, d in pairs if wanted(check)]
    return max(pairs, key=lambda pair: abs(pair[1]))

