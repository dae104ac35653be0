// A learner's whole way by what Chromium's accessibility tree gives, and nothing else: names, roles and
// states are read there, everything is done by role and name, and each action is one message.

import { Bench } from "./bench.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { anyBuffer, sameSeries } from "./lesson.mjs";
import { Reader } from "./reader.mjs";

const OPTIONS = { before: [sameSeries] };

async function reader(open, options = {}) {
  const bench = await open({ ...OPTIONS, ...options });
  return Reader.on(bench.page);
}

/** Does something and returns the one message that it makes. */
async function oneMessage(reader, what, act) {
  await reader.heard();
  await act();
  const said = await reader.heard();
  equal(said.length, 1, `messages after ${what}: ${JSON.stringify(said)}`);
  return said[0].trim();
}

/** Does something that is to be silent: the focus, or a state that is read out, tells of it. */
async function silent(reader, what, act) {
  await reader.heard();
  await act();
  equal(await reader.heard(), [], `said after ${what}`);
}

const pressed = async (reader, name) => (await reader.one("button", name)).pressed;
const pH = async (reader) => (await reader.one("status", "pH now")).text();

/** The words of the open question. */
async function question(reader) {
  const nodes = await reader.read();
  const from = nodes.findIndex((node) => node.role === "heading" && /^Question /.test(node.name));
  ok(from >= 0, "no question");
  const texts = nodes.filter((node) => node.role === "paragraph" && node.within().some((around) => around.name === "Panels"));
  return texts.map((node) => node.text()).join("\n");
}

/** Sorts the open question and gives the right pH of its mixture. */
async function sorted(reader) {
  const { kind, ph } = anyBuffer(await question(reader));
  await oneMessage(reader, "sorting", () => reader.press("button", kind));
  return ph;
}

const answer = async (reader) => (await reader.all("textbox")).find((node) => /^pH/.test(node.name)).name;

export default {
  "what stands where": async ({ open }) => {
    const r = await reader(open);
    for (const [role, name] of [["main", "Bench"], ["complementary", "Panels"], ["navigation", "Panels"], ["region", "pH now"], ["region", "Reservoirs"], ["region", "Additions"]]) await r.one(role, name);
    const nodes = await r.read();
    const acted = nodes.filter((node) => node.focusable && node.role !== "RootWebArea");
    none(acted.filter((node) => !node.name).map((node) => `a ${node.role} without a name`));
    // Signs that only mark what something does are not read out.
    none(acted.filter((node) => /[▸▾▼▽▭●○]/.test(node.name)).map((node) => `a sign in the name of ${node.role} ${node.name}`));
    const known = new Set(["button", "region", "DisclosureTriangle", "link", "textbox", "combobox"]);
    none(acted.filter((node) => !known.has(node.role)).map((node) => `${node.name} is a ${node.role}`));
    const picture = (await r.all("image", /^Particles: /))[0];
    ok(/100 of H A and 100 of A, one minus/.test(picture.name), `the picture is described as ${picture.name}`);
    equal(await pH(r), "4.87", "the pH that can be read");
    // Nothing to undo: the button can be met, and says that it is out of use.
    ok((await r.one("button", "Undo")).disabled, "Undo says that it can be used");
    equal(await r.isCurrent("button", "Why", "Panels"), "true", "the panel that is open");
    equal(await r.isCurrent("button", "Limits", "Panels"), "false", "a panel that is not");
  },

  "the guided start": async ({ open }) => {
    const r = await reader(open);
    await r.press("button", "Show me in six steps");
    // The title of the guide's own region.
    await until(() => r.focused(), (at) => at?.role === "heading" && at.within().some(({ role, name }) => role === "region" && name === at.name), "the focus in the guide");
    const said = await oneMessage(r, "a change of view that the first step asks for", () => r.press("button", "As mixed"));
    equal(said, "Done.", "said of the first step");
    equal([await pressed(r, "As mixed"), await pressed(r, "Sorted")], ["true", "false"], "which view is chosen");
    await r.press("button", "Next");
    equal((await r.focused()).role, "heading", "the focus after a step");
    const held = await oneMessage(r, "an addition held back", () => r.press("button", "Add 0.5 mmol of acid"));
    equal(held, "First choose what you expect, and lock it.", "said of it");
    ok((await r.one("button", "Lock it")).disabled, "an empty prediction can be locked");
    await silent(r, "a choice", () => r.press("button", "down"));
    equal(await pressed(r, "down"), "true", "the choice");
    await r.press("button", "0.1 to 1");
    await silent(r, "locking", () => r.press("button", "Lock it"));
    equal((await r.focused()).name, "Add 0.1 mmol of acid", "the focus after locking");
    const compared = await oneMessage(r, "the addition predicted", () => r.press("button", "Add 0.5 mmol of acid"));
    ok(compared.startsWith(`pH ${await pH(r)}. You locked: down, by 0.1 to 1.`), compared);
    await r.press("button", "Close the guide");
    equal((await r.focused()).name, "Show me in six steps", "the focus after the guide closed");
  },

  "additions until a reservoir runs out, and the working": async ({ open }) => {
    const r = await reader(open);
    const all = [];
    for (let n = 1; n <= 6; n += 1) {
      const said = await oneMessage(r, `addition ${n}`, () => r.press("button", "Add 2.0 mmol of acid"));
      ok(said.includes(await pH(r)), `addition ${n}: ${said} does not tell the pH`);
      all.push(said);
    }
    equal(all.map((said) => /run out|used up/.exec(said)?.[0] ?? ""), ["", "", "", "", "used up", "run out"], "when A⁻ is said to be at its end");
    ok(/^Particles: .*Free H⁺: [\d.]+ mmol/.test((await r.all("image", /^Particles/))[0].name), "the picture does not tell of free H⁺");
    ok(!(await r.one("button", "Undo")).disabled, "Undo says that it is out of use");
    ok(/pH/.test(await oneMessage(r, "undoing", () => r.press("button", "Undo"))), "said of undoing");
    await oneMessage(r, "redoing", () => r.press("button", "Redo"));

    await silent(r, "opening the working", () => r.press("button", "Working", "Panels"));
    equal(await r.isCurrent("button", "Working", "Panels"), "true", "the panel that is open");
    await r.one("DisclosureTriangle", "As plain text, to copy");
    const result = (await r.all("DisclosureTriangle", /pH: /)).at(-1);
    // The short form, which is a little off the full balance here.
    ok(Math.abs(Number(result.name.match(/pH: ([\d.]+)$/)[1]) - Number(await pH(r))) <= 0.02, `the step with the pH reads ${result.name}`);
    const closed = (await r.all("DisclosureTriangle", /\d/)).find((node) => node.expanded === false);
    await silent(r, "opening a step", () => r.press("DisclosureTriangle", closed.name));
    equal((await r.one("DisclosureTriangle", closed.name)).expanded, true, "the step that was opened");
    // Formulas in words of our own, not sign by sign.
    const spoken = (await r.all("math", /./)).map((node) => node.name);
    ok(spoken.length > 0 && spoken.every((text) => !/[₀-₉⁺⁻=×]/.test(text)), `formulas read ${spoken.slice(0, 3)}`);
  },

  "setting up": async ({ open }) => {
    const r = await reader(open);
    await r.press("button", /^Set up: /);
    equal((await r.focused()).name, "Conjugate pair", "the focus");
    await r.press("button", "Set up", "Panels");
    const solution = /^Propanoic acid/;
    const name = /^Concentration/;
    const wrong = await oneMessage(r, "a number that cannot be read", () => r.type(name, "lots", solution));
    ok(/^The bench still shows the last values/.test(wrong) && /not a number/.test(wrong), wrong);
    const field = await r.one("textbox", name, solution);
    equal([field.invalid, /not a number/.test(field.about)], ["true", true], `the field is described as ${field.about}`);
    await oneMessage(r, "a number that can be read", () => r.type(name, "0.2", solution));
    equal((await r.one("textbox", name, solution)).invalid, "false", "the field put right");
    ok(/pH/.test(await oneMessage(r, "another pair", () => r.choose("Conjugate pair", "ammonium"))), "said of another pair");
    equal(await pressed(r, "Mix two solutions"), "true", "the way of making it");
  },

  "three questions: right, put right, shown": async ({ open }) => {
    const r = await reader(open);
    await r.press("button", "Practice", "Panels");
    await r.one("heading", /^Question 1/);
    await r.press("DisclosureTriangle", "Choose questions");
    await r.choose("Kind of question", "Work out pH from two concentrations");
    await r.choose("How much is done for you", "Whole question");
    await r.press("DisclosureTriangle", "Choose questions");

    const first = await sorted(r);
    equal((await r.focused()).role, "textbox", "the focus after sorting");
    const name = await answer(r);
    await r.type(name, first);
    ok(/^Right\. First try: /.test(await oneMessage(r, "a right answer", () => r.press("button", "Check"))), "said of a right answer");
    equal((await r.focused()).name, "Next question", "the focus after a right answer");
    const before = (await r.one("heading", /^Question \d/)).name;
    await oneMessage(r, "going on", () => r.press("button", "Next question"));
    const { role, name: now } = await r.focused();
    ok(role === "heading" && now !== before && /^Question \d/.test(now), `the focus at the next question: ${role} ${now}`);

    const second = await sorted(r);
    await r.type(name, "1.11");
    const wrong = await oneMessage(r, "a wrong answer", () => r.press("button", "Check"));
    ok(/^Something is not right yet/.test(wrong), wrong);
    const line = await r.one("textbox", name);
    equal(line.invalid, "true", "a wrong line");
    ok(/^No usual slip leads to 1\.11/.test(line.about), `the line is described as ${line.about}`);
    equal(line.value, "1.11", "what was typed");
    await r.type(name, second);
    ok(/^Right in the end\./.test(await oneMessage(r, "the retry", () => r.press("button", "Check"))), "said of the retry");
    await r.press("button", "Next question");

    await sorted(r);
    const shown = await oneMessage(r, "asking for the layout", () => r.press("button", "Show the layout"));
    ok(/^Here is the whole layout/.test(shown), shown);
    await r.one("heading", "The layout");

    await r.press("button", "Explain", "Practice");
    const radio = (await r.all("radio"))[0];
    await silent(r, "choosing a clause", () => r.press("radio", radio.name));
    equal((await r.one("radio", radio.name)).checked, "true", "the clause that was chosen");
    await oneMessage(r, "checking an explanation", () => r.press("button", "Check"));
    await silent(r, "a look at how one stands", () => r.press("button", "How you stand", "Practice"));
    await r.one("button", /: Work out pH from two concentrations$/);
  },

  "a lesson's link, to the end of its questions": async ({ visit, site }) => {
    const page = await visit(OPTIONS);
    await page.goto(`${site.byNumber}/?v=1&ca=lots&ask=conc&n=1&level=whole&lock=working${"#t=1.fe3c9f1f.QmFrZXJ5IGJ1ZmZlcnMKV2hpY2ggcmVzZXJ2b2lyIG1lZXRzIHRoZSBhY2lkPw"}`);
    await Bench.on(page);
    const r = await Reader.on(page);
    const alerts = (await r.read()).filter((node) => node.role === "alert");
    equal(alerts.length, 1, "alerts");
    ok(alerts[0].text().startsWith("This page does not open quite as its link says"), alerts[0].text());
    equal((await r.one("DisclosureTriangle", "Bakery buffers")).expanded, true, "the lesson's own words");
    await r.one("heading", /^Question 1 of 1/);
    await silent(r, "opening a locked part", () => r.press("button", "Working", "Panels"));
    await r.press("button", "Practice", "Panels");
    const right = await sorted(r);
    const name = await answer(r);
    await r.type(name, right);
    const said = await oneMessage(r, "the last answer", () => r.press("button", "Check"));
    ok(/^Right\. First try: (\d) of \1 marks\. ?The question is done: 1 right at the first try/.test(said), said);
  },
};
