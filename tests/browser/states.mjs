// Every state in which a reader can meet the page, in as few windows as will do: each walk opens
// one, goes through its states and calls `look` with the page and the name of each.

import { Bench } from "./bench.mjs";
import { Lesson, arrived, sameSeries, stages } from "./lesson.mjs";
import { serve } from "./server.mjs";

/** The bench and its panels, then everything that a learner or a teacher opens from there. */
async function bench({ open }, options, look) {
  const bench = await open({ before: [sameSeries], ...options });
  const { page } = bench;
  const panel = page.locator("#panel > .panel");
  await look(page, "at the start");
  await bench.panel("Practice");
  await arrived(page);
  await look(page, "sorting");
  await bench.add("acid", "2.0", 7);
  await bench.panel("Why");
  await bench.press("As mixed");
  await look(page, "exhausted, as mixed");
  await bench.press("Sorted");
  await bench.panel("Curve");
  await page.getByText("The same as a table").click();
  await look(page, "the curve and its table");
  await bench.panel("Working");
  await arrived(page);
  await panel.locator(".step:not([open]) > summary").first().click();
  for (const closed of await panel.locator(".step[open] .origin > summary").all()) await closed.click();
  await panel.getByText("As plain text, to copy").click();
  await look(page, "working, a step with its origins");
  await bench.panel("Limits");
  await look(page, "limits");
  await bench.panel("Set up");
  await bench.press("Part-neutralise the acid with strong alkali");
  await page.getByLabel("Conjugate pair").selectOption({ label: await ownAcid(bench) });
  await panel.locator("input").first().fill("lots");
  await bench.settle();
  await look(page, "a pKa that cannot be read");
  await stages(bench, (stage) => look(page, stage));
  await bench.panel("Lesson");
  await panel.getByRole("button", { name: "Preview" }).click();
  await page.frameLocator(".preview iframe").getByRole("button", { name: "Limits" }).waitFor();
  await look(page, "the preview");
}

async function ownAcid(bench) {
  const own = (await bench.pairs()).find((label) => /own/i.test(label));
  if (!own) throw new Error("no pair of one's own");
  return own;
}

/** A lesson with a link that is partly wrong: notices, prompts, locked parts, questions told at the end. */
async function lesson({ open }, options, look) {
  const query = `?v=1&ca=lots&ask=mix&n=2&level=whole&seed=7&feedback=end&tell=results&lock=working.curve${PROMPTED}`;
  const bench = await open({ ...options, query });
  const { page } = bench;
  const practice = await Lesson.practice(bench);
  await look(page, "a lesson");
  await bench.panel("Working");
  await look(page, "a locked part");
  await Lesson.practice(bench);
  for (const number of [1, 2]) {
    const kinds = practice.panel.locator(".kinds button");
    if (await kinds.first().isVisible()) await kinds.first().click();
    await bench.settle();
    const line = practice.panel.locator(".entry:visible input").first();
    await line.fill("1.11");
    await practice.press("Hand in");
    if (number === 1) await practice.press("Next question");
  }
  for (const closed of await practice.panel.locator(".finished > summary").all()) await closed.click();
  await look(page, "the end of a test");
}

/** A title and a prompt of our own, as a lesson's link carries them. */
const PROMPTED = "#t=1.fe3c9f1f.QmFrZXJ5IGJ1ZmZlcnMKV2hpY2ggcmVzZXJ2b2lyIG1lZXRzIHRoZSBhY2lkPw";

/** The pages to read, the file, and the page before it comes alive or when it cannot. */
async function others({ visit, site }, options, look) {
  for (const name of ["privacy.html", "teachers.html"]) {
    const page = await visit(options);
    await page.goto(`${site.byNumber}/${name}`);
    await look(page, name);
  }
  const file = await visit(options);
  await file.goto(`${site.byNumber}/lesson-file.html`);
  await Bench.on(file);
  await look(file, "the lesson's file");

  const first = await visit(options);
  await first.route("**/*.wasm", () => {});
  await first.goto(site.byNumber, { waitUntil: "commit" });
  await first.locator("#loading").waitFor({ state: "visible" });
  await first.waitForFunction(() => document.styleSheets.length >= 1);
  await look(first, "the first paint");

  const expected = [/Failed to load resource/, /^failed: .*\.wasm/, /TypeError: Failed to fetch/];
  const stopped = await visit({ ...options, expected });
  await stopped.route("**/*.wasm", (route) => route.abort());
  await stopped.goto(site.byNumber);
  await stopped.locator("#no-wasm").waitFor({ state: "visible" });
  await look(stopped, "a page that cannot start");
}

/** In a frame of a course page: `look` is given the frame. */
async function framed({ visit, site }, options, look) {
  const { width = 1280, height = 800 } = options;
  const source = `${site.byName}/?v=1&pair=ethanoic.1&start=guided`;
  const course = `<!doctype html><html lang="en"><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,">
<style>body { margin: 0 } iframe { border: 0; display: block }</style><main><h1>Buffers</h1><iframe src="${source}" title="Evenkeel" width="${width}" height="${height - 60}"></iframe></main>`;
  const outside = await serve({ pages: { "/": course } });
  const page = await visit({ ...options, origins: [outside.byNumber, site.byName] });
  await page.goto(outside.byNumber);
  const frame = page.frames()[1];
  const bench = await Bench.on(frame);
  await frame.locator(".guide").waitFor();
  await bench.add("acid", "0.5");
  await bench.settle();
  await look(frame, "guided in a frame, an addition held back");
  await page.close();
  await outside.close();
}

export const WALKS = { bench, lesson, others, framed };
