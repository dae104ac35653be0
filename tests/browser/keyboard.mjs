// The whole way with Tab, Enter and Space, and where the focus is all along.

import { equal, none, ok } from "./expect.mjs";
import { BUFFER, Lesson, SAME_QUESTIONS, TWO_CONCENTRATIONS, hydrogen, twoConcentrations, twoDecimals } from "./lesson.mjs";
import { facts } from "./reading.mjs";

/** The element with the focus: role and name for a person, and whether its ring shows. */
function focused(page) {
  return page.evaluate(() => {
    const node = document.activeElement;
    if (!node || node === document.body) return null;
    const style = getComputedStyle(node);
    const ring = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
    const rect = node.getBoundingClientRect();
    const name = node.getAttribute("aria-label") ?? node.labels?.[0]?.innerText ?? node.innerText;
    return {
      name: name.replace(/\s+/g, " ").trim(),
      tag: node.localName,
      id: node.id,
      ring: ring && style.outlineColor !== "rgba(0, 0, 0, 0)",
      inView: rect.bottom > 0 && rect.top < innerHeight && rect.right > 0 && rect.left < innerWidth,
    };
  });
}

/** Tabs on until `wanted` (a pattern) has the focus. */
async function tabTo(page, wanted, key = "Tab") {
  const passed = [];
  for (let i = 0; i < 90; i += 1) {
    await page.keyboard.press(key);
    const now = await focused(page);
    if (now && wanted.test(now.name)) return now;
    passed.push(now?.name ?? "(nothing)");
  }
  throw new Error(`${wanted} is not to be reached by ${key}; passed: ${passed.join(" | ")}`);
}

/** All that Tab reaches from the top of the page to its end. */
async function round(page, key = "Tab") {
  const stops = [];
  for (let i = 0; i < 100; i += 1) {
    await page.keyboard.press(key);
    const now = await focused(page);
    if (now === null && stops.length > 0) return stops;
    if (now) stops.push(now);
  }
  throw new Error(`${key} goes round and round: ${stops.slice(-8).map((s) => s.name).join(" | ")}`);
}

const SCREENS = [{}, { width: 360, height: 740 }];

export default {
  "Tab reaches everything, shows where it is, and leaves again": async ({ open }) => {
    for (const screen of SCREENS) {
      const bench = await open(screen);
      await bench.add("acid", "0.5");
      await bench.panel("Set up");
      // On to the end first, so that the round begins at the top.
      await round(bench.page);
      const stops = await round(bench.page);
      const names = stops.map((s) => s.name);
      const wanted = [/^Show me/, /^Set up:/, /^Sorted$/, /^As mixed$/, /^Replay$/, /^Step$/, /0\.1 mmol of acid/, /2\.0 mmol of acid/, /0\.1 mmol of alkali/, /^Undo$/, /^Start again$/, /^Why$/, /^Working$/, /^Practice$/, /^Set up$/, /^Limits$/, /Conjugate pair/, /^Mix two/, /^Part-neutralise/, /^Concentration/, /^Volume/];
      none([
        ...wanted.filter((name) => !names.some((n) => name.test(n))).map((name) => `Tab does not reach ${name}`),
        ...stops.filter((s) => !s.ring).map((s) => `no ring on ${s.tag} ${s.name}`),
        ...stops.filter((s) => !s.inView).map((s) => `out of sight with the focus on it: ${s.tag} ${s.name}`),
      ]);
      const back = await round(bench.page, "Shift+Tab");
      equal(back.map((s) => s.name).reverse(), names, "the same way back");
    }
  },

  "add, undo, redo, start again": async ({ open }) => {
    const bench = await open();
    const { page } = bench;
    const start = facts(await bench.read());
    await tabTo(page, /^Add 0\.5 mmol of acid$/);
    await page.keyboard.press("Enter");
    equal((await bench.read()).texts.baseAmount, "9.5 mmol", "A⁻ after Enter");
    await page.keyboard.press("Space");
    const two = facts(await bench.read());
    equal(two.baseAmount, "9.0 mmol", "A⁻ after Space");
    ok(/0\.5 mmol of acid/.test((await focused(page)).name), "the focus left the button that was pressed");
    await tabTo(page, /^Undo$/);
    await page.keyboard.press("Space");
    await page.keyboard.press("Enter");
    equal(facts(await bench.read()), start, "undone by keyboard");
    // The button under the focus has gone out of use, and keeps it.
    equal((await focused(page))?.name, "Undo", "the focus on an Undo that used itself up");
    await page.keyboard.press("Enter");
    equal(facts(await bench.read()), start, "an Undo with nothing left to undo");
    await page.keyboard.press("Tab");
    equal((await focused(page))?.name, "Redo", "the next stop after an Undo that used itself up");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    equal(facts(await bench.read()), two, "redone by keyboard");
    await tabTo(page, /^Start again$/);
    await page.keyboard.press("Space");
    equal(facts(await bench.read()), start, "started again by keyboard");
  },

  "views, panels, pair and fields": async ({ open }) => {
    const bench = await open({ width: 800, height: 600 });
    const { page } = bench;
    await tabTo(page, /^As mixed$/);
    await page.keyboard.press("Space");
    equal(await bench.button("As mixed").getAttribute("aria-pressed"), "true", "As mixed");
    for (const [tab, shows] of [[/^Curve$/, "pH against amount added"], [/^Limits$/, "What this page leaves out"], [/^Why$/, "Nothing added yet"]]) {
      await page.evaluate(() => document.activeElement.blur());
      await tabTo(page, tab);
      await page.keyboard.press("Enter");
      await page.getByRole("heading", { name: shows }).waitFor();
      ok(tab.test((await focused(page)).name), `the focus left ${tab}`);
      await page.keyboard.press("Escape");
      ok(tab.test((await focused(page))?.name ?? ""), `Escape took the focus from ${tab}`);
    }
    await tabTo(page, /^Set up$/);
    await page.keyboard.press("Enter");
    await tabTo(page, /Conjugate pair/);
    const pair = (await bench.read()).texts.pka;
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    ok((await bench.read()).texts.pka !== pair, "the arrow key chose no other pair");
    ok(/Conjugate pair/.test((await focused(page)).name), "the focus left the list of pairs");
    await tabTo(page, /^Part-neutralise/);
    await page.keyboard.press("Enter");
    ok(/^Part-neutralise/.test((await focused(page)).name), "the focus left the way of making it");
    await tabTo(page, /^Volume/);
    await page.keyboard.press("Control+A");
    await page.keyboard.type("120");
    equal(await page.evaluate(() => document.activeElement.value), "120", "the text typed");
    await tabTo(page, /^Set up:/, "Shift+Tab");
  },

  "a key held down repeats and never pours on": async ({ open }) => {
    const bench = await open();
    const { page } = bench;
    const base = async () => (await bench.read()).base.mmol;
    await tabTo(page, /^Add 0\.1 mmol of acid$/);
    for (let i = 0; i < 5; i += 1) await page.keyboard.down("Enter");
    await page.keyboard.up("Enter");
    equal(await base(), 9.5, "A⁻ after Enter and four repeats");
    for (let i = 0; i < 5; i += 1) await page.keyboard.down("Space");
    await page.keyboard.up("Space");
    equal(await base(), 9.4, "A⁻ after one long Space");
    // Longer than a pour waits for its first portion and goes on to a second.
    await page.evaluate(() => new Promise((done) => setTimeout(done, 900)));
    equal(await base(), 9.4, "A⁻ a while after the keys were let go");
  },

  "a pour that ends outside its button": async ({ open }) => {
    const bench = await open();
    const { page } = bench;
    await bench.dose("acid", "0.5").hover();
    await page.mouse.down();
    const poured = await bench.read();
    await bench.page.waitForFunction((from) => document.querySelector("#base-amount").textContent !== from, poured.texts.baseAmount);
    await page.mouse.move(5, 5);
    await page.mouse.up();
    const after = (await bench.read()).base.mmol;
    await page.evaluate(() => new Promise((done) => setTimeout(done, 900)));
    equal((await bench.read()).base.mmol, after, "A⁻ a while after the pointer left the button");
    await bench.dose("acid", "0.5").focus();
    await page.keyboard.press("Enter");
    const then = (await bench.read()).base.mmol;
    equal(Math.round((after - then) * 10) / 10, 0.5, "A⁻ taken up by the next Enter");
  },

  "a question, from the list of kinds to the next one": async ({ open }) => {
    const bench = await open(SAME_QUESTIONS);
    const { page } = bench;
    await tabTo(page, /^Practice$/);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: /^Question/ }).waitFor();
    await tabTo(page, /^Choose questions$/);
    await page.keyboard.press("Enter");
    await page.keyboard.press("Tab");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Tab");
    for (let i = 0; i < 3; i += 1) await page.keyboard.press("ArrowDown");
    const lesson = new Lesson(bench);
    equal(await lesson.panel.getByLabel("How much is done for you").inputValue(), "3", "the level by arrow keys");
    const data = await lesson.find(twoConcentrations);
    await page.evaluate(() => document.activeElement.blur());
    await tabTo(page, new RegExp(`^${BUFFER}$`));
    await page.keyboard.press("Space");
    await page.waitForFunction(() => document.activeElement.id === "line-0");
    equal((await tabTo(page, /^pH/)).id, "line-1", "the line for the pH");
    await page.keyboard.type(twoDecimals(-Math.log10(hydrogen(data))));
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement.innerText === "Next question");
    ok((await lesson.status()).startsWith("Right."), await lesson.status());
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement.id === "question");
    ok((await focused(page)).name.startsWith("Question"), "the focus is not on the next question");
  },

  "the focus goes along where a button goes away": async ({ open }) => {
    const lesson = await Lesson.practice(await open(SAME_QUESTIONS));
    await lesson.press("How you stand");
    await lesson.button(`Practise: ${TWO_CONCENTRATIONS}`).focus();
    await lesson.page.keyboard.press("Enter");
    await lesson.page.waitForFunction(() => document.activeElement.id === "question");
    await lesson.press("How you stand");
    await lesson.button("Practise: Explain why water holds no pH").focus();
    await lesson.page.keyboard.press("Enter");
    await lesson.page.waitForFunction(() => document.activeElement.id === "explain");
    await lesson.button("Show the right clauses").focus();
    await lesson.page.keyboard.press("Enter");
    await lesson.bench.settle();
    equal((await focused(lesson.page)).name, "Another explanation", "after the clauses were shown");
  },
};
