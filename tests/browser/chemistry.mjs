// The same bench worked out a second time, without a line of the page's own code: full charge
// and mass balance, activities as concentrations, Kw = 1.00e-14, volumes add up.
// Worked independently, no published source; the pKa values are those of ../data/pka_25C.csv,
// each with its source there.

import { readFileSync } from "node:fs";

const KW = 1e-14;

/** Cells of a CSV line; quotes may hold commas. */
function cells(line) {
  return [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map((m) => m[1].replace(/^"|"$/g, ""));
}

const table = readFileSync(new URL("../data/pka_25C.csv", import.meta.url), "utf8")
  .split("\n")
  .filter((line) => line && !line.startsWith("#"))
  .map(cells);

/** A system of the table: its pKa values in order, and the charge of its fullest form. */
export function system(key) {
  const rows = table.filter((row) => row[1] === key).sort((a, b) => a[3] - b[3]);
  if (rows.length === 0) throw new Error(`no ${key} in pka_25C.csv`);
  return { pkas: rows.map((row) => Number(row[5])), topCharge: Number(rows[0][4]) };
}

/** Shares of the forms of a system at [H⁺] = `h`, fullest form first. */
function shares(pkas, h) {
  let weight = 1;
  const weights = [1, ...pkas.map((pka) => (weight *= 10 ** -pka / h))];
  const sum = weights.reduce((a, b) => a + b);
  return weights.map((w) => w / sum);
}

/** pH at which the charges cancel, by halving. Amounts in mol, volume in dm³. */
function balance({ pkas, topCharge, amount, strong, volume }) {
  const charge = (ph) => {
    const h = 10 ** -ph;
    const mean = shares(pkas, h).reduce((sum, share, lost) => sum + share * (topCharge - lost), 0);
    return h - KW / h + (amount * mean + strong) / volume;
  };
  let [low, high] = [-2, 16];
  for (let i = 0; i < 100; i += 1) {
    const middle = (low + high) / 2;
    if (charge(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * A flask made of `acid` and `base` mmol of the two forms of a pair (the acid form has lost
 * `lost` protons) and `strong` mmol of strong alkali (negative: acid), in `volume` cm³;
 * `stock` in mol dm⁻³. Returns what it is after so many mmol of acid and alkali.
 */
export function flask({ pkas, topCharge, lost = 0, acid = 0, base = 0, strong = 0, volume, stock = 1 }) {
  const acidCharge = topCharge - lost;
  // Each form comes with the ions that make it neutral.
  const spectators = -(acid * acidCharge + base * (acidCharge - 1)) + strong;
  return (acidAdded, alkaliAdded) => {
    const litres = (volume + (acidAdded + alkaliAdded) / stock) / 1000;
    const amount = (acid + base) / 1000;
    const added = (alkaliAdded - acidAdded) / 1000;
    const ph = balance({ pkas, topCharge, amount, strong: spectators / 1000 + added, volume: litres });
    const h = 10 ** -ph;
    const forms = shares(pkas, h).map((share) => share * amount * 1000);
    return {
      ph,
      water: balance({ pkas: [], topCharge: 0, amount: 0, strong: added, volume: litres }),
      acid: forms[lost],
      base: forms[lost + 1],
      freeH: h * litres * 1000,
      freeOH: (KW / h) * litres * 1000,
    };
  };
}
