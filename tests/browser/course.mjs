// The lesson's file in a course package, run by a course system's side of SCORM: both editions, as
// the application packs them, beside and above the page, and with nobody there to listen.

import { copyFileSync, mkdirSync } from "node:fs";
import { Bench } from "./bench.mjs";
import { EDITIONS, FOLDER, course, frame, system, unpacked } from "./course-system.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { Lesson } from "./lesson.mjs";
import { serve } from "./server.mjs";

/** The window of the lesson, alive. */
async function lesson(page) {
  const inside = await until(() => page.frames().at(-1), (f) => /index\.html$/.test(f.url()), "the lesson's frame");
  await Bench.on(inside);
  return inside;
}

const calls = (page) => page.evaluate(() => calls);
const named = async (page, name) => (await calls(page)).filter(([call]) => call.endsWith(name));
const report = (inside, what) => inside.evaluate((r) => window.evenkeelCourse.report(r), what);
const status = (names, kept) => names.status.map((name) => kept[name]);

/** Runs `body` with a course system for each edition, which is closed whatever happens. */
const both = (body, options = {}) => async (given) => {
  for (const edition of Object.keys(EDITIONS)) {
    const opened = await course(given, edition, options);
    try {
      await body({ ...opened, given, edition });
    } finally {
      await opened.close();
    }
  }
};

/** Opens Practice at question `number` of two, and has its layout shown. */
async function question(inside, number) {
  const practice = await Lesson.practice(new Bench(inside));
  await practice.panel.getByRole("heading", { name: new RegExp(`^Question ${number} of 2`) }).waitFor();
  const kinds = practice.panel.locator(".kinds button");
  for (let i = 0; i < 2; i += 1) await kinds.nth(3 + i).click();
  await practice.press("Show the layout");
}

/** What is wrong with how a session ended; nothing if it ended as it should. */
async function unfinished(page, names, told) {
  const [name, form] = names.time;
  const ends = await named(page, names.calls[4]);
  const last = told.at(-1) ?? {};
  return [
    ends.length === 1 ? [] : `the session was ended ${ends.length} times`,
    ends.every((end) => end.at(-1) === "true") ? [] : `its end was answered by ${ends}`,
    form.test((await calls(page)).filter((call) => call[1] === name).at(-1)?.[2]) ? [] : `no ${name}`,
    last["cmi.suspend_data"] === "v1;a" ? [] : `the state that was kept is ${last["cmi.suspend_data"]}`,
  ].flat();
}

const REPORT = { score: 62.5, done: false, passed: null, state: "v1;a" };

/** The course system never hears that the window goes. */
function deaf() {
  const add = window.addEventListener;
  window.addEventListener = function (type, ...rest) {
    if (type !== "pagehide") add.call(this, type, ...rest);
  };
}

/** That nobody listens, and that nothing minds. */
async function alone(inside) {
  const seen = await inside.evaluate((r) => {
    const { connected, resume, report } = window.evenkeelCourse;
    return [connected, resume(), report(r)];
  }, REPORT);
  equal(seen, [false, "", false], "connected, resumed, reported");
  const bench = new Bench(inside);
  await bench.add("acid", "2.0");
  equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
}

export default {
  "score, status and state are kept, and come back": both(async ({ given, edition, names, told, page }) => {
    const inside = await lesson(page);
    equal(await inside.evaluate(() => [window.evenkeelCourse.connected, window.evenkeelCourse.resume()]), [true, ""], "connected, resumed");
    equal(await report(inside, REPORT), true, "taken");
    const kept = await until(() => told.at(-1), (last) => last?.["cmi.suspend_data"] === "v1;a", "a commit with the state");
    equal([String(kept[names.raw]), status(names, kept), kept[names.exit]], ["62.5", names.incomplete, "suspend"], "score, status, exit");
    if (edition === "2004") equal(Number(kept["cmi.score.scaled"]), 0.625, "the scaled score");
    equal((await named(page, "Initialize")).length, 1, "sessions");
    equal((await calls(page)).filter((call) => /student|learner/.test(call[1])), [], "questions about the learner");
    none((await calls(page)).filter((call) => call.at(-1) === "false").map(String));

    const again = await course(given, edition, { kept });
    try {
      const next = await lesson(again.page);
      equal(await next.evaluate(() => window.evenkeelCourse.resume()), "v1;a", "resumed");
      equal(await report(next, { score: 80, done: true, passed: true, state: "v1;b" }), true, "taken");
      const last = again.told.at(-1);
      equal([String(last[names.raw]), status(names, last), last[names.exit], last["cmi.suspend_data"]], ["80", names.passed, names.ended, "v1;b"], "score, status, exit, state");
    } finally {
      await again.close();
    }
  }),

  "what the learner does is told, and gone on with": both(async ({ given, edition, names, told, page }) => {
    const inside = await lesson(page);
    await question(inside, 1);
    const kept = await until(() => told.at(-1), (last) => last?.["cmi.suspend_data"] === "v1;417;1;0;0;4", "a commit after the first question");
    equal([String(kept[names.raw]), status(names, kept)], ["0", names.incomplete], "score, status");
    const again = await course(given, edition, { kept });
    try {
      const next = await lesson(again.page);
      await question(next, 2);
      ok(await next.getByText("All 2 questions are done: 0 right").isVisible(), "the end is not said");
      const last = await until(() => again.told.at(-1), (told) => told?.["cmi.suspend_data"] === "v1;417;2;0;0;8", "a commit after the last question");
      equal(status(names, last), names.completed, "status");
    } finally {
      await again.close();
    }
  }),

  "what was done is never taken back": async (given) => {
    for (const [edition, before] of Object.keys(EDITIONS).flatMap((e) => ["passed", "completed", "failed"].map((b) => [e, b]))) {
      const names = EDITIONS[edition];
      const kept = { ...Object.fromEntries(names.status.map((name, i) => [name, names[before][i]])), "cmi.suspend_data": "v1;a" };
      const { page, told, close } = await course(given, edition, { kept });
      try {
        const inside = await lesson(page);
        equal(await report(inside, REPORT), true, "taken");
        equal(status(names, told.at(-1)), names[before], `${before}, after a report of less`);
        await report(inside, { ...REPORT, done: true, passed: before !== "passed" });
        equal(status(names, told.at(-1)), names.passed, `${before}, after the opposite`);
      } finally {
        await close();
      }
    }
  },

  "a lesson that says nothing is not done": both(async ({ names, told, page }) => {
    await lesson(page);
    await page.evaluate(() => document.querySelector("iframe").remove());
    await until(() => named(page, names.calls[4]), (found) => found.length === 1, "the session's end");
    const seen = await until(() => told.at(-1), Boolean, "a commit");
    ok(["incomplete", "unknown"].includes(seen[names.status[0]]), `it is ${seen[names.status[0]]}`);
  }),

  "each verdict has its words": both(async ({ names, told, page }) => {
    const inside = await lesson(page);
    const said = [[false, false, names.incomplete], [true, null, names.completed], [true, false, names.failed], [true, true, names.passed]];
    for (const [done, passed, expected] of said) {
      equal(await report(inside, { ...REPORT, score: null, done, passed }), true, "taken");
      equal(status(names, told.at(-1)), expected, `done ${done}, passed ${passed}`);
    }
    ok(!(await calls(page)).some((call) => /score/.test(call[1])), "a score was made up");
  }),

  "what does not fit is said, and never cut": both(async ({ names, told, page }) => {
    const inside = await lesson(page);
    const longest = "v1;".padEnd(names.longest, "x");
    equal(await report(inside, { ...REPORT, state: longest }), true, "the longest state");
    equal(told.at(-1)["cmi.suspend_data"].length, names.longest, "its length");
    equal(await report(inside, { ...REPORT, score: 70, state: `${longest}x` }), false, "one more");
    equal([told.at(-1)["cmi.suspend_data"].length, Number(told.at(-1)[names.raw])], [names.longest, 70], "the earlier state, the new score");
    for (const wrong of [{ state: "ä" }, { score: 101 }, { score: -1 }, { score: Number.NaN }]) {
      equal(await report(inside, { ...REPORT, ...wrong }), false, JSON.stringify(wrong));
    }
    equal(Number(told.at(-1)[names.raw]), 62.5, "the score of the last report that had one");
  }),

  "a frame that goes without a goodbye": both(async ({ names, told, page }) => {
    await report(await lesson(page), REPORT);
    await page.evaluate(() => document.querySelector("iframe").remove());
    none(await unfinished(page, names, told));
  }),

  "control: without its listener the session's end is missed": both(async ({ names, told, page }) => {
    await report(await lesson(page), REPORT);
    await page.evaluate(() => document.querySelector("iframe").remove());
    equal(await unfinished(page, names, told), ["the session was ended 0 times"], "what the check finds");
  }, { before: [deaf] }),

  "a page that is hidden keeps its time": both(async ({ names, page }) => {
    const inside = await lesson(page);
    const before = (await named(page, "Commit")).length;
    await inside.evaluate(() => {
      Object.defineProperty(document, "visibilityState", { value: "hidden" });
      document.dispatchEvent(new Event("visibilitychange"));
    });
    equal((await named(page, "Commit")).length, before + 1, "commits");
    ok(names.time[1].test((await calls(page)).filter((call) => call[1] === names.time[0]).at(-1)[2]), "no session time");
  }),

  "in a window of its own": both(async ({ edition, names, told, page }) => {
    const arrives = page.waitForEvent("popup");
    await page.evaluate((e) => void window.open(`/${e}/index.html`), edition);
    const popup = await arrives;
    await Bench.on(popup);
    equal(await report(popup, REPORT), true, "taken");
    await popup.close({ runBeforeUnload: true });
    await until(() => named(page, names.calls[4]), (found) => found.length > 0, "the session's end");
    none(await unfinished(page, names, told));
  }, { body: "" }),

  "four frames down": both(async ({ told, page }) => {
    const inside = await lesson(page);
    equal(page.frames().length, 5, "windows");
    equal(await report(inside, REPORT), true, "taken");
    equal(told.at(-1)["cmi.suspend_data"], "v1;a", "the state that was kept");
  }, { body: frame("/1") }),

  "SCORM 2004 is preferred, 1.2 is what is left": async (given) => {
    const other = `<script>window.API_1484_11 = { Initialize: () => "false" };</script>`;
    const opened = await course(given, "1.2", { body: other + frame("/1.2/index.html") });
    const both = `<script>window.API = new Proxy({}, { get() { throw new Error("asked"); } });</script>`;
    const newer = await course(given, "2004", { body: both + frame("/2004/index.html") });
    try {
      for (const { page } of [opened, newer]) equal(await report(await lesson(page), REPORT), true, "taken");
    } finally {
      await opened.close();
      await newer.close();
    }
  },

  "nobody listens: alone, in a foreign frame, in one without an origin": async (given) => {
    unpacked(given.folder);
    const packages = await serve({ folder: FOLDER });
    const source = `${packages.byName}/2004/index.html`;
    const foreign = system(EDITIONS[2004], frame(source));
    const outside = await serve({ folder: FOLDER, pages: { "/": foreign, "/sandboxed": frame(source, 'sandbox="allow-scripts"') } });
    try {
      const page = await given.visit({ origins: [packages.byName, outside.byNumber] });
      for (const address of [source, outside.byNumber, `${outside.byNumber}/sandboxed`]) {
        await page.goto(address);
        await alone(await lesson(page));
      }
    } finally {
      await packages.close();
      await outside.close();
    }
  },

  "the file itself speaks to no course": async (given) => {
    const opened = await course(given, "2004", { body: frame("about:blank") });
    mkdirSync(`${FOLDER}/file`, { recursive: true });
    copyFileSync(`${given.folder}/lesson-file.html`, `${FOLDER}/file/index.html`);
    try {
      await opened.page.evaluate(() => { document.querySelector("iframe").src = "/file/index.html"; });
      await alone(await lesson(opened.page));
      equal(await calls(opened.page), [], "calls to the course system");
    } finally {
      await opened.close();
    }
  },
};
