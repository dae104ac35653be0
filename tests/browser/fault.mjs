// A program that fails, by real traps: what the page says then, and that its buttons lead on.

import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { Bench } from "./bench.mjs";
import { course, frame } from "./course-system.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { misfits } from "./geometry.mjs";
import { landed } from "./landing.mjs";
import { serve } from "./server.mjs";
import { setTraps } from "./traps.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What the browser itself says of the first failure. */
const FAILED = [/uncaught: (unreachable|Maximum call stack size exceeded|a call that the browser refuses)/, /console error: .*(unreachable|call stack|browser refuses)/];

const AGAIN = "Open it again";
const AFRESH = "Start afresh without the lesson";
/** A lesson with words of its own; made with the base64 and zlib of Python. */
const LESSON = "?v=1&pair=ethanoic.1#t=1.fe3c9f1f.QmFrZXJ5IGJ1ZmZlcnMKV2hpY2ggcmVzZXJ2b2lyIG1lZXRzIHRoZSBhY2lkPw";

/** Opens the page with traps in it; hands over the bench and the failures that are reported. */
async function trapped({ visit, site }, { query = "", before = [], ...options } = {}) {
  const page = await visit({ before: [setTraps, ...before], expected: FAILED, ...options });
  const errors = [];
  page.on("pageerror", (error) => errors.push(error.message));
  await page.goto(`${site.byNumber}/${query}`);
  return { page, errors };
}

const arm = (page, where, how) => page.evaluate(([w, h]) => window.arm(w, h), [where, how]);

/** That the page has stopped as it should: nothing but the message, which has the focus. */
async function stopped(page) {
  await page.getByRole("heading", { name: "This page has stopped" }).waitFor();
  await until(() => page.evaluate(() => document.activeElement.getAttribute("role")), (role) => role === "alert", "the focus is on the message");
  const seen = await page.evaluate(() => ({
    sprung: window.sprung,
    body: [...document.body.children].map(({ id }) => id),
    text: document.body.innerText,
  }));
  equal([seen.sprung, seen.body], [1, ["stopped"]], "traps, what is on the page");
  ok(/You did nothing wrong\./.test(seen.text), seen.text);
  ok(!/wasm|panic|unreachable|error|undefined|\.rs|\{/i.test(seen.text), `it speaks to programmers: ${seen.text}`);
  await page.getByRole("button", { name: AGAIN }).waitFor();
}

/** Whatever was still on its way when the page stopped has come by then. */
const rest = (page) => page.evaluate(() => window.tenFrames());

/** That a page works, from its start. */
async function works(page) {
  const bench = await Bench.on(page);
  const before = (await bench.read()).base.mmol;
  await bench.add("acid", "0.5");
  ok((await bench.read()).base.mmol < before, "an addition does nothing");
}

/** Presses a button of the message, and waits for the page that it loads. */
async function press(page, name) {
  // A frame's requests are its window's.
  await landed(page.page?.() ?? page);
  await page.evaluate(() => { window.isLeft = true; });
  await page.getByRole("button", { name, exact: true }).click();
  await until(() => page.evaluate(() => window.isLeft === undefined && document.readyState === "complete").catch(() => false), Boolean, "another page");
}

/** How the program comes to fail, by what it is doing. */
const MOMENTS = {
  click: (bench) => bench.dose("acid", "0.5").click(),
  pointerdown: (bench) => bench.dose("acid", "0.5").click(),
  // By script: a frame that comes before the click may be the one that fails.
  frame: (bench) => bench.page.evaluate(() => document.querySelector("[aria-label^='Add 0.5']")?.click()),
  timer: () => {},
  interval: async (bench) => {
    await bench.dose("acid", "0.5").hover();
    await bench.page.mouse.down();
  },
  size: (bench) => bench.page.setViewportSize({ width: 900, height: 700 }),
  part: (bench) => bench.page.getByRole("navigation", { name: "Panels" }).getByRole("button", { name: "Working" }).click(),
  input: async (bench) => {
    await bench.panel("Set up");
    await bench.page.locator("#panel fieldset input").first().pressSequentially("1");
  },
};

export default {
  ...Object.fromEntries(Object.entries(MOMENTS).map(([where, act]) => [
    `it fails in a handler of ${where}, and goes on`,
    async (given) => {
      const { page, errors } = await trapped(given);
      const bench = await Bench.on(page);
      await arm(page, where);
      await act(bench);
      await stopped(page);
      await page.mouse.up();
      await page.setViewportSize({ width: 1000, height: 720 });
      await rest(page);
      ok(errors.length <= 1, `it goes on failing: ${errors}`);
      ok(!(await page.getByRole("button", { name: AFRESH }).isVisible()), "it offers to leave a lesson that is not there");
      await press(page, AGAIN);
      await works(page);
    },
  ])),

  "calling itself without end, and a call that the browser refuses": async (given) => {
    for (const how of ["endless", "refused"]) {
      const { page, errors } = await trapped(given, { query: LESSON });
      const bench = await Bench.on(page);
      await arm(page, "click", how);
      await MOMENTS.click(bench);
      await stopped(page);
      await rest(page);
      ok(errors.length <= 1, `${how}: it goes on failing: ${errors}`);
      await press(page, AGAIN);
      ok(page.url().endsWith(LESSON), `the address is ${page.url()}`);
      await page.getByText("Bakery buffers").first().waitFor();
      await works(page);
    }
  },

  "a lesson that fails at every start": async (given) => {
    const always = () => { if (location.search) window.arm("start"); };
    const { page } = await trapped(given, { query: LESSON, before: [always] });
    let loads = 0;
    page.on("load", () => (loads += 1));
    await stopped(page);
    await press(page, AGAIN);
    await stopped(page);
    await page.waitForLoadState("networkidle");
    equal(loads, 1, "times that the page was loaded again");
    await press(page, AFRESH);
    equal(page.url(), `${given.site.byNumber}/`, "the address without the lesson");
    await works(page);
    await page.goBack();
    await stopped(page);
    ok(page.url().endsWith(LESSON), `the way back leads to ${page.url()}`);
  },

  "it reads well, and by every look": async (given) => {
    const problems = [];
    for (const [width, height, dark] of [[360, 740, false], [360, 740, true], [1280, 800, false], [1280, 800, true]]) {
      const { page } = await trapped(given, { width, height, dark, query: LESSON });
      const bench = await Bench.on(page);
      await arm(page, "click");
      await MOMENTS.click(bench);
      await stopped(page);
      const name = `stopped-${width}x${height}${dark ? "-dark" : ""}`;
      await page.screenshot({ path: `target/screens/${name}.png` });
      problems.push(...(await page.evaluate(misfits)).map((line) => `${name}: ${line}`));
      // The checker needs a timer, of which the page has none left.
      await page.evaluate(() => { window.setTimeout = window.realTimeout; });
      await page.evaluate(axe);
      const { violations } = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
      problems.push(...violations.map(({ id, nodes }) => `${name}: ${id} ${nodes[0].target} ${nodes[0].failureSummary}`));
      for (const button of [AGAIN, AFRESH]) {
        await page.keyboard.press("Tab");
        equal(await page.evaluate(() => document.activeElement.innerText), button, "reached by the keyboard");
      }
    }
    none(problems);
  },

  "errors that are not the program's": async ({ visit, site }) => {
    const page = await visit({ expected: [/uncaught: /, /console error: /] });
    await page.goto(site.byNumber);
    await Bench.on(page);
    await page.evaluate(async () => {
      const extension = Object.assign(new WebAssembly.RuntimeError("unreachable"), { stack: "RuntimeError: unreachable\n at chrome-extension://abc/x.wasm:wasm-function[1]:0x1" });
      for (const error of [new Error("theirs"), null, "a text", { stack: 1 }, new RangeError("theirs"), extension]) {
        dispatchEvent(new ErrorEvent("error", { error, message: "ResizeObserver loop completed with undelivered notifications." }));
        Promise.reject(error);
      }
      setTimeout(() => { throw new TypeError("theirs"); });
      await new Promise((done) => setTimeout(done, 50));
    });
    await works(page);
  },

  "kept results are still there": async (given) => {
    const { page } = await trapped(given);
    const bench = await Bench.on(page);
    await page.evaluate(() => localStorage.setItem("evenkeel.results", "kept"));
    await arm(page, "click");
    await MOMENTS.click(bench);
    await stopped(page);
    equal(await page.evaluate(() => localStorage.getItem("evenkeel.results")), "kept", "what is kept on the device");
  },

  "the lesson's file, from a disk and in a sandboxed frame": async ({ visit, site, folder }) => {
    const file = await visit({ before: [setTraps], origins: ["null"], expected: FAILED });
    await file.goto(pathToFileURL(`${folder}/lesson-file.html`).href);
    const outside = await serve({ pages: { "/": frame(`${site.byName}/lesson-file.html${LESSON}`, 'sandbox="allow-scripts"') } });
    const page = await visit({ before: [setTraps], origins: [outside.byNumber, site.byName], expected: FAILED });
    await page.goto(outside.byNumber);
    const inside = page.frames()[1];
    for (const [window, buttons] of [[file, [AGAIN]], [inside, [AGAIN, AFRESH]]]) {
      for (const button of buttons) {
        const bench = await Bench.on(window);
        await arm(window, "click");
        await MOMENTS.click(bench);
        await stopped(window);
        ok(/Your lesson is still here\./.test(await window.locator("#stopped").innerText()), "a file is no address");
        await press(window, button);
      }
      await works(window);
    }
    equal(inside.url(), `${site.byName}/lesson-file.html`, "the frame's address");
    await outside.close();
  },

  "a frame that fails by itself leaves the page around it its focus, and answers no more": async ({ visit, site }) => {
    const outside = await serve({ pages: { "/": `${frame(`${site.byName}/`)}<input id="before">` } });
    const page = await visit({ before: [setTraps], origins: [outside.byNumber, site.byName], expected: FAILED });
    await page.goto(outside.byNumber);
    const inside = page.frames()[1];
    await Bench.on(inside);
    await page.locator("#before").focus();
    await arm(inside, "message");
    const command = { type: "evenkeel:do", v: 1, command: "tell" };
    await page.evaluate((c) => frames[0].postMessage(c, "*"), command);
    await inside.getByRole("heading", { name: "This page has stopped" }).waitFor();
    const answers = await page.evaluate(async (c) => {
      let count = 0;
      addEventListener("message", ({ data }) => { count += data.type?.startsWith("evenkeel:") ? 1 : 0; });
      for (let i = 0; i < 5; i += 1) frames[0].postMessage(c, "*");
      await new Promise((done) => setTimeout(done, 200));
      return count;
    }, command);
    equal([answers, await page.evaluate(() => document.activeElement.id)], [0, "before"], "answers, the focus");
    await outside.close();
  },

  "a course package": async (given) => {
    const opened = await course(given, "2004", { before: [setTraps], expected: FAILED });
    try {
      const inside = await until(() => opened.page.frames().at(-1), (f) => /index\.html$/.test(f.url()), "the lesson's frame");
      await Bench.on(inside);
      await inside.evaluate(() => window.evenkeelCourse.report({ score: 50, done: false, passed: null, state: "v1;a" }));
      await arm(inside, "click");
      await MOMENTS.click(new Bench(inside));
      await stopped(inside);
      ok(/close this page and open it from the course again/.test(await inside.locator("#stopped").innerText()), "the way back into the course is not told");
      await press(inside, AGAIN);
      await works(inside);
      equal(opened.told.at(-1)["cmi.suspend_data"], "v1;a", "what the course has kept");
    } finally {
      await opened.close();
    }
  },
};
