// The main story at 1280 × 800, where bench, Why and Curve are all in view: after each step
// every part tells of the same bench, and that bench is the one worked out independently.

import { amongParts, during, equationIs, withBefore, withWorked } from "./agree.mjs";
import { flask, system } from "./chemistry.mjs";
import { equal, far, none, ok } from "./expect.mjs";
import { amount, facts } from "./reading.mjs";

const PROPANOIC = { ...system("propanoic"), acid: 10, base: 10, volume: 200 };

/** A walk along the bench that knows what should be in the flask. */
class Walk {
  constructor(bench, recipe) {
    this.bench = bench;
    this.after = flask(recipe);
    this.acid = 0;
    this.alkali = 0;
  }

  /** Reads the bench and fails where anything is amiss; `equation` is what it should show. */
  async look(moment, equation) {
    const reading = await this.bench.read();
    const worked = this.after(this.acid, this.alkali);
    const net = this.alkali - this.acid;
    none(
      during(moment, [
        ...amongParts(reading),
        ...withWorked(reading, worked),
        ...(equation ? equationIs(reading, equation) : []),
        ...far(reading.curve.now.added, net, 0.1, "amount added at the point on the curve, mmol"),
      ]),
    );
    return reading;
  }

  async add(reagent, size) {
    await this.bench.add(reagent, size);
    this[reagent] += Number(size);
  }

  /** Pours until free ions are drawn; how much it was is read from Why. */
  async exhaust(reagent, size) {
    await this.bench.exhaust(reagent, size);
    const { why } = await this.bench.read();
    const poured = amount(why.headline.match(/added (.*) of/)?.[1]).mmol;
    const portions = poured / Number(size);
    ok(Number.isInteger(Math.round(portions * 1e6) / 1e6), `Why says ${poured} mmol was poured, in portions of ${size}`);
    this[reagent] += poured;
  }
}

const TAKEN = { acid: "H⁺ + {base} → {acid}", alkali: "OH⁻ + {acid} → {base} + H₂O" };
const ALWAYS = "{acid} ⇌ H⁺ + {base}";
const WATER = "H⁺ + OH⁻ → H₂O";

async function start(open) {
  const bench = await open();
  return new Walk(bench, PROPANOIC);
}

export default {
  "the starting bench holds": async ({ open }) => {
    const walk = await start(open);
    const reading = await walk.look("at the start", ALWAYS);
    equal(reading.texts.ph, reading.texts.start, "pH now and at the start");
    equal(reading.texts.ph, reading.texts.pka, "pH of equal amounts and pKa");
    equal(reading.reactions, 0, "reactions so far");
    equal(await walk.bench.sizes("acid"), ["0.1", "0.5", "2.0"], "sizes of an addition");
    equal(await walk.bench.sizes("alkali"), ["0.1", "0.5", "2.0"], "sizes of an addition");
    for (const name of ["Undo", "Redo", "Start again"]) ok(await walk.bench.button(name).isDisabled(), `${name} is on`);
  },

  "each size of acid and alkali, with Why and the counters": async ({ open }) => {
    const walk = await start(open);
    let earlier = await walk.look("at the start", ALWAYS);
    let reactions = 0;
    for (const reagent of ["acid", "alkali"]) {
      for (const size of ["0.1", "0.5", "2.0"]) {
        await walk.add(reagent, size);
        const moment = `${size} mmol of ${reagent}`;
        const reading = await walk.look(moment, TAKEN[reagent]);
        none(during(moment, withBefore(reading, earlier)));
        equal(reading.why.headline, `You added ${size} mmol of ${reagent === "acid" ? "H⁺" : "OH⁻"}.`, "headline");
        equal(reading.why.equation, reagent === "acid" ? "H⁺ + CH₃CH₂COO⁻ → CH₃CH₂COOH" : "OH⁻ + CH₃CH₂COOH → CH₃CH₂COO⁻ + H₂O", "equation in Why");
        reactions += Math.round(Number(size) / reading.legend.unit.mmol);
        equal(reading.reactions, reactions, `reactions so far after ${moment}`);
        const way = Math.sign(reading.ph - earlier.ph);
        ok(reagent === "acid" ? way <= 0 : way >= 0, `${moment} moved the pH the wrong way`);
        earlier = reading;
      }
    }
  },

  "a tap adds once, whatever comes of it": async ({ open }) => {
    const walk = await start(open);
    const { bench } = walk;
    // Each is one addition: kind, button, number of the click, slip in pixels.
    const down = ["pointerdown", 0, 0, 0];
    const taps = {
      "a finger's tap, with its click": [down, ["pointerup", 0, 0, 3], ["click", 0, 1, 3]],
      "a key after it": [["click", 0, 0, 0]],
      "a screen reader's, which plays a tap": [down, ["pointerup", 0, 0, 0], ["click", 0, 0, 0]],
      "one that slipped, and that the browser takes for a click": [down, ["pointerup", 0, 0, 30], ["click", 0, 1, 30]],
      "a mouse whose other button goes up later": [down, ["click", 0, 1, 0], ["pointerup", 2, 0, 0]],
      "a tap without a click": [down, ["pointerup", 0, 0, 0]],
    };
    const play = (button, [kind, which, detail, slip]) => {
      const { left, top } = button.getBoundingClientRect();
      const made = kind === "click" ? MouseEvent : PointerEvent;
      button.dispatchEvent(new made(kind, { bubbles: true, cancelable: true, button: which, detail, clientX: left + 5 + slip, clientY: top + 5 }));
    };
    for (const [what, events] of Object.entries(taps)) {
      for (const event of events) await bench.dose("acid", "0.1").evaluate(play, event);
      walk.acid += 0.1;
      await walk.look(what);
    }
    // Nor does the click of a tap count where another button has come to lie.
    for (const event of [down, ["pointerup", 0, 0, 0]]) await bench.dose("acid", "0.1").evaluate(play, event);
    await bench.button("Undo").evaluate(play, ["click", 0, 1, 0]);
    walk.acid += 0.1;
    await walk.look("a click on Undo that belongs to a tap");
    // Where nobody paints, all follow at once.
    await bench.page.evaluate(() => Object.defineProperty(document, "hidden", { get: () => true }));
    await bench.dose("acid", "0.1").evaluate((button) => button.click());
    walk.acid += 0.1;
    await walk.look("in a page that is hidden");
  },

  "undo, redo and start again restore exactly": async ({ open }) => {
    const walk = await start(open);
    const { bench } = walk;
    const states = [facts(await bench.read())];
    for (const [reagent, size] of [["acid", "0.5"], ["alkali", "2.0"], ["acid", "2.0"]]) {
      await bench.add(reagent, size);
      states.push(facts(await bench.read()));
    }
    const same = async (n, moment) => equal(facts(await bench.read()), states[n], moment);
    for (const n of [2, 1, 0]) {
      await bench.undo();
      await same(n, `undone to ${n} additions`);
    }
    ok(await bench.button("Undo").isDisabled(), "Undo is on at the beginning");
    for (const n of [1, 2, 3]) {
      await bench.redo();
      await same(n, `redone to ${n} additions`);
    }
    ok(await bench.button("Redo").isDisabled(), "Redo is on at the end");
    await bench.startAgain();
    await same(0, "started again");
    await bench.undo();
    await same(3, "start again undone");
  },

  "acid until it fails, then alkali through to the other end": async ({ open }) => {
    const walk = await start(open);
    const { bench } = walk;
    const before = await walk.look("at the start", ALWAYS);
    await walk.exhaust("acid", "2.0");
    const spent = await walk.look("acid poured until it fails");
    ok(/ran out/.test(spent.why.text), `Why does not say that the base form ran out: ${spent.why.text}`);
    ok(spent.ph < 2.5, `past its end the pH runs away: ${spent.ph}`);
    equal(spent.base.count, 0, "particles of the base form left");
    equal(spent.reactions, Math.round(10 / spent.legend.unit.mmol), "reactions: one for each base form there was");

    await bench.undo();
    equal(facts(await bench.read()), facts(before), "a whole pour undone in one step");
    await bench.redo();
    equal(facts(await bench.read()), facts(spent), "and redone");

    await walk.add("acid", "0.5");
    const nothing = await walk.look("more acid with the reservoir empty");
    ok(/run out/.test(nothing.why.text), `Why does not say that nothing is left: ${nothing.why.text}`);

    await walk.add("alkali", "0.5");
    const met = await walk.look("alkali against what is left over", WATER);
    ok(/left over/.test(met.why.text), `Why does not say what the alkali met: ${met.why.text}`);
    await walk.exhaust("alkali", "2.0");
    const over = await walk.look("alkali poured until it fails");
    ok(over.ph > 11.5, `past the other end the pH runs away upwards: ${over.ph}`);
    equal(over.acid.count, 0, "particles of the acid form left");
    await walk.add("acid", "0.1");
    await walk.look("acid against left-over alkali", WATER);
    await bench.startAgain();
    equal(facts(await bench.read()), facts(before), "started again after all that");
  },

  "with a reservoir empty no equation shows it being used": async ({ open }) => {
    const bench = await open();
    const problems = [];
    for (const [reagent, used, formulas] of [
      ["acid", "H⁺ + A⁻ → HA", "H⁺ + CH₃CH₂COO⁻ → CH₃CH₂COOH"],
      ["alkali", "OH⁻ + HA → A⁻ + H₂O", "OH⁻ + CH₃CH₂COOH → CH₃CH₂COO⁻ + H₂O"],
    ]) {
      await bench.exhaust(reagent, "2.0");
      await bench.add(reagent, "0.5");
      const { equation, why } = await bench.read();
      if (equation === used) problems.push(`more ${reagent}: the bench still shows ${used}`);
      if (why.equation === formulas) problems.push(`more ${reagent}: Why says "${why.text.slice(0, 90)} …" and shows ${formulas}`);
      await bench.startAgain();
    }
    none(problems);
  },

  "as mixed and sorted are the same world": async ({ open }) => {
    const bench = await open();
    await bench.add("acid", "2.0");
    const sorted = facts(await bench.read());
    for (const view of ["As mixed", "Sorted"]) {
      await bench.press(view);
      equal(await bench.button(view).getAttribute("aria-pressed"), "true", `${view} is chosen`);
      equal(facts(await bench.read()), sorted, `facts in the view ${view}`);
    }
  },

  "the flask fills up and says so": async ({ open }) => {
    const walk = await start(open);
    const full = walk.bench.page.getByText("That much more does not fit into the flask.", { exact: false }).first();
    // A hundred of the largest fill it: clicks from within the page, since a hand takes longer.
    await walk.bench.dose("acid", "2.0").evaluate((button) => {
      for (let i = 0; i < 100; i += 1) button.click();
    });
    walk.acid = 200;
    await walk.look("with a full flask");
    ok(!(await full.isVisible()), "full before it is");
    await walk.bench.dose("acid", "0.1").click();
    await full.waitFor();
    await walk.look("after one too many");
    await walk.bench.undo();
    walk.acid -= 2;
    await walk.look("one taken back");
    ok(!(await full.isVisible()), "no longer full, but it still says so");
  },

  "on a phone, the name of what is on the bench leads to setting it up": async ({ open }) => {
    const bench = await open({ width: 360, height: 740 });
    await bench.page.getByRole("button", { name: /^Set up: / }).click();
    await bench.settle();
    const [top, focus] = await bench.page.evaluate(() => [document.querySelector("#panel").getBoundingClientRect().top, document.activeElement.id]);
    ok(top >= 0 && top < 370, `the panel begins ${top} px down the screen`);
    equal(focus, "pair", "where the focus is");
  },
};
