// A learner's whole way through the page, the same in every engine: `{name: check}`. A check is
// handed an engine that has just been started, and where the page is served.

import { pathToFileURL } from "node:url";
import { amongParts, during, equationIs, withWorked } from "../agree.mjs";
import { seen } from "../camera.mjs";
import { flask, system } from "../chemistry.mjs";
import { equal, none, ok, until } from "../expect.mjs";
import { misfits } from "../geometry.mjs";
import { BUFFER, hydrogen, twoConcentrations, twoDecimals } from "../lesson.mjs";
import { readBench } from "../reading.mjs";
import { serve } from "../server.mjs";
import fault from "./fault.mjs";
import { equation, formulas } from "./formulas.mjs";
import { Learner } from "./learner.mjs";
import { TAB } from "./engine.mjs";

const AT_START = { ...system("propanoic"), acid: 10, base: 10, volume: 200 };

/** The facts that the static page states; the application states the same in their place. */
const STATED = ["ph", "start", "pka", "water", "acidAmount", "baseAmount", "equation", "headings"];

/** A lesson with words of its own and a set of questions; the working is locked until they are done. */
const LESSON = "?v=1&ask=conc&n=3&level=whole&seed=417&lock=working#t=1.fe3c9f1f.QmFrZXJ5IGJ1ZmZlcnMKV2hpY2ggcmVzZXJ2b2lyIG1lZXRzIHRoZSBhY2lkPw";

async function stated(engine) {
  const { texts } = await readBench(engine);
  return Object.fromEntries(STATED.map((part) => [part, texts[part]]));
}

/** The bench is the one worked out independently, in every part of the page. */
function agrees(moment, reading, worked, equation) {
  none(during(moment, [...amongParts(reading), ...withWorked(reading, worked), ...(equation ? equationIs(reading, equation) : [])]));
}

/** Pushes a buffer until it fails; returns what the page says then. */
async function exhausted(learner) {
  const before = await learner.read();
  await learner.exhaust("acid", "2.0");
  const spent = await learner.read();
  none(during("acid poured until it fails", amongParts(spent)));
  equal(spent.base.count, 0, "particles of the base form left");
  ok(spent.ph < 2.5 && before.ph > 4, `past its end the pH runs away: from ${before.ph} to ${spent.ph}`);
  return spent;
}

/** Opens the working step by step; fails if one is not set as it should be, or none is there. */
async function calculation(learner, look = () => {}) {
  const { engine } = learner;
  await engine.find({ css: "#panel .step" });
  const names = await engine.evaluate(() => [...document.querySelectorAll("#panel .step > summary")].map((s) => s.innerText.replace(/\s+/g, " ").trim()));
  let [formulasSeen, fractionsSeen] = [0, 0];
  for (const [number, name] of names.entries()) {
    if (!(await engine.evaluate((n) => document.querySelectorAll("#panel .step")[n].open, number))) await engine.click({ css: "#panel .step > summary", name });
    equal(await engine.evaluate(() => document.querySelectorAll("#panel .step[open]").length), 1, "steps open at a time");
    const { count, fractions, problems } = await engine.evaluate(formulas);
    none(during(name, problems));
    if (fractions > 0) await look();
    formulasSeen += count;
    fractionsSeen += fractions;
  }
  ok(formulasSeen > 3 && fractionsSeen > 0, `the working has ${formulasSeen} formulas with ${fractionsSeen} fractions`);
  return names;
}

/** One question of the lesson, ready for its answer. */
async function sorted(learner, number) {
  await learner.engine.find({ role: "heading", name: `/^Question ${number} of 3/` });
  const data = twoConcentrations(await learner.question());
  ok(data, await learner.question());
  await learner.press(BUFFER);
  await learner.engine.find({ css: "#line-1" });
  return data;
}

/** That a page works: bench, calculation and a question. */
async function works(learner) {
  await learner.add("acid", "2.0");
  equal((await learner.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
  await exhausted(learner);
  await learner.panel("Working");
  await calculation(learner);
  await learner.panel("Practice");
  await learner.engine.find({ role: "heading", name: "/^Question/" });
  // Whatever it is: a right choice goes on, and so does the second wrong one.
  for (const place of [1, 2]) {
    const kind = { css: `#panel .kinds button:nth-of-type(${place})` };
    if (await learner.engine.isThere(kind)) await learner.engine.click(kind);
  }
  await learner.press("Show the layout");
  await learner.engine.find({ css: "#panel .working .step" });
}

/** A page of another site with the widget in a frame that may only run scripts. */
const host = (source) => `<!doctype html><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,">
<style>body { margin: 0 } iframe { border: 0; width: 100%; height: 700px }</style>
<iframe src="${source}" title="Evenkeel" sandbox="allow-scripts"></iframe>`;

export default {
  "the first paint is true": async ({ engine, folder, shot }) => {
    let release;
    const held = new Promise((resolve) => (release = resolve));
    const site = await serve({ folder, before: (path) => (path.endsWith(".wasm") ? held : undefined) });
    await engine.goto(site.byNumber);
    await engine.find({ css: "#loading" });
    const still = await stated(engine);
    equal([still.ph, still.pka], ["4.87", "4.87"], "pH and pKa, which the static page calls equal");
    await shot("first-paint");
    release();
    const learner = await Learner.on(engine);
    equal(await stated(engine), still, "what the application states in its place");
    ok(!(await engine.isThere({ css: "#no-wasm" })), "a page that works says that it could not start");
    agrees("at the start", await learner.read(), flask(AT_START)(0, 0));
    await site.close();
  },

  "guided, then acid and alkali, undo, and until it fails": async ({ engine, site, shot }) => {
    await engine.goto(site.byNumber);
    const learner = await Learner.on(engine);
    const met = () => learner.text(".guide .met");
    await learner.press("/^Show me/");
    await engine.find({ css: ".guide" });
    await learner.press("As mixed");
    equal(await met(), "Done.", "after a change of view");
    await learner.press("Sorted");
    await learner.press("Next");
    for (const choice of ["down", "0.1 to 1", "Lock it"]) await learner.press(choice);
    const before = await learner.read();
    await learner.add("acid", "0.5");
    const after = await learner.read();
    ok((await met()).startsWith(`You locked: down, by 0.1 to 1. The pH changed by ${twoDecimals(after.ph - before.ph)};`), await met());
    await shot("guide");
    await learner.press("Close the guide");

    // From here on with one addition of 0.5 mmol of acid on the bench.
    const worked = flask(AT_START);
    agrees("0.5 mmol of acid", after, worked(0.5, 0), "H⁺ + {base} → {acid}");
    none(await engine.evaluate(equation));
    await learner.add("alkali", "2.0");
    const both = await learner.read();
    agrees("2.0 mmol of alkali", both, worked(0.5, 2), "OH⁻ + {acid} → {base} + H₂O");
    await learner.press("Undo");
    equal((await learner.read()).texts.ph, after.texts.ph, "pH after an undo");
    await learner.press("Redo");
    equal((await learner.read()).texts.ph, both.texts.ph, "pH after a redo");
    await learner.press("Undo");
    await exhausted(learner);
    ok(/ran out/.test((await learner.read()).why.text) || engine.width < 700, "Why does not say that the base form ran out");
    await learner.rested();
    none(await engine.evaluate(misfits));
    await shot("exhausted");
  },

  "the working, in full": async ({ engine, site, shot }) => {
    await engine.goto(site.byNumber);
    const learner = await Learner.on(engine);
    await learner.add("acid", "0.5");
    await learner.panel("Working");
    const names = await calculation(learner, () => shot("working"));
    const { texts } = await learner.read();
    ok(names.some((name) => name.endsWith(`pH: ${texts.ph}`)), `no step ends in pH ${texts.ph}: ${names}`);
    await engine.click({ css: "#panel .working > details > summary" });
    const text = await learner.text("#panel .working pre");
    for (const part of [/n\(HA\) at the start = /, /Kₐ|Ka/, /\[H⁺\] = /, /−log/, new RegExp(`= ${texts.ph}\\b`)]) ok(part.test(text), `the working has no ${part}: ${text}`);
    none(await engine.evaluate(misfits));
  },

  "a lesson's link: words of its own, three questions, then what they open": async ({ engine, site, shot }) => {
    await engine.goto(`${site.byNumber}/${LESSON}`);
    const learner = await Learner.on(engine);
    if (!(await engine.isThere({ css: ".told li" }))) await engine.click({ css: ".told > summary" });
    equal([await learner.text(".told > summary"), await learner.text(".told li")], ["Bakery buffers", "Which reservoir meets the acid?"], "title and prompt");
    await learner.panel("Working");
    ok((await learner.text("#panel")).includes("Your teacher has locked this part."), "the lock is not said");
    await learner.panel("Practice");

    const right = await sorted(learner, 1);
    await learner.answer(1, twoDecimals(-Math.log10(hydrogen(right))));
    ok(/^Right\. First try: (\d) of \1 marks\.$/.test(await learner.status()), `a right answer: ${await learner.status()}`);
    await shot("practice-right");
    await learner.press("Next question");

    const slip = await sorted(learner, 2);
    const upside = twoDecimals(-Math.log10((slip.ka * slip.base) / slip.acid));
    await learner.answer(1, upside);
    const said = await learner.says(1);
    ok(said.startsWith(`${upside} is what you get if `) && /the ratio of the two forms is upside down/.test(said), said);
    equal(await engine.evaluate(() => document.querySelector("#line-1").value), upside, "what was typed");
    await shot("practice-slip");
    await learner.answer(1, twoDecimals(-Math.log10(hydrogen(slip))));
    ok((await learner.status()).startsWith("Right in the end."), `after the retry: ${await learner.status()}`);
    await learner.press("Next question");

    const junk = await sorted(learner, 3);
    for (const text of ["abc", "4.7.6", "<b>4</b>"]) {
      await learner.answer(1, text);
      ok(/This cost nothing/.test(await learner.says(1)), `${text}: ${await learner.says(1)}`);
    }
    await learner.answer(1, twoDecimals(-Math.log10(hydrogen(junk))).replace(".", ","));
    ok(/^Right\. First try: (\d) of \1 marks\.$/.test(await learner.status()), `after junk, with a comma: ${await learner.status()}`);
    await learner.text("#panel .whole");
    ok((await learner.text("#panel .whole")).startsWith("All 3 questions are done:"), await learner.text("#panel .whole"));
    await learner.panel("Working");
    await engine.find({ css: "#panel .step" });
  },

  "fields, lists and the focus": async ({ engine, site, shot }) => {
    await engine.goto(site.byNumber);
    const learner = await Learner.on(engine);
    await learner.panel("Set up");
    const field = { css: "#panel fieldset input" };
    await engine.type(field, "0.25");
    equal(await engine.evaluate(() => document.querySelector("#panel fieldset input").value), "0.25", "typed in order");
    agrees("0.25 mol dm⁻³ of the acid", await learner.read(), flask({ ...AT_START, acid: 25 })(0, 0));
    await engine.type(field, "lots");
    ok(await engine.isThere({ css: "#panel [aria-invalid=true]" }), "a wrong value is not marked");
    await shot("set-up");
    await engine.type(field, "0.1");
    await engine.press(TAB);
    const ring = await engine.evaluate(() => {
      const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(document.activeElement);
      return [document.activeElement.localName, document.activeElement.matches(":focus-visible"), outlineStyle, parseFloat(outlineWidth) >= 2, outlineColor !== "transparent"];
    });
    equal(ring.slice(1), [true, "solid", true, true], `the ring round the focused ${ring[0]}`);
    for (const panel of ["Limits", "Lesson"]) {
      await learner.panel(panel);
      await learner.openAll();
      none(await engine.evaluate(misfits));
      await shot(panel.toLowerCase());
    }
    await engine.type({ css: "#panel .lesson input[maxlength]" }, "Bakery buffers");
    await engine.reach({ css: "#panel .code svg" });
    const link = await engine.evaluate(() => document.getElementById("lesson-link").value);
    ok(/#t=1\./.test(link), `no title in the link ${link}`);
    equal(seen(await shot("code")), link, "the link in the code for cameras");
  },

  "the lesson's file, from a disk and without a network": async ({ engine, folder, shot }) => {
    await engine.goto(pathToFileURL(`${folder}/lesson-file.html`).href);
    const learner = await Learner.on(engine);
    await works(learner);
    const fetched = await engine.evaluate(() => performance.getEntriesByType("resource").map(({ name }) => name).filter((url) => !url.startsWith("data:")));
    equal(fetched, [], "resources beside the file itself");
    await shot("file");
  },

  "the lesson's file in a sandboxed frame of another site": async ({ engine, site, shot }) => {
    const outside = await serve({ pages: { "/": host(`${site.byName}/lesson-file.html`) } });
    await engine.goto(outside.byNumber);
    await engine.into({ css: "iframe" });
    const learner = await Learner.on(engine);
    equal(await engine.evaluate(() => [origin, top === window]), ["null", false], "the frame's origin");
    await works(learner);
    await engine.out();
    await shot("frame");
    await outside.close();
  },

  ...fault,
};
