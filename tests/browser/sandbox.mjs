// Lessons in frames that are kept apart: without an origin, without storage, from a disk, in a course.

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { ELSEWHERE, FRAME, LESSON, SAMPLE, WORDS, ask, benchIn, course, escaped, heard, lessonWorks, listen, odd, plain, states } from "./course-page.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { landed } from "./landing.mjs";
import { sameSeries } from "./lesson.mjs";
import { serve } from "./server.mjs";

const refusesToKeep = (lesson) => lesson.panel.getByText(/does not let the page keep/).waitFor();

export default {
  "a lesson in a frame with an origin that can keep nothing, under a path": async (given) => {
    const attributes = 'sandbox="allow-scripts allow-same-origin"';
    const { page, frame, source, close } = await course(given, { attributes, query: `${LESSON}${WORDS}`, under: "/courses/widget" });
    ok(source.includes("/courses/widget/?v=1"), source);
    const lesson = await lessonWorks(page, frame);
    // These windows give a frame of another site no storage.
    await refusesToKeep(lesson);
    await landed(page);
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
      await landed(page);
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
};
