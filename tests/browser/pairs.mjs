// Every pair on offer, made in both ways, and pairs of one's own.

import { amongParts, during, equationIs, withWorked } from "./agree.mjs";
import { flask, system } from "./chemistry.mjs";
import { equal, none, ok } from "./expect.mjs";

/** How each option is called, its system in ../data/pka_25C.csv, protons its acid form has lost. */
const LISTED = [
  [/^ethanoic acid and ethanoate,/, "ethanoic", 0],
  [/^propanoic acid and propanoate,/, "propanoic", 0],
  [/^methanoic acid and methanoate,/, "methanoic", 0],
  [/^butanoic acid and butanoate,/, "butanoic", 0],
  [/^lactic acid and lactate,/, "lactic", 0],
  [/^benzoic acid and benzoate,/, "benzoic", 0],
  [/^citric acid and dihydrogen ?citrate,/, "citric", 0],
  [/^dihydrogen ?citrate and hydrogen ?citrate,/, "citric", 1],
  [/^hydrogen ?citrate and citrate,/, "citric", 2],
  [/^chloroethanoic acid and chloroethanoate,/, "chloroethanoic", 0],
  [/^tartaric acid and hydrogentartrate,/, "tartaric", 0],
  [/^hydrogentartrate and tartrate,/, "tartaric", 1],
  [/^oxalic acid and hydrogenoxalate,/, "oxalic", 0],
  [/^hydrogenoxalate and oxalate,/, "oxalic", 1],
  [/^phthalic acid and hydrogenphthalate,/, "phthalic", 0],
  [/^hydrogenphthalate and phthalate,/, "phthalic", 1],
  [/^phosphoric acid and dihydrogenphosphate,/, "phosphoric", 0],
  [/^hydrogenphosphate and phosphate,/, "phosphoric", 2],
  [/^ethylammonium and ethylamine,/, "ethylammonium", 0],
  [/^hydrofluoric acid and fluoride,/, "hydrofluoric", 0],
  [/^nitrous acid and nitrite,/, "nitrous", 0],
  [/^hypochlorous acid and hypochlorite,/, "hypochlorous", 0],
  [/^hydrogen sulfide and hydrogensulfide,/, "hydrogen_sulfide", 0],
  [/^carbonic acid and hydrogencarbonate,/, "carbonic", 0],
  [/^dihydrogenphosphate and hydrogenphosphate,/, "phosphoric", 1],
  [/^protonated tris and tris,/, "tris", 0],
  [/^boric acid and (dihydrogen)?borate,/, "boric", 0],
  [/^ammonium and ammonia,/, "ammonium", 0],
  [/^methylammonium and methylamine,/, "methylammonium", 0],
  [/^hydrogencarbonate and carbonate,/, "carbonic", 1],
];

/** Symbols of a pair whose acid form has this charge. */
function symbols(charge) {
  const mark = (n) => ({ 1: "⁺", 0: "", "-1": "⁻", "-2": "²⁻", "-3": "³⁻" })[n];
  return charge === 1 ? { acid: "BH⁺", base: "B" } : { acid: `HA${mark(charge)}`, base: `A${mark(charge - 1)}` };
}

/** Looks at a pair at its start, after acid and after alkali too. */
async function walk(bench, recipe, moment) {
  const after = flask(recipe);
  const named = symbols(recipe.topCharge - (recipe.lost ?? 0));
  const [, , large] = await bench.sizes("acid");
  const problems = [];
  let [acid, alkali] = [0, 0];
  const look = async (when, equations) => {
    const reading = await bench.read();
    const found = [...amongParts(reading), ...withWorked(reading, after(acid, alkali)), ...equationIs(reading, equations, named)];
    for (const [i, form] of [named.acid, named.base].entries()) {
      if (!reading.texts.headings[i].endsWith(` ${form}`)) found.push(`heading: ${reading.texts.headings[i]} names no ${form}`);
    }
    problems.push(...during(`${moment}, ${when}`, found));
    return reading;
  };
  const always = "{acid} ⇌ H⁺ + {base}";
  // Where another step is near, or free ions are not scarce, most of an addition may go elsewhere.
  const own = recipe.pkas[recipe.lost ?? 0];
  const elsewhere = own < 3.3 || own > 11 || recipe.pkas.some((pka) => pka !== own && Math.abs(pka - own) < 3);
  const either = (reaction) => (elsewhere ? [reaction, always, "H⁺ + OH⁻ → H₂O"] : [reaction]);
  await look("at the start", [always]);
  await bench.add("acid", large);
  acid += Number(large);
  await look("after acid", either("H⁺ + {base} → {acid}"));
  await bench.add("alkali", large, 2);
  alkali += 2 * Number(large);
  await look("after alkali", either("OH⁻ + {acid} → {base} + H₂O"));
  return problems;
}

/** Runs in the page: the species of both equations that do not stand whole inside their cards. */
function cut() {
  return [...document.querySelectorAll("math")].flatMap((math) => {
    const card = math.closest(".card").getBoundingClientRect();
    const out = [...math.querySelectorAll("mtext, mo")].filter((node) => {
      const { left, right, width } = node.getBoundingClientRect();
      return width === 0 || left < card.left || right > card.right;
    });
    const box = math.parentElement;
    const scrolls = box.scrollWidth > box.clientWidth + 1 ? [`scrolls, ${box.scrollWidth} px in ${box.clientWidth}`] : [];
    return [...out.map((node) => `${node.textContent} is cut`), ...scrolls];
  });
}

async function setUp(open) {
  const bench = await open();
  await bench.panel("Set up");
  return bench;
}

/** All listed pairs in the same way; the test's own table must cover the page's list. */
async function eachPair(bench, recipe) {
  const options = await bench.pairs();
  const problems = [];
  for (const [name, key, lost] of LISTED) {
    const label = options.find((option) => name.test(option));
    if (!label) {
      problems.push(`no pair on offer is called ${name}`);
      continue;
    }
    await bench.choosePair(label);
    const known = system(key);
    const shown = label.match(/pKa (.*)$/)[1];
    const { texts } = await bench.read();
    if (texts.pka !== shown || Math.abs(Number(shown) - known.pkas[lost]) > 0.005 + 1e-9) {
      problems.push(`${label}: the bench says pKa ${texts.pka}, the table ${known.pkas[lost]}`);
    }
    problems.push(...(await walk(bench, { ...known, lost, ...recipe(known, lost) }, label)));
  }
  none(problems);
}

export default {
  "the list has nothing that this test does not know": async ({ open }) => {
    const bench = await setUp(open);
    const options = await bench.pairs();
    const unknown = options.filter((option) => !LISTED.some(([name]) => name.test(option)));
    equal(unknown, ["a weak acid of your own pKa", "a weak base of your own pKa"], "pairs not in this test's table");
    equal(options.length, LISTED.length + 2, "pairs on offer");
  },

  "every pair, two solutions mixed": async ({ open }) => {
    const bench = await setUp(open);
    await eachPair(bench, () => ({ acid: 10, base: 10, volume: 200 }));
  },

  "every pair, part-neutralised": async ({ open }) => {
    const bench = await setUp(open);
    await bench.page.getByRole("button", { name: /^Part-neutralise/ }).click();
    // 20 mmol of the weak acid with 10 mmol of strong alkali, or of the weak base with strong acid.
    await eachPair(bench, ({ topCharge }) =>
      topCharge === 1 ? { base: 20, strong: -10, volume: 200 } : { acid: 20, strong: 10, volume: 200 },
    );
  },

  "a weak acid and a weak base of one's own pKa": async ({ open }) => {
    const bench = await setUp(open);
    const problems = [];
    for (const [option, topCharge] of [["a weak acid of your own pKa", 0], ["a weak base of your own pKa", 1]]) {
      await bench.choosePair(option);
      for (const pka of ["3.2", "7.45", "10,6"]) {
        await bench.page.getByLabel("pKa of the acid form").fill(pka);
        const value = Number(pka.replace(",", "."));
        const recipe = { pkas: [value], topCharge, acid: 10, base: 10, volume: 200 };
        const { texts } = await bench.read();
        if (texts.pka !== value.toFixed(2)) problems.push(`${option}, ${pka}: the bench says pKa ${texts.pka}`);
        problems.push(...(await walk(bench, recipe, `${option}, pKa ${pka}`)));
      }
    }
    none(problems);
  },

  "amounts that come out uneven": async ({ open }) => {
    const bench = await setUp(open);
    await bench.field(/^Propanoic acid/, /^Concentration/).fill("0.037");
    await bench.field(/^Propanoic acid/, /^Volume/).fill("63");
    await bench.field(/^Sodium propanoate/, /^Concentration/).fill("0.211");
    await bench.field(/^Sodium propanoate/, /^Volume/).fill("41.5");
    await bench.page.getByRole("group", { name: "Acid and alkali for the additions" }).getByLabel(/^Concentration/).fill("0.5");
    const recipe = { ...system("propanoic"), acid: 0.037 * 63, base: 0.211 * 41.5, volume: 104.5, stock: 0.5 };
    none(await walk(bench, recipe, "uneven amounts"));
    ok((await bench.page.locator("[aria-invalid=true]").count()) === 0, "a good value is marked as wrong");
  },

  "no pair's equation is cut on a narrow screen": async ({ open }) => {
    const problems = [];
    for (const [width, height] of [[320, 640], [800, 600]]) {
      const bench = await open({ width, height });
      await bench.panel("Set up");
      for (const pair of await bench.pairs()) {
        await bench.choosePair(pair);
        const [, , large] = await bench.sizes("acid");
        for (const reagent of ["acid", "alkali"]) {
          await bench.add(reagent, large);
          await bench.panel("Why");
          problems.push(...(await bench.page.evaluate(cut)).map((line) => `${width} px, ${pair}, ${reagent}: ${line}`));
          await bench.panel("Set up");
        }
      }
    }
    none(problems);
  },

  "another pair is one step back": async ({ open }) => {
    const bench = await setUp(open);
    await bench.add("acid", "0.5");
    const { texts } = await bench.read();
    await bench.choosePair((await bench.pairs()).find((option) => option.startsWith("ammonium")));
    await bench.undo();
    const back = await bench.read();
    for (const part of ["ph", "acidAmount", "baseAmount", "legend", "headings"]) equal(back.texts[part], texts[part], part);
    const listed = () => bench.page.getByLabel("Conjugate pair").evaluate((s) => s.selectedOptions[0].label);
    const follows = async (name) => {
      const chosen = await listed();
      ok(chosen.startsWith(name), `the list shows ${chosen}, the bench ${name}`);
    };
    await follows("propanoic");
    await bench.choosePair((await bench.pairs()).find((option) => option.startsWith("methanoic")));
    await bench.undo();
    await follows("propanoic");
    await bench.press("Redo");
    await bench.settle();
    await follows("methanoic");
  },
};
