// The page around a frame: what it is told, what its buttons do, and what stays its own.

import { Bench } from "./bench.mjs";
import { LESSON, SCHEMA, WORDS, ask, benchIn, course, fail, heard, lessonWorks, odd, place, plain, states } from "./course-page.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { landed } from "./landing.mjs";
import { Lesson, openAll } from "./lesson.mjs";

const LOOKS = [[360, 740], [800, 600], [1280, 800]].flatMap(([width, height]) => [false, true].map((dark) => ({ width, height, dark })));

export default {
  "the sample shows pH, amounts and results, and is as high as it need be": async (given) => {
    const { page, frame, close } = await course(given);
    const bench = await benchIn(page, frame);
    const shown = page.locator("#bench");
    const agrees = async () => {
      const { texts } = await bench.read();
      await until(() => shown.innerText(), (text) => text.startsWith(`pH ${texts.ph}, water ${texts.water}. HA ${texts.acidAmount}, A⁻ ${texts.baseAmount} in `), `the page shows pH ${texts.ph}`);
    };
    await agrees();
    await bench.add("acid", "2.0", 2);
    await agrees();
    await bench.exhaust("acid", "2.0");
    await agrees();
    ok(/A⁻ has run out\./.test(await shown.innerText()), await shown.innerText());
    await until(() => page.locator("iframe").evaluate((f) => [f.clientHeight, Math.ceil(f.getBoundingClientRect().height)]), ([h]) => h > 300, "a height");
    const content = await frame.evaluate(() => Math.ceil(document.querySelector("#app").getBoundingClientRect().height));
    await until(() => page.locator("iframe").evaluate((f) => f.clientHeight), (h) => h >= content, "the frame as high as its content");
    await close();
  },

  "one message for what changed, none for what moves": async (given) => {
    const { page, frame, close } = await course(given);
    const bench = await benchIn(page, frame);
    await until(() => states(page), (all) => all.length === 1, "one state after the start");
    equal((await heard(page, "evenkeel:ready")).length, 1, "greetings");
    await bench.add("acid", "2.0");
    await until(() => states(page), (all) => all.length === 2, "one more after an addition");
    // The particles move for a while, and another panel is opened: no news.
    const passed = () => frame.locator("#give-and-take").innerText();
    const before = await passed();
    await until(passed, (now) => now !== before, "the particles move");
    await bench.panel("Limits");
    await bench.press("As mixed");
    equal((await states(page)).length, 2, "states");
    const { acidForm, baseForm, addedAcid, volume } = (await states(page))[1];
    none([[acidForm, 0.012], [baseForm, 0.008], [addedAcid, 0.002], [volume, 0.202]].filter(([a, b]) => Math.abs(a - b) > 2e-5).map(([a, b]) => `${a}, should be near ${b}`));
    await close();
  },

  "its buttons do what a learner does, and take nothing from the page": async (given) => {
    const { page, frame, close } = await course(given, { height: 500 });
    const bench = await benchIn(page, frame);
    const read = async () => (await bench.read()).texts.baseAmount;
    const steps = [
      ["Add 2 mmol of acid", "8.0 mmol"], ["Add 2 mmol of alkali", "10.0 mmol"], ["Undo", "8.0 mmol"],
      ["Redo", "10.0 mmol"], ["Start again", "10.0 mmol"], ["Add 2 mmol of acid", "8.0 mmol"],
    ];
    const button = (name) => page.getByRole("button", { name, exact: true });
    // By keyboard: it is certain to reach the page and not the frame above.
    const press = (name) => button(name).press("Enter");
    const { steps: history } = await place(page);
    for (const [name, amount] of steps) {
      await press(name);
      const before = await place(page);
      await until(read, (now) => now === amount, `${name}: A⁻ ${amount}`);
      equal(await place(page), before, `the page's place after ${name}`);
      ok(await button(name).evaluate((own) => own === document.activeElement), `${name} took the focus away`);
    }
    await press("Start again");
    await press("Undo");
    await until(read, (now) => now === "8.0 mmol", "back before the start");
    for (let i = 0; i < 5; i += 1) await press("Undo");
    await until(() => page.locator("#refused").innerText(), (text) => text === "Not done: nothing.", "it says that there is nothing to undo");
    // Light and dark, on the page and on the canvas.
    const ground = () => frame.evaluate(() => getComputedStyle(document.querySelector(".card")).backgroundColor);
    const looks = new Set();
    for (const [name, wanted] of [["Dark", "rgb(26, 33, 42)"], ["Light", "rgb(255, 255, 255)"]]) {
      await press(name);
      await until(ground, (now) => now === wanted, name);
      // The canvas follows in the next frame.
      await bench.settle();
      looks.add((await bench.picture()).hash);
    }
    ok(looks.size === 2, "the particles keep their colors");
    await press("As the device");
    await until(() => frame.evaluate(() => document.documentElement.dataset.theme ?? "none"), (now) => now === "none", "the device's look");
    // Another lesson, without a way back through the frame, which is left for it.
    await landed(page);
    await press("Next lesson");
    const { scroll } = await place(page);
    await frame.getByText("Ethanoic acid").first().waitFor();
    await (await benchIn(page, frame)).settle();
    // The page gives the lesson the height that it asks for, and may be shorter then.
    const least = await page.evaluate((before) => scrollY - Math.min(before, document.documentElement.scrollHeight - innerHeight), scroll);
    equal([least, (await place(page)).steps], [0, history], "the page's place and history after another lesson");
    ok(await button("Next lesson").evaluate((own) => own === document.activeElement), "another lesson took the focus");
    await close();
  },

  "a whole journey: only these messages, and no entry in the history": async (given) => {
    const { page, frame, close } = await course(given, { query: `${LESSON}${WORDS}` });
    const { steps } = await place(page);
    const lesson = await lessonWorks(page, frame);
    await lesson.press("Questions");
    // Read before the question is: it stands above it.
    const told = await lesson.panel.getByText(/the page around it is told how each question went/).boundingBox();
    const question = await lesson.panel.getByRole("heading", { name: /^Question/ }).boundingBox();
    ok(told && told.y + told.height <= question.y, `who learns of it stands at ${JSON.stringify(told)}, the question at ${JSON.stringify(question)}`);
    await lesson.press("Next question");
    await fail(lesson);
    await until(() => heard(page, "evenkeel:result"), (all) => all.length === 2, "the second result");
    for (const panel of ["Why", "Set up", "Limits", "Practice"]) await lesson.bench.panel(panel);
    await frame.getByLabel("Conjugate pair").count();
    await lesson.bench.panel("Set up");
    await lesson.bench.field(/^Propanoic acid/, /^Concentration/).fill("Anna");
    await lesson.bench.startAgain();
    for (const command of ["add", "drain"]) await ask(page, command, { reagent: "Anna", mol: 1 });
    await until(() => heard(page, "evenkeel:refused"), (all) => all.length === 2, "two refusals");
    const all = await heard(page);
    none(all.flatMap(odd));
    equal(new Set(all.map((data) => data.type ?? data.subject)).size, Object.keys(SCHEMA).length + 1, "kinds of messages");
    ok(!/Anna|Example|1\.11|Bakery/.test(JSON.stringify(all)), "a word that was typed is in a message");
    const results = await heard(page, "evenkeel:result");
    equal(results.map(({ number: n, of, form, level, last }) => [n, of, form, level, last]), [[1, 2, "mix", "whole", false], [2, 2, "ka", "whole", true]], "the results");
    equal(await page.locator("#results li").count(), 2, "results that the page shows");
    equal((await place(page)).steps, steps, "entries in the host's history");
    await close();
  },

  "results are not told where the lesson does not say so": async (given) => {
    const { page, frame, close } = await course(given, { query: LESSON.replace("&tell=results", "") });
    const lesson = await Lesson.practice(await benchIn(page, frame));
    ok(!(await lesson.panel.getByText(/the page around it is told/).isVisible()), "the learner is told of what is not done");
    await fail(lesson);
    await lesson.press("Next question");
    await fail(lesson);
    await ask(page, "undo");
    await until(() => heard(page, "evenkeel:refused"), (all) => all.length === 1, "an answer");
    equal(await heard(page, "evenkeel:result"), [], "results");
    await close();
  },

  "a teacher asks for results in setting up the lesson": async ({ open }) => {
    const bench = await open();
    await bench.panel("Lesson");
    const panel = bench.page.locator("#panel .lesson");
    await openAll(panel);
    const link = async () => new URL(await panel.locator("#lesson-link").inputValue()).search;
    equal(await link(), "", "the link of the usual page");
    await panel.getByLabel(/tell the page around it how each question went/).check();
    await until(link, (now) => now === "?v=1&tell=results", "the link of a lesson that tells results");
    await panel.getByLabel(/tell the page around it how each question went/).uncheck();
    await until(link, (now) => now === "", "the link of the usual page again");
  },

  "a guided lesson at the fold moves nothing until the learner acts": async (given) => {
    const { page, frame, close } = await course(given, { query: "?v=1&start=guided", html: plain({ above: 500 }), width: 800, height: 600 });
    const bench = await benchIn(page, frame);
    const guide = frame.locator(".guide");
    await guide.waitFor();
    await bench.settle();
    equal(await place(page), { scroll: 0, focus: "body", steps: (await place(page)).steps }, "the page's place once the guide is there");
    /** Skips a step, as the learner, and puts the page back to where it was: the guide has moved it. */
    const skip = async () => {
      await guide.getByRole("button", { name: "Skip this step" }).dispatchEvent("click");
      await until(() => page.evaluate(() => scrollY), (y) => y > 0, "the step in sight");
      await page.evaluate(() => scrollTo(0, 0));
      await page.locator("#before").focus();
    };
    const add = () => ask(page, "add", { reagent: "acid", mol: 0.002 });
    await skip();
    const before = await place(page);
    await add();
    await until(() => heard(page, "evenkeel:refused"), (all) => all.some(({ reason }) => reason === "held"), "the guide holds it back");
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ while the guide holds additions back");
    await skip();
    await skip();
    // The step beside water is done by any addition, also by one of the page's own.
    await add();
    await guide.locator(".met:not(:empty)").waitFor();
    await bench.settle();
    equal(await place(page), before, "the page's place after a step that it completed itself");
    await close();
  },

  "Tab goes in and out again": async (given) => {
    const { page, frame, close } = await course(given, { html: plain() });
    const bench = await benchIn(page, frame);
    const at = () => page.evaluate(() => document.activeElement.id || document.activeElement.localName);
    for (const panel of ["Set up", "Practice"]) {
      await bench.panel(panel);
      await bench.settle();
      for (const [key, from, to] of [["Tab", "before", "behind"], ["Shift+Tab", "behind", "before"]]) {
        await page.locator(`#${from}`).focus();
        const seen = [];
        while (seen.at(-1) !== to && seen.length < 90) {
          await page.keyboard.press(key);
          seen.push(await at());
        }
        equal(seen.at(-1), to, `the end of the way by ${key} with ${panel}`);
        ok(seen.filter((id) => id === "iframe").length > 10, `${key} passes by the frame: ${seen}`);
      }
    }
    await close();
  },

  "the full page is a link to the same lesson": async (given) => {
    const { page, frame, source, close } = await course(given, { query: `${LESSON}${WORDS}` });
    await benchIn(page, frame);
    const link = frame.getByRole("link", { name: "Open full page in a new tab" });
    equal(await link.getAttribute("href"), source, "its address");
    const [opened] = await Promise.all([page.waitForEvent("popup"), link.click()]);
    const bench = await Bench.on(opened);
    equal([opened.url(), await opened.evaluate(() => window.opener)], [source, null], "what it opens");
    ok(await opened.getByText("Bakery buffers").first().isVisible(), "the lesson's title");
    const lesson = await Lesson.practice(bench);
    ok(!(await lesson.panel.getByText(/the page around it is told/).isVisible()), "it speaks of a page around it");
    ok(!(await opened.locator("#full-page").count()), "a full page leads to itself");
    await close();
  },

  "the bench fits its frame, in a course page of any size": async (given) => {
    const problems = [];
    for (const look of LOOKS) {
      const attributes = `width="${look.width}" height="${look.height}"`;
      const { page, frame, close } = await course(given, { ...look, html: plain({ attributes }) });
      const name = `host-${look.width}x${look.height}${look.dark ? "-dark" : ""}`;
      await benchIn(page, frame);
      const lowest = await frame.evaluate(() => Math.max(...[...document.querySelectorAll("#ph, canvas, .additions button")].map((node) => node.getBoundingClientRect().bottom)));
      if (lowest > look.height) problems.push(`${name}: the bench reaches down to ${lowest} px`);
      const link = await frame.locator("#full-page").boundingBox();
      if (!link || link.width < 44 || link.height < 44) problems.push(`${name}: the full page's link is ${JSON.stringify(link)}`);
      await close();
      // To be looked at: the sample as its reader sees it.
      const whole = await course(given, look);
      await benchIn(whole.page, whole.frame);
      await until(() => whole.page.locator("#bench").innerText(), (text) => text.startsWith("pH"), "the sample's words");
      await whole.page.screenshot({ path: `target/screens/${name}.png` });
      await whole.page.screenshot({ path: `target/screens/${name}-whole.png`, fullPage: true });
      await whole.close();
    }
    none(problems);
  },
};
