// The whole way with Tab, Enter and Space, and where the focus is all along.

import { equal, none, ok } from "./expect.mjs";
import { shown } from "./frames.mjs";
import { focused, round, tabTo } from "./keys.mjs";
import { BUFFER, Lesson, SAME_QUESTIONS, TWO_CONCENTRATIONS, anyBuffer, hydrogen, sameSeries, twoConcentrations, twoDecimals } from "./lesson.mjs";
import { facts } from "./reading.mjs";

const SCREENS = [{}, { width: 360, height: 740 }];

/** Tabs to what is called so, sees that it shows there, and presses a key on it. */
async function press(page, wanted, key = "Enter", way = "Tab") {
  const now = await focused(page);
  const at = now && wanted.test(now.name) ? now : await tabTo(page, wanted, way);
  ok(at.ring && at.inView, `${at.name} has the focus, and ${at.ring ? "is out of sight" : "no ring shows it"}`);
  await page.keyboard.press(key);
  await page.evaluate(shown);
}

/** From sorting to a checked answer, which is the right one if none is given. */
async function answered(lesson, text) {
  const { page } = lesson;
  const { kind, ph } = anyBuffer(await lesson.question());
  await press(page, new RegExp(`^${kind}$`));
  equal((await focused(page)).tag, "input", "the focus after sorting");
  await press(page, /^pH/, "Control+A");
  await page.keyboard.type(text ?? ph);
  await page.keyboard.press("Enter");
  await lesson.bench.settle();
  return ph;
}

/** Open, guided start, add, exhaust, working, three questions, a lesson's link: no pointer at all. */
function wholeWay(screen) {
  return async ({ open }) => {
    const bench = await open({ ...screen, before: [sameSeries] });
    const { page } = bench;
    await press(page, /^Show me/);
    await page.waitForFunction(() => document.activeElement.id === "guide-title");
    await press(page, /^As mixed$/, "Space", "Shift+Tab");
    await press(page, /^Next$/);
    equal((await focused(page)).id, "guide-title", "the focus at the second step");
    await press(page, /^down$/, "Space");
    await press(page, /^0\.1 to 1$/, "Space");
    await press(page, /^Lock it$/);
    ok(/^Add 0\.1 mmol of acid$/.test((await focused(page)).name), `the focus after locking: ${(await focused(page)).name}`);
    await press(page, /^Add 0\.5 mmol of acid$/);
    ok((await page.locator(".guide .met").innerText()).startsWith("You locked: down"), "nothing is said of the prediction");
    await press(page, /^Close the guide$/, "Enter", "Shift+Tab");
    await page.waitForFunction(() => document.activeElement.id === "guide-start");

    await tabTo(page, /^Add 2\.0 mmol of acid$/);
    for (let i = 0; i < 6; i += 1) await page.keyboard.press("Enter");
    await bench.settle();
    const { legend, why } = await bench.read();
    ok(legend.ion === "H⁺" && legend.drawn?.count > 0, "no free H⁺ after A⁻ ran out");
    ok(/r[au]n out/.test(why.text), `why: ${why.text}`);

    await press(page, /^Working$/);
    await page.locator("#panel .step").first().waitFor();
    const summaries = page.locator("#panel .step:not([open]) > summary");
    const wanted = (await summaries.first().innerText()).replace(/\s+/g, " ").trim();
    await tabTo(page, new RegExp(`^${wanted.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}$`));
    await page.keyboard.press("Space");
    ok(await page.evaluate(() => document.activeElement.parentElement.open), `${wanted} did not open`);

    await press(page, /^Practice$/, "Enter", "Shift+Tab");
    const lesson = new Lesson(bench);
    await lesson.panel.getByRole("heading", { name: /^Question/ }).waitFor();
    await press(page, /^Choose questions$/);
    await tabTo(page, /^Kind of question/);
    await page.keyboard.type("Work out pH from two c");
    await tabTo(page, /^How much is done/);
    await page.keyboard.type("Whole");
    await press(page, /^Choose questions$/, "Enter", "Shift+Tab");
    await answered(lesson);
    ok(/^Right\./.test(await lesson.status()), `a right answer: ${await lesson.status()}`);
    await press(page, /^Next question$/);
    await page.waitForFunction(() => document.activeElement.id === "question");
    const right = await answered(lesson, "1.11");
    ok(/^Something is not right yet/.test(await lesson.status()), `a wrong answer: ${await lesson.status()}`);
    equal((await focused(page)).tag, "input", "the focus after a wrong answer");
    await page.keyboard.press("Control+A");
    await page.keyboard.type(right);
    await page.keyboard.press("Enter");
    await bench.settle();
    ok(/^Right in the end\./.test(await lesson.status()), `after the retry: ${await lesson.status()}`);
    await press(page, /^Next question$/);
    await press(page, new RegExp(`^${anyBuffer(await lesson.question()).kind}$`));
    await press(page, /^Show the layout$/);
    ok(/^Here is the whole layout/.test(await lesson.status()), `asked for the layout: ${await lesson.status()}`);
    equal((await focused(page)).name, "Next question", "the focus after the layout");

    // A lesson's link: what it says opens and closes, its question is there at once.
    const other = await open({ ...screen, before: [sameSeries], query: `?v=1&ask=conc&n=1&level=whole${TOLD}` });
    const told = other.page.locator("details.told");
    const was = await told.evaluate((node) => node.open);
    await press(other.page, /^Bakery buffers$/);
    equal(await told.evaluate((node) => node.open), !was, "whether the lesson's words are open");
    const set = new Lesson(other);
    await answered(set);
    ok(/^Right\./.test(await set.status()), `the lesson's answer: ${await set.status()}`);
    ok(await other.page.getByText("The question is done: 1 right").isVisible(), "the end is not said");
  };
}

/** A title and a prompt, as a link carries them. */
const TOLD = "#t=1.fe3c9f1f.QmFrZXJ5IGJ1ZmZlcnMKV2hpY2ggcmVzZXJ2b2lyIG1lZXRzIHRoZSBhY2lkPw";

export default {
  "the whole way on a wide screen": wholeWay({}),
  "the whole way on a phone": wholeWay({ width: 360, height: 740 }),

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
