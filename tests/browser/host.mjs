// The page around a frame: what it is told, what it may ask for, and that nobody else may. The
// sample in host/ is the course page.

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { Bench } from "./bench.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { Lesson, openAll, sameSeries } from "./lesson.mjs";
import { serve } from "./server.mjs";

const SAMPLE = "tests/browser/host";
/** The sample's frame, and where it stands in the world of examples. */
const FRAME = /<iframe src="([^"]*)"/;
const ELSEWHERE = "https://evenkeel.example";

/** A title and a prompt; made with the base64 and zlib of Python. */
const WORDS = "#t=1.fe3c9f1f.QmFrZXJ5IGJ1ZmZlcnMKV2hpY2ggcmVzZXJ2b2lyIG1lZXRzIHRoZSBhY2lkPw";

/** Runs in every window: keeps all messages that arrive in it. */
function listen() {
  window.heard = [];
  addEventListener("message", ({ data, origin }) => heard.push({ data, origin }));
}

const escaped = (text) => text.replaceAll("&", "&amp;");

/** The sample page around a frame at `source`, with more `attributes` of the frame. */
function sample(source, { attributes = "" } = {}) {
  const html = readFileSync(`${SAMPLE}/index.html`, "utf8");
  ok(html.match(FRAME)[1].startsWith(ELSEWHERE), "the sample's frame is not that of the example");
  return html.replace(FRAME, () => `<iframe ${attributes} src="${escaped(source)}"`).replaceAll(ELSEWHERE, new URL(source).origin);
}

/** The query of the lesson that the sample shows. */
const LESSON = readFileSync(`${SAMPLE}/index.html`, "utf8").match(FRAME)[1].slice(ELSEWHERE.length + 1).replaceAll("&amp;", "&");

/** Opens a course page on another origin: the sample, or `html` made from the frame's address. */
async function course({ visit, site, folder }, options = {}) {
  const { query = LESSON, file = "", html = sample, shared = false, under = "" } = options;
  const widget = shared || under ? await serve({ folder, shared, under }) : site;
  const source = `${widget.byName}${under}/${file}${query}`;
  const outside = await serve({ folder: SAMPLE, pages: { "/": html(source, options) } });
  const page = await visit({ before: [listen, sameSeries], ...options, origins: [outside.byNumber, widget.byName] });
  await page.goto(`${outside.byNumber}/`);
  const close = async () => {
    await page.close();
    await outside.close();
    if (widget !== site) await widget.close();
  };
  return { page, source, frame: page.frames()[1], close };
}

/** The bench in a frame. */
async function benchIn(page, frame) {
  const bench = await Bench.on(frame);
  Object.defineProperty(frame, "mouse", { value: page.mouse, configurable: true });
  return bench;
}

/** All messages so far, or those of a type. */
const heard = async (page, type) => {
  const all = (await page.evaluate(() => heard)).map(({ data }) => data);
  return type ? all.filter((data) => data.type === type) : all;
};
const states = (page) => heard(page, "evenkeel:state");

/** Sends something to the frame as its parent. */
const send = (page, data) => page.evaluate((d) => frames[0].postMessage(d, "*"), data);
const ask = (page, command, parts = {}) => send(page, { type: "evenkeel:do", v: 1, command, ...parts });

/** What the page around the frame can lose: its place, its focus, its way back. */
const place = (page) => page.evaluate(() => ({ scroll: scrollY, focus: document.activeElement.id || document.activeElement.localName, steps: history.length }));

const number = (value) => typeof value === "number" && Number.isFinite(value) && value >= 0;
const whole = (value) => number(value) && Number.isInteger(value);
const flag = (value) => typeof value === "boolean";
const oneOf = (...values) => (value) => values.includes(value);
const ONE = oneOf(1);

/** Every message that there is, with all its parts. Nothing else may be in one. */
const SCHEMA = {
  "evenkeel:ready": { v: ONE, links: oneOf("1") },
  "evenkeel:state": {
    v: ONE, pH: number, pHWater: number, acidForm: number, baseForm: number, freeH: number, freeOH: number,
    volume: number, addedAcid: number, addedAlkali: number, acidFormUsedUp: flag, baseFormUsedUp: flag,
  },
  "evenkeel:result": {
    v: ONE, number: whole, of: (value) => value === null || whole(value), form: oneOf("mix", "ka"), level: oneOf("example", "steps", "whole"),
    marks: whole, most: whole, last: flag,
  },
  "evenkeel:refused": { v: ONE, reason: oneOf("version", "command", "value", "held", "full", "nothing", "fixed", "too-many") },
  "widget:height": { v: ONE, height: whole },
};

/** What is wrong with a message. */
function odd(data) {
  if (data.subject === "lti.frameResize") return Object.keys(data).join() === "subject,height" && whole(data.height) ? [] : [`not a height: ${JSON.stringify(data)}`];
  const parts = SCHEMA[data.type];
  if (!parts) return [`no such message: ${JSON.stringify(data)}`];
  const wrong = Object.entries(parts).filter(([name, fits]) => !fits(data[name]));
  const more = Object.keys(data).filter((name) => name !== "type" && !(name in parts));
  return [...wrong.map(([name]) => name), ...more].map((name) => `${data.type}: ${name} is ${JSON.stringify(data[name])}`);
}

/** Ends the open question by wrong answers, with a name among them. */
async function fail(lesson) {
  const kinds = lesson.panel.locator(".kinds button");
  for (let i = 0; i < 2 && (await kinds.first().isVisible()); i += 1) await kinds.nth(3 + i).click();
  for (let i = 0; i < 3 && (await lesson.button("Check").isVisible()); i += 1) {
    const lines = await lesson.panel.locator(".entry:visible input").all();
    for (const [place, line] of lines.entries()) await line.fill(place === 0 && lines.length > 1 ? "Anna Example" : "1.11");
    await (i === 0 ? lines.at(-1).press("Enter") : lesson.check());
    await lesson.panel.locator(".says:not(:empty)").first().waitFor();
  }
  if (await lesson.button("Show the layout").isVisible()) await lesson.press("Show the layout");
}

/** That a lesson with a title, a prompt and two questions works in `frame`, where nothing can be kept. */
async function lessonWorks(page, frame) {
  const bench = await benchIn(page, frame);
  ok(await frame.getByText("Which reservoir meets the acid?").count(), "the prompt is not there");
  ok(await frame.getByText("Bakery buffers").first().isVisible(), "the title is not there");
  await bench.add("acid", "2.0");
  equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
  const lesson = await Lesson.practice(bench);
  ok(/^Question 1 of 2/.test(await lesson.panel.getByRole("heading", { name: /^Question/ }).innerText()), "the questions are not the lesson's");
  await fail(lesson);
  await until(() => heard(page, "evenkeel:result"), (all) => all.length === 1, "the first result");
  await lesson.press("Explain");
  await lesson.panel.getByRole("radio").first().check();
  await lesson.check();
  await lesson.panel.locator(".stands:not(:empty)").waitFor();
  await lesson.press("How you stand");
  await lesson.panel.getByLabel("Keep this on this device").click();
  return lesson;
}

const refusesToKeep = (lesson) => lesson.panel.getByText(/does not let the page keep/).waitFor();

/** A course page in one line, with the frame as wide and high as wanted. */
const plain = ({ attributes = 'width="900" height="700"', above = 0, more = "" } = {}) => (source) =>
  `<!doctype html><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,"><body style="margin: 0"><div style="height: ${above}px">` +
  `<a href="#x" id="before">Before</a></div><iframe style="border: 0; display: block" title="Evenkeel" ${attributes} src="${escaped(source)}"></iframe><a href="#x" id="behind">Behind</a>${more}`;

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
      looks.add((await bench.picture()).hash);
    }
    ok(looks.size === 2, "the particles keep their colors");
    await press("As the device");
    await until(() => frame.evaluate(() => document.documentElement.dataset.theme ?? "none"), (now) => now === "none", "the device's look");
    // Another lesson, without a way back through the frame.
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

  "only its parent may ask": async (given) => {
    const command = { type: "evenkeel:do", v: 1, command: "add", reagent: "acid", mol: 0.002 };
    // A frame beside it sends as soon as it can reach it.
    const rogue = `<script>setInterval(() => parent.frames[0].postMessage(${JSON.stringify(command)}, "*"), 20)</script>`;
    const beside = await serve({ pages: { "/": `<!doctype html><title>Rogue</title><link rel="icon" href="data:,">${rogue}` } });
    const more = `<iframe title="Rogue" src="${beside.byNumber}"></iframe>`;
    const visit = (options) => given.visit({ ...options, origins: [...options.origins, beside.byNumber] });
    const { page, frame, close } = await course({ ...given, visit }, { html: plain({ more }) });
    const bench = await benchIn(page, frame);
    await frame.evaluate(() => new Promise((done) => {
      let count = 0;
      addEventListener("message", ({ source }) => source !== parent && ++count === 20 && done());
    }));
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after twenty messages of another frame");
    equal(await heard(page, "evenkeel:refused"), [], "answers to another frame");
    await send(page, command);
    await until(async () => (await bench.read()).texts.baseAmount, (now) => now === "8.0 mmol", "the parent is obeyed");
    await close();
    await beside.close();
  },

  "who opened the page may not ask": async ({ visit, site }) => {
    const outside = await serve({ pages: { "/": '<!doctype html><title>Opener</title><link rel="icon" href="data:,"><button onclick="w = window.open(this.value)">Open</button>' } });
    const page = await visit({ origins: [outside.byNumber, site.byName], before: [listen] });
    await page.goto(outside.byNumber);
    await page.locator("button").evaluate((button, address) => (button.value = address), `${site.byName}/`);
    const [opened] = await Promise.all([page.waitForEvent("popup"), page.getByRole("button").click()]);
    const bench = await Bench.on(opened);
    await page.evaluate(() => w.postMessage({ type: "evenkeel:do", v: 1, command: "add", reagent: "acid", mol: 0.002 }, "*"));
    await opened.waitForFunction(() => heard.length > 0);
    await bench.add("acid", "0.5");
    equal((await bench.read()).texts.baseAmount, "9.5 mmol", "A⁻ after an addition of the learner's");
    equal(await page.evaluate(() => heard), [], "what the opener is told");
    ok(!(await opened.locator("#full-page").count()), "a full page offers itself");
    await outside.close();
  },

  "whatever its parent sends": async (given) => {
    const { page, frame, close } = await course(given, { html: plain() });
    const bench = await benchIn(page, frame);
    // One by one, with what is answered: nothing that is no command is.
    const answered = await page.evaluate(async () => {
      const ring = { type: "evenkeel:do", v: 1, command: "add" };
      ring.reagent = ring;
      const command = (parts) => ({ type: "evenkeel:do", v: 1, ...parts });
      const add = (mol, reagent = "acid") => command({ command: "add", reagent, mol });
      const strange = [
        null, undefined, 0, NaN, "evenkeel:do", 10n, [], [["type", "evenkeel:do"]], new Date(0), new Map([["type", "evenkeel:do"]]),
        { type: "evenkeel:don't" }, { type: ["evenkeel:do"] }, { type: "x".repeat(5e6) }, new ArrayBuffer(9), /x/,
      ];
      const bad = [
        ring, add(NaN), add(Infinity), add(-1), add("0.002"), add(null), add({}), add(1e308), add(0.002, "x".repeat(5e6)), add(0.002, 7),
        command({}), command({ command: "constructor" }), command({ command: "__proto__" }), command({ command: {} }), command({ command: "theme", theme: "<img>" }),
        command({ command: "open", lesson: "//elsewhere.example/?v=1" }), command({ command: "open", lesson: "javascript:alert(1)" }),
        { ...add(0.002), v: 2 }, { ...add(0.002), v: "1" }, { type: "evenkeel:do" },
      ];
      const count = () => heard.filter(({ data }) => data.type === "evenkeel:refused").length;
      for (const data of [...strange, ...bad]) frames[0].postMessage(data, "*");
      // What is sent after them arrives after them.
      frames[0].postMessage(command({ command: "tell" }), "*");
      const before = heard.filter(({ data }) => data.type === "evenkeel:state").length;
      while (heard.filter(({ data }) => data.type === "evenkeel:state").length === before) await new Promise((done) => setTimeout(done, 20));
      return [count(), bad.length];
    });
    equal(answered[0], answered[1], "refusals");
    none((await heard(page)).flatMap(odd));
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after all that");
    await bench.add("acid", "2.0");
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition of the learner's");
    await close();
  },

  "ten thousand commands in a row": async (given) => {
    const { page, frame, close } = await course(given, { html: plain() });
    const bench = await benchIn(page, frame);
    await page.evaluate(() => {
      const command = { type: "evenkeel:do", v: 1, command: "add", reagent: "acid", mol: 0.0001 };
      for (let i = 0; i < 10_000; i += 1) frames[0].postMessage(command, "*");
      frames[0].postMessage({ over: true }, "*");
    });
    await frame.waitForFunction(() => heard.some(({ data }) => data?.over));
    const { addedAcid } = (await states(page)).at(-1);
    const refusals = await heard(page, "evenkeel:refused");
    const done = Math.round(addedAcid / 0.0001);
    ok(done >= 1 && done <= 600, `${done} of them were carried out`);
    ok(refusals.length >= 1 && refusals.length <= 20, `${refusals.length} refusals`);
    ok(refusals.every(({ reason }) => reason === "too-many"), JSON.stringify(refusals));
    // The learner is not held up, and after a rest the parent is heard again.
    await bench.startAgain();
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after starting again");
    await until(async () => {
      await ask(page, "add", { reagent: "acid", mol: 0.002 });
      return (await bench.read()).texts.baseAmount;
    }, (now) => now !== "10.0 mmol", "the parent is heard again");
    await close();
  },

  "a parent of the same origin that sends what throws": async ({ visit, folder }) => {
    const host = await serve({ folder, pages: { "/course": plain()("/") } });
    const page = await visit({ origins: [host.byName], before: [listen] });
    await page.goto(`${host.byName}/course`);
    const frame = page.frames()[1];
    const bench = await benchIn(page, frame);
    await page.evaluate(() => {
      const evil = () => { throw new Error("evil"); };
      const traps = Object.fromEntries(["get", "has", "ownKeys", "getOwnPropertyDescriptor"].map((name) => [name, evil]));
      const late = { type: "evenkeel:do", v: 1, command: "add", reagent: "acid", get mol() { return evil(); } };
      for (const data of [new Proxy({}, traps), { get type() { return evil(); } }, late, { type: "evenkeel:do", get v() { return evil(); } }]) {
        frames[0].dispatchEvent(new frames[0].MessageEvent("message", { data, source: window, origin: location.origin }));
      }
    });
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after all that");
    await ask(page, "add", { reagent: "acid", mol: 0.002 });
    await until(async () => (await bench.read()).texts.baseAmount, (now) => now === "8.0 mmol", "the parent is still heard");
    await host.close();
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

  "a lesson in a frame with an origin that can keep nothing, under a path": async (given) => {
    const attributes = 'sandbox="allow-scripts allow-same-origin"';
    const { page, frame, source, close } = await course(given, { attributes, query: `${LESSON}${WORDS}`, under: "/courses/widget" });
    ok(source.includes("/courses/widget/?v=1"), source);
    const lesson = await lessonWorks(page, frame);
    // These windows give a frame of another site no storage.
    await refusesToKeep(lesson);
    await ask(page, "open", { lesson: "?v=1&pair=ethanoic.1" });
    await frame.getByText("Ethanoic acid").first().waitFor();
    ok(frame.url().endsWith("/courses/widget/?v=1&pair=ethanoic.1"), frame.url());
    await close();
  },

  "a lesson in a frame without an origin: hosted, and the file": async (given) => {
    const attributes = 'sandbox="allow-scripts"';
    const query = `${LESSON}${WORDS}`;
    for (const options of [{ shared: true, expected: [/preload/] }, { file: "lesson-file.html" }]) {
      const { page, frame, close } = await course(given, { attributes, query, ...options });
      const lesson = await lessonWorks(page, frame);
      await refusesToKeep(lesson);
      none((await heard(page)).flatMap(odd));
      equal([...new Set(await page.evaluate(() => heard.map(({ origin }) => origin)))], ["null"], "the origin of its messages");
      await page.getByRole("button", { name: "Next lesson" }).press("Enter");
      await frame.getByText("Ethanoic acid").first().waitFor();
      await benchIn(page, frame);
      await close();
    }
  },

  "a lesson's file in a frame from a disk": async ({ visit, folder }) => {
    const carried = escaped(`${LESSON}${WORDS}`.slice(1));
    const file = readFileSync(`${folder}/lesson-file.html`, "utf8").replace('<meta name="evenkeel-lesson" content="">', `<meta name="evenkeel-lesson" content="${carried}">`);
    mkdirSync("target/files", { recursive: true });
    writeFileSync("target/files/lesson.html", file);
    writeFileSync("target/files/course.html", plain()("lesson.html"));
    const page = await visit({ origins: ["null"], before: [listen, sameSeries] });
    await page.goto(pathToFileURL("target/files/course.html").href);
    const frame = page.frames()[1];
    await lessonWorks(page, frame);
    await ask(page, "add", { reagent: "acid", mol: 0.002 });
    await until(() => states(page), (all) => Math.abs(all.at(-1).addedAcid - 0.004) < 1e-9, "the parent is heard");
    // It holds one lesson, so no other is opened in it.
    await ask(page, "open", { lesson: "?v=1" });
    await until(() => heard(page, "evenkeel:refused"), (all) => all.at(-1)?.reason === "fixed", "a lesson that stays");
    none((await heard(page)).flatMap(odd));
  },

  "the sample beside a lesson's file on a disk": async ({ visit, folder }) => {
    mkdirSync("target/files", { recursive: true });
    for (const name of ["host.js", "host.css"]) writeFileSync(`target/files/${name}`, readFileSync(`${SAMPLE}/${name}`));
    writeFileSync("target/files/lesson-file.html", readFileSync(`${folder}/lesson-file.html`));
    const html = readFileSync(`${SAMPLE}/index.html`, "utf8").replace(FRAME, '<iframe src="lesson-file.html"');
    writeFileSync("target/files/sample.html", html.replaceAll(`frame-src ${ELSEWHERE}`, "frame-src file:"));
    const page = await visit({ origins: ["null"], before: [listen] });
    await page.goto(pathToFileURL("target/files/sample.html").href);
    const bench = await benchIn(page, page.frames()[1]);
    await page.getByRole("button", { name: "Add 2 mmol of acid" }).press("Enter");
    await until(async () => (await bench.read()).texts.baseAmount, (now) => now === "8.0 mmol", "the sample's button adds");
    await until(() => page.locator("#bench").innerText(), (text) => text.includes("A⁻ 8.0 mmol"), "the sample shows it");
  },

  "a frame that its page has written itself opens no other lesson, and says so": async ({ visit, folder }) => {
    const file = readFileSync(`${folder}/lesson-file.html`, "utf8");
    const written = file.replaceAll("&", "&amp;").replaceAll('"', "&quot;");
    const html = '<!doctype html><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,">';
    const outside = await serve({ pages: { "/": `${html}<iframe width="900" height="700" title="Evenkeel" srcdoc="${written}"></iframe>` } });
    const page = await visit({ origins: [outside.byNumber], before: [listen] });
    await page.goto(outside.byNumber);
    const bench = await benchIn(page, page.frames()[1]);
    await bench.add("acid", "2.0");
    await ask(page, "open", { lesson: "?v=1&pair=ethanoic.1" });
    await until(() => heard(page, "evenkeel:refused"), (all) => all.length === 1 && all[0].reason === "fixed", "a refusal");
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻, which stays");
    none((await heard(page)).flatMap(odd));
    await outside.close();
  },

  "in a course package the page around it is told nothing but the height": async ({ visit, folder }) => {
    const file = readFileSync(`${folder}/lesson-file.html`, "utf8").replace('<meta name="evenkeel-course" content="">', '<meta name="evenkeel-course" content="scorm">');
    mkdirSync("target/files", { recursive: true });
    writeFileSync("target/files/package.html", file);
    writeFileSync("target/files/player.html", plain()("package.html"));
    const page = await visit({ origins: ["null"], before: [listen] });
    await page.goto(pathToFileURL("target/files/player.html").href);
    const bench = await benchIn(page, page.frames()[1]);
    await bench.add("acid", "2.0");
    await ask(page, "add", { reagent: "acid", mol: 0.002 });
    await page.frames()[1].waitForFunction(() => heard.length > 0);
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after the learner's addition");
    equal([...new Set((await heard(page)).map((data) => data.type ?? data.subject))], ["widget:height", "lti.frameResize"], "what the player is told");
    ok(!(await page.frames()[1].locator("#full-page").count()), "a way out of the course");
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
