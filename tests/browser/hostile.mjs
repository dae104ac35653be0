// Every place where something can be typed, sent or found, given what nobody should: the text stays
// where it was typed, what is wrong is said beside it, nothing of it becomes a part of the page, and
// the bench works on.

import { Bench } from "./bench.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { misfits } from "./geometry.mjs";
import { all, given, paste, watchForScripts } from "./hostile-texts.mjs";
import { serve } from "./server.mjs";
import { Lesson, openAll, sameSeries } from "./lesson.mjs";

const PHONE = { width: 360, height: 740, before: [watchForScripts, paste, sameSeries] };

/** The bench takes an addition and gives it back. */
async function works(bench) {
  const ph = () => bench.page.locator("#ph").innerText();
  const before = await ph();
  const dose = bench.page.getByRole("button", { name: /^Add .* of acid$/ }).last();
  await dose.click();
  await until(ph, (now) => now !== before, "an addition after all this");
  await bench.undo();
  equal(await ph(), before, "the pH after an undo");
}

/** Nothing is harmed, and every part is in its place. */
async function unharmed(page, after) {
  none((await page.evaluate(() => harm())).map((what) => `after ${after}: ${what}`));
  none((await page.evaluate(misfits)).map((what) => `after ${after}: ${what}`));
}

/** Runs in the page: every text in every open field of Set up, one after the other. */
async function fillSetUp(texts) {
  const problems = [];
  for (const input of document.querySelectorAll("#panel .form input")) {
    const good = input.value;
    for (const { name, text, number, kept } of texts) {
      const said = await paste(input, text);
      const say = (what) => problems.push(`${input.id}, ${name}: ${what}`);
      const wrong = input.getAttribute("aria-invalid") === "true";
      if (input.value !== kept) say(`the field reads ${JSON.stringify(input.value.slice(0, 40))}`);
      if (wrong !== (said !== "")) say(`marked as wrong: ${wrong}, but said: “${said}”`);
      if (!wrong && !number) say("nothing is said of it");
      harm().forEach(say);
    }
    await paste(input, good);
    if (input.getAttribute("aria-invalid") === "true") problems.push(`${input.id}: the good number no longer counts`);
  }
  return problems;
}

/** Runs in the page: every text in every answer line, handed in each time. */
async function fillLines(texts) {
  const problems = [];
  const button = (name) => [...document.querySelectorAll("#panel button")].find((b) => b.innerText === name && b.checkVisibility());
  const press = async (name) => {
    button(name)?.click();
    await turn();
  };
  const open = () => [...document.querySelectorAll("#panel .line input")].filter((input) => input.checkVisibility());
  for (const { name, text, number, kept } of texts) {
    await press("Next question");
    for (let i = 0; i < 2 && open().length === 0; i += 1) {
      document.querySelectorAll("#panel .kinds button")[3 + i].click();
      await turn();
    }
    const lines = open();
    const say = (what) => problems.push(`${name}: ${what}`);
    if (lines.length < 2) say(`${lines.length} lines to fill in`);
    for (const line of lines) await paste(line, text);
    await press("Check");
    for (const line of lines) {
      const said = document.getElementById(`${line.id}-says`).innerText.trim();
      if (line.value !== kept) say(`${line.id} reads ${JSON.stringify(line.value.slice(0, 40))}`);
      if ((text.trim() === "") !== (said === "")) say(`said of ${line.id}: “${said}”`);
      if (said !== "" && !number && !/cost nothing/.test(said)) say(`${line.id} took it for a number: ${said}`);
    }
    harm().forEach(say);
  }
  return problems;
}

/** Runs in the page: every text as title, then as each prompt. Returns problems, and links by name. */
async function fillLesson(texts) {
  const problems = [];
  const links = {};
  const inputs = [...document.querySelectorAll("#panel input[type=text]:not([readonly])")];
  if (inputs.length !== 6) problems.push(`${inputs.length} lines for words`);
  for (const { name, text, kept } of texts) {
    for (const input of inputs) {
      await paste(input, text);
      const say = (what) => problems.push(`${name}: ${what}`);
      if (input.value !== kept) say(`the line reads ${JSON.stringify(input.value.slice(0, 40))}`);
      harm().forEach(say);
    }
    links[name] = document.getElementById("lesson-link").value;
    if (!/^http:[\w:/.]+(\?[\w.~=&-]*)?(#[\w.~=&-]*)?$/.test(links[name])) problems.push(`${name}: the link is ${links[name].slice(0, 200)}`);
    const [, own] = document.getElementById("lesson-frame").value.match(/ title="([^"]*)"><\/iframe>$/) ?? [];
    if (own === undefined || /[<>]/.test(own)) problems.push(`${name}: the frame is ${document.getElementById("lesson-frame").value.slice(-200)}`);
  }
  return { problems, links };
}

/** A teacher's line as a lesson keeps it. */
const tidy = (text, longest) => [...text.replace(/\p{Cc}/gu, " ").trim()].slice(0, longest).join("").trimEnd().replace(/[\ud800-\udfff](?![\udc00-\udfff])/gu, "\ufffd");

/** What nobody should write into an address. */
const ADDRESSES = {
  "numbers beyond all bounds": "?v=1&ca=1e-300&cb=1e300&va=-0&vb=Infinity&stock=NaN&n=1e9&tol=-1&seed=99999999999999999999",
  "nothing in it": "?v=&pair=&ca=&ask=&n=&t=&=&&&#&=",
  "markup": `?v=1&pair=${encodeURIComponent(given("markup").text)}&ca=${encodeURIComponent(given("markup").text)}#t=${encodeURIComponent(given("markup").text)}`,
  "broken escapes": "?v=1&ca=%&cb=%E0%A4%A&made=%00&stock=%zz#t=%C3%28",
  "right to left": `?v=1&pair=${encodeURIComponent(given("Arabic").text)}&ca=${encodeURIComponent(given("turned round").text)}`,
  "a query of a megabyte": `?v=1&ca=${"9".repeat(500_000)}&${"a=b&".repeat(125_000)}`,
  "a fragment of a megabyte": `?v=1&n=2#t=1.00000000.${"A".repeat(1_000_000)}`,
  "a thousand keys twice": `?v=1${"&ask=mix&n=3&hide=curve".repeat(400)}`,
};

/** What a host may send by mistake. */
const MESSAGES = [
  "evenkeel:do", 7, null, [], { type: "evenkeel:do" }, { type: "evenkeel:do", v: "1", command: "add" },
  ...[NaN, Infinity, -0, -1, 1e-320, 1e300, "0.1", null, {}].map((mol) => ({ type: "evenkeel:do", v: 1, command: "add", reagent: "base", mol })),
  ...["<img src=x onerror=alert(1)>", "\u202e", "a".repeat(10_000), { toString: "acid" }].map((text) => ({ type: "evenkeel:do", v: 1, command: text, reagent: text, theme: text, lesson: text })),
  { type: "evenkeel:do", v: 1, command: "theme", theme: "javascript:alert(1)" },
  ...["javascript:alert(1)", "//elsewhere.example/", `?v=1&ca=${"1".repeat(1_000_000)}`, "?v=1&ca=<b>", "\u0000"].map((lesson) => ({ type: "evenkeel:do", v: 1, command: "open", lesson })),
];

/** What may stand in a browser's storage where results should. */
const STORED = [
  "", "null", "{", "7", "\u202e", '{"version":1}', '{"version":1,"results":"<b>"}', '{"version":1e300,"results":[]}',
  '{"version":1,"results":[[-1,1e300,null]]}', "[".repeat(100_000), "9".repeat(1_000_000),
];

export default {
  "Set up, every field": async ({ open }) => {
    const bench = await open(PHONE);
    await bench.panel("Set up");
    await bench.choosePair("a weak acid of your own pKa");
    for (const way of [/^Mix two/, /^Part-neutralise/]) {
      await bench.page.getByRole("button", { name: way }).click();
      await bench.settle();
      none(await bench.page.evaluate(fillSetUp, all()));
    }
    const fields = bench.page.locator("#panel .form input");
    for (const [place, field] of (await fields.all()).entries()) await field.fill(given(["ten thousand letters", "markup", "marks upon marks"][place % 3]).text);
    await unharmed(bench.page, "Set up was filled");
    await bench.choosePair((await bench.pairs())[0]);
    await works(bench);
  },

  "Practice, every line": async ({ open }) => {
    const bench = await open({ ...PHONE, query: "?v=1&ask=alkali&level=whole&seed=3" });
    await Lesson.practice(bench);
    none(await bench.page.evaluate(fillLines, all()));
    await unharmed(bench.page, "the lines were filled");
    await works(bench);
  },

  "handed in at the end, and read again": async ({ open }) => {
    const bench = await open({ ...PHONE, query: "?v=1&ask=conc&n=1&level=whole&seed=5&feedback=end" });
    const lesson = await Lesson.practice(bench);
    await lesson.panel.locator(".kinds button").first().click();
    const lines = await lesson.panel.locator(".entry:visible input").all();
    await lines.at(-1).fill("\u202e 4.7 ");
    // A number, with what turns its neighbours round before and behind it, cannot be read; a plain one can.
    await lesson.press("Hand in");
    equal(await lines.at(-1).inputValue(), "\u202e 4.7 ", "what was typed");
    await lines.at(-1).fill("  4.70  ");
    await lesson.press("Hand in");
    await lesson.panel.locator(".finished > summary").click();
    const own = lesson.panel.locator(".finished bdi");
    equal(await own.last().evaluate((node) => node.textContent), "  4.70  ", "what was typed, literally");
    equal(await own.last().evaluate((node) => getComputedStyle(node).unicodeBidi), "isolate", "kept apart");
    await unharmed(bench.page, "the summary");
  },

  "the guide, by clicks in no order": async ({ open }) => {
    const bench = await open({ ...PHONE, query: "?v=1&start=guided" });
    const steps = await bench.page.evaluate(async () => {
      let seed = 1;
      const chance = (most) => (seed = (seed * 48271) % 2147483647) % most;
      const steps = new Set();
      for (let n = 0; n < 400; n += 1) {
        const where = n % 2 === 0 ? ".guide button, #guide-start" : ".additions button, .reservoirs button";
        const buttons = [...document.querySelectorAll(where)].filter((b) => b.checkVisibility() && b.getAttribute("aria-label") !== "Close the guide");
        const button = buttons[chance(buttons.length)];
        button.click();
        const title = document.getElementById("guide-title");
        if (title) steps.add(title.innerText);
        await turn();
      }
      return steps.size;
    });
    ok(steps >= 3, `only ${steps} steps of the guide were come to`);
    none(await bench.page.evaluate(() => harm()));
    if (await bench.button("Close the guide").isVisible()) await bench.press("Close the guide");
    await works(bench);
  },

  "Lesson, every line, and what its link opens": async ({ open, visit, site }) => {
    const bench = await open(PHONE);
    await bench.panel("Lesson");
    await openAll(bench.page.locator("#panel .lesson"));
    const { problems, links } = await bench.page.evaluate(fillLesson, all());
    none(problems);
    await unharmed(bench.page, "the lines of a lesson");
    const page = await visit(PHONE);
    for (const name of ["Arabic", "turned round", "ten thousand letters", "joined emoji", "marks upon marks", "null characters", "markup"]) {
      await page.goto("about:blank");
      await page.goto(links[name].replace(/^http:\/\/[^/]+/, site.byNumber));
      await Bench.on(page);
      const card = page.locator(".told.card");
      if ((await card.getAttribute("open")) === null) await card.locator("summary").click();
      const [title, ...prompts] = await card.locator("bdi, [dir=auto]").evaluateAll((nodes) => nodes.map((node) => ({ text: node.textContent, bidi: getComputedStyle(node).unicodeBidi })));
      equal(title, { text: tidy(given(name).text, 80), bidi: "isolate" }, `the title: ${name}`);
      equal(prompts, Array(5).fill({ text: tidy(given(name).text, 200), bidi: "isolate" }), `the prompts: ${name}`);
      none((await page.evaluate(() => harm())).map((what) => `${name}: ${what}`));
    }
    await unharmed(page, "a lesson was opened");
  },

  "the address": async ({ visit, site }) => {
    const page = await visit(PHONE);
    for (const [name, address] of Object.entries(ADDRESSES)) {
      await page.goto("about:blank");
      await page.goto(`${site.byNumber}/${address}`);
      const bench = await Bench.on(page);
      const told = await page.locator(".told.warning li").count();
      ok(told > 0 === (name !== "a thousand keys twice"), `${name}: ${told} things are said of it`);
      none((await page.evaluate(() => harm())).map((what) => `${name}: ${what}`));
      await works(bench);
    }
    await unharmed(page, "the last address");
  },

  "messages from a host": async ({ visit, site }) => {
    const outside = await serve({ pages: { "/": `<!doctype html><title>Course</title><link rel="icon" href="data:,"><iframe src="${site.byNumber}/" width="340" height="700"></iframe>` } });
    const listen = () => {
      globalThis.heard = [];
      addEventListener("message", ({ data }) => heard.push(data));
    };
    const page = await visit({ ...PHONE, before: [...PHONE.before, listen], origins: [site.byNumber, outside.byName] });
    await page.goto(`${outside.byName}/`);
    const frame = await until(() => page.frames()[1], Boolean, "the frame");
    const bench = await Bench.on(frame);
    const state = () => page.evaluate(() => heard.filter((m) => m.type === "evenkeel:state").length);
    const refused = () => page.evaluate(() => heard.filter((m) => m.type === "evenkeel:refused").map((m) => m.reason));
    const before = await until(state, (count) => count > 0, "the first state");
    const commands = MESSAGES.filter((message) => message?.type);
    ok(commands.length <= 30, "more than are heard at once");
    await page.evaluate((messages) => {
      for (const message of messages) frames[0].postMessage(message, "*");
      const round = {};
      round.round = round;
      for (const message of [round, new Map([["type", "evenkeel:do"]]), new ArrayBuffer(8), new Date(NaN), Array(1e6)]) frames[0].postMessage(message, "*");
    }, MESSAGES);
    const answers = await until(refused, (all) => all.length >= commands.length, "an answer to every command");
    equal(answers.length, commands.length, "answers");
    ok(answers.every((reason) => ["version", "command", "value"].includes(reason)), `answers: ${answers}`);
    equal(await state(), before, "states told");
    none(await frame.evaluate(() => harm()));
    await works(bench);
  },

  "what is found in the browser's storage": async ({ visit, site }) => {
    const page = await visit(PHONE);
    await page.goto(`${site.byNumber}/privacy.html`);
    for (const stored of STORED) {
      await page.evaluate((text) => localStorage.setItem("evenkeel.results", text), stored);
      await page.goto(`${site.byNumber}/`);
      const bench = await Bench.on(page);
      const lesson = await Lesson.practice(bench);
      await lesson.press("How you stand");
      none((await page.evaluate(() => harm())).map((what) => `${stored.slice(0, 40)}: ${what}`));
      equal(await page.evaluate(() => localStorage.getItem("evenkeel.results").length), stored.length, "what is not ours to change");
    }
    await unharmed(page, "the storage was read");
  },
};
