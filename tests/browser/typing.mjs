// What is typed stays as it was typed; what cannot be used is said beside the field.

import { equal, none, ok } from "./expect.mjs";
import { facts } from "./reading.mjs";
import { during, withWorked } from "./agree.mjs";
import { flask, system } from "./chemistry.mjs";

/** Texts that no bench can be made from. */
const BAD = ["", "   ", "lots", "-0.1", "−0,1", "1e9", "1e999", "1.000,5", "1,000,000", "0.1.2", "NaN", "5%", "--1", "9".repeat(40)];

async function setUp(open, options) {
  const bench = await open(options);
  await bench.panel("Set up");
  return bench;
}

const acid = (bench, label = /^Concentration/) => bench.field(/^Propanoic acid/, label);

/** The message that a field points to: its text, and how far under the field it stands. */
async function message(field) {
  return field.evaluate((input) => {
    const hint = document.getElementById(input.getAttribute("aria-describedby"));
    const [from, to] = [input.getBoundingClientRect(), hint.getBoundingClientRect()];
    return { text: hint.innerText.trim(), below: to.top - from.bottom, aside: Math.abs(to.left - from.left) };
  });
}

/** 0.25 mol dm⁻³ instead of 0.100: 25 mmol of the acid form. */
const RICHER = flask({ ...system("propanoic"), acid: 25, base: 10, volume: 200 })(0, 0);

export default {
  "decimal point and decimal comma": async ({ open }) => {
    const bench = await setUp(open);
    for (const text of ["0.25", "0,25", " 0.250 ", "2.5e-1", "2,5×10⁻¹"]) {
      await acid(bench).fill("0.1");
      await acid(bench).fill(text);
      none(during(`typed ${text}`, withWorked(await bench.read(), RICHER)));
      equal(await acid(bench).inputValue(), text, "the text in the field");
    }
  },

  "character by character": async ({ open }) => {
    const bench = await setUp(open);
    await acid(bench).fill("");
    await acid(bench).pressSequentially("0.25");
    equal(await acid(bench).inputValue(), "0.25", "typed in order");
    none(withWorked(await bench.read(), RICHER));
    await acid(bench).fill("");
    await acid(bench).pressSequentially("0.5");
    await acid(bench).press("ArrowLeft");
    await acid(bench).pressSequentially("2");
    equal(await acid(bench).inputValue(), "0.25", "typed in the middle");
    await acid(bench).press("End");
    await acid(bench).press("Backspace");
    equal(await acid(bench).inputValue(), "0.2", "one character taken away");
  },

  "what cannot be used": async ({ open }) => {
    const bench = await setUp(open);
    await bench.add("acid", "0.5");
    const good = facts(await bench.read());
    const texts = new Map();
    const problems = [];
    const fields = [acid(bench), acid(bench, /^Volume/), bench.field(/^Sodium propanoate/, /^Concentration/)];
    for (const [n, field] of fields.entries()) {
      const before = await field.inputValue();
      for (const bad of [...BAD, ...(n === 1 ? ["0", "99999"] : [])]) {
        await field.fill(bad);
        await bench.settle();
        const { text, below, aside } = await message(field);
        const say = (what) => problems.push(`field ${n + 1}, ${JSON.stringify(bad)}: ${what}`);
        if (!text) say("no message");
        if (text && (below < -1 || below > 30 || aside > 30)) say(`the message is not beside its field (${below} px below, ${aside} px aside)`);
        if ((await field.getAttribute("aria-invalid")) !== "true") say("not marked as wrong");
        if ((await field.inputValue()) !== bad) say(`the field now reads ${JSON.stringify(await field.inputValue())}`);
        if (JSON.stringify(facts(await bench.read())) !== JSON.stringify(good)) say("the bench changed");
        texts.set(bad, text);
      }
      await field.fill(before);
      await bench.settle();
      if ((await field.getAttribute("aria-invalid")) === "true" || (await message(field)).text) problems.push(`field ${n + 1}: still marked as wrong when it no longer is`);
    }
    none(problems);
    // A message names its reason: not the same words for each.
    ok(new Set(["", "lots", "-0.1", "1.000,5"].map((bad) => texts.get(bad))).size === 4, "different mistakes get the same message");
  },

  "nothing at all in the flask": async ({ open }) => {
    const bench = await setUp(open);
    const base = bench.field(/^Sodium propanoate/, /^Concentration/);
    await acid(bench).fill("0");
    const salt = await bench.read();
    const one = facts(salt);
    const alone = flask({ ...system("propanoic"), acid: 0, base: 10, volume: 200 })(0, 0);
    none(during("the salt alone", withWorked(salt, alone)));
    await base.fill("0");
    await bench.settle();
    ok((await message(base)).text !== "", "no message for a flask with neither form");
    equal(facts(await bench.read()), one, "the bench keeps its last good state");
  },

  "an own pKa": async ({ open }) => {
    const bench = await setUp(open);
    await bench.choosePair("a weak acid of your own pKa");
    const field = bench.page.getByLabel("pKa of the acid form");
    const good = facts(await bench.read());
    for (const bad of ["-1", "15", "acid", "4.8.1"]) {
      await field.fill(bad);
      await bench.settle();
      ok((await message(field)).text !== "", `no message for a pKa of ${bad}`);
      equal(facts(await bench.read()), good, "the bench");
    }
  },

  "a half-typed text outlives a change of panel": async ({ open }) => {
    for (const options of [{}, { width: 360, height: 740 }]) {
      const bench = await setUp(open, options);
      await acid(bench).fill("0.3x");
      await bench.settle();
      const said = (await message(acid(bench))).text;
      for (const other of ["Why", "Limits"]) {
        await bench.panel(other);
        await bench.panel("Set up");
        equal(await acid(bench).inputValue(), "0.3x", `the text after a look at ${other}`);
        equal((await message(acid(bench))).text, said, "its message");
        equal(await acid(bench).getAttribute("aria-invalid"), "true", "its mark");
      }
    }
  },

  "undo brings the old recipe back into the fields": async ({ open }) => {
    const bench = await setUp(open);
    const start = facts(await bench.read());
    await acid(bench).fill("0.25");
    await acid(bench, /^Volume/).fill("150");
    await bench.undo();
    equal(await acid(bench).inputValue(), "0.25", "concentration, which is a step of its own");
    equal(await acid(bench, /^Volume/).inputValue(), "100", "volume");
    await bench.undo();
    equal(await acid(bench).inputValue(), "0.100", "concentration");
    equal(facts(await bench.read()), start, "the bench");
    await bench.redo();
    equal(await acid(bench).inputValue(), "0.25", "concentration again");
    await bench.redo();
    equal(await acid(bench, /^Volume/).inputValue(), "150", "volume again");
  },

  "typing in one field is one step back, another setting is the next": async ({ open }) => {
    const bench = await setUp(open);
    await bench.add("acid", "0.5");
    const added = facts(await bench.read());
    await acid(bench).fill("");
    await acid(bench).pressSequentially("0.25");
    const typed = facts(await bench.read());
    await bench.choosePair((await bench.pairs()).find((pair) => pair.startsWith("methanoic")));
    const other = facts(await bench.read());
    await bench.page.getByRole("button", { name: /^Part-neutralise/ }).click();
    for (const [wanted, what] of [[other, "the other pair"], [typed, "the field"], [added, "the addition"]]) {
      await bench.undo();
      equal(facts(await bench.read()), wanted, `the bench once undone as far as ${what}`);
    }
  },

  "another way of making it shows its own numbers": async ({ open }) => {
    const bench = await setUp(open);
    await acid(bench).fill("0.3");
    await acid(bench).press("Tab");
    await bench.page.getByRole("button", { name: /^Part-neutralise/ }).click();
    await bench.settle();
    // What the page starts with: 100 cm³ of 0.200 and 100 cm³ of 0.100 mol dm⁻³.
    const shown = await bench.page.locator(".form fieldset input").evaluateAll((inputs) => inputs.map((i) => i.value));
    equal(shown.slice(0, 4), ["0.200", "100", "0.100", "100"], "the fields");
    none(withWorked(await bench.read(), flask({ ...system("propanoic"), acid: 10, base: 10, volume: 200 })(0, 0)));
    await bench.page.getByRole("button", { name: /^Mix two/ }).click();
    await bench.settle();
    equal(await acid(bench).inputValue(), "0.3", "the text typed before");
  },

  "it says when the bench does not follow": async ({ open }) => {
    const bench = await setUp(open);
    const told = () => bench.page.getByText("The bench still shows the last values").isVisible();
    ok(!(await told()), "it is said of a bench that follows");
    await acid(bench).fill("abc");
    await bench.choosePair((await bench.pairs()).find((pair) => pair.startsWith("methanoic")));
    ok(await told(), "nothing says that the bench is still the old one");
    await bench.page.getByRole("group", { name: /^Methanoic acid/ }).getByLabel(/^Concentration/).fill("0.2");
    await bench.settle();
    ok(!(await told()), "it is still said once the bench has followed");
    equal((await bench.read()).texts.pka, "3.75", "pKa of the new pair, as in the list");
  },
};
