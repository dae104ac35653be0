// The teacher's side: a lesson is set up, taken away as a link, a code and a frame, and opens so.

import { execFileSync } from "node:child_process";
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { equal, none, ok } from "./expect.mjs";
import { Bench } from "./bench.mjs";
import { Lesson, openAll, sameSeries } from "./lesson.mjs";

const MARKUP = `<img src=x onerror=alert(1)> & "quotes" 'n' <b>bold</b>`;

async function opened(open, options = {}) {
  const bench = await open(options);
  await bench.panel("Lesson");
  const panel = bench.page.locator("#panel .lesson");
  await openAll(panel);
  const link = async () => (await panel.locator("#lesson-link").inputValue()).replace(/^https?:\/\/[^/]+\//, "");
  return { bench, panel, link };
}

export default {
  "a lesson is set up, taken away and opens so": async ({ open, visit, site }) => {
    const { bench, panel, link } = await opened(open, { before: [sameSeries] });
    equal(await link(), "", "the usual page has no link of its own");
    await bench.add("acid", "2.0");
    await panel.getByLabel(/^Curve/).selectOption({ label: "not there" });
    await panel.getByLabel(/^Working/).selectOption({ label: "locked until the questions are done" });
    ok(await panel.getByText("no end that would open it").isVisible(), "a lock without an end is not warned of");
    await panel.getByText("Work out pH from two volumes mixed").click();
    await panel.getByLabel(/^How many/).selectOption({ label: "2" });
    await panel.getByLabel(/^How much is done for the learner/).selectOption({ label: "Whole question" });
    await panel.getByText("The same questions for everybody").click();
    await panel.getByLabel(/^Volumes/).selectOption({ label: "mL" });
    await panel.getByLabel(/^Decimal mark/).selectOption({ label: "comma: 4,76" });
    await panel.getByLabel("Title").fill("Bakery buffers");
    await panel.getByLabel("Prompt 1").fill(MARKUP);
    await bench.settle();
    const made = await link();
    ok(/^\?v=1&hide=curve&lock=working&ask=mix&n=2&level=whole&seed=\d+&vol=mL&mark=comma#t=1\.[0-9a-f]{8}\.[\w-]+$/.test(made), made);
    ok(await panel.locator(".code svg").isVisible(), "no code for a camera");

    const page = await visit({ before: [sameSeries] });
    await page.goto(`${site.byNumber}/${made}`);
    const learner = await Bench.on(page);
    const { texts } = await learner.read();
    equal([texts.ph, texts.acidAmount], ["4,87", "10,0 mmol"], "the bench, with a comma");
    // Open on a wide screen; its words are text, whatever they look like.
    equal(await page.locator(".told li").allInnerTexts(), [MARKUP], "the prompt");
    equal(await page.locator(".told img, .told b").count(), 0, "markup in the prompt became markup");
    equal(await page.getByRole("button", { name: "Curve", exact: true }).count(), 0, "a part that is not there");
    await learner.panel("Working");
    ok(await page.getByText("Your teacher has locked this part.").isVisible(), "the lock is not said");
    const lesson = await Lesson.practice(learner);
    ok(!(await page.getByText("Choose questions").isVisible()), "the learner can choose other questions");
    for (const number of [1, 2]) {
      await lesson.panel.getByRole("heading", { name: new RegExp(`^Question ${number} of 2`) }).waitFor();
      ok((await lesson.question()).includes(" mL of 0,"), await lesson.question());
      const kinds = lesson.panel.locator(".kinds button");
      for (let i = 0; i < 2 && (await kinds.first().isVisible()); i += 1) await kinds.nth(3 + i).click();
      await lesson.press("Show the layout");
      if (number === 1) await lesson.press("Next question");
    }
    ok(await page.getByText("All 2 questions are done:").isVisible(), "the end is not said");
    await learner.panel("Working");
    await page.locator("#panel .step").first().waitFor();
  },

  "the lessons to start from": async ({ open, visit }) => {
    const { bench, panel } = await opened(open);
    const way = panel.getByRole("link", { name: /^Five lessons/ });
    const [letter] = await Promise.all([bench.page.context().waitForEvent("page"), way.click()]);
    await letter.getByRole("heading", { name: "For teachers" }).waitFor();
    equal(await letter.evaluate(() => window.opener), null, "its hold on the bench");
    const cards = await letter.locator(".card").evaluateAll((all) =>
      all.map((card) => ({ title: card.querySelector("h3").innerText, href: card.querySelector(".opens").href })));
    equal(cards.length, 5, "lessons");
    for (const { title, href } of cards) {
      const page = await visit();
      await page.goto(href);
      const learner = await Bench.on(page);
      equal(await page.locator(".told summary").innerText(), title, "the title");
      ok((await page.locator(".told li").count()) >= 2, `${title} has no prompts`);
      equal(await page.getByRole("alert").count(), 0, `notices of ${title}`);
      // What opens there is what a teacher goes on from.
      await learner.panel("Lesson");
      const link = page.locator("#lesson-link");
      await link.waitFor();
      equal(await link.inputValue(), href, `the link of ${title}`);
    }
  },

  "copied, or selected to be copied": async ({ open }) => {
    const { bench, panel, link } = await opened(open);
    await panel.getByLabel("Light or dark").selectOption({ label: "dark" });
    await bench.settle();
    equal(await link(), "?v=1&theme=dark", "the link");
    await panel.getByRole("button", { name: "Copy: Link" }).click();
    await bench.page.waitForFunction(() => /^Copied\.|The text is selected/.test(document.querySelector(".copied + p").innerText));
    const selected = await bench.page.evaluate(() => {
      const { value, selectionStart, selectionEnd } = document.activeElement;
      return value.slice(selectionStart, selectionEnd);
    });
    ok(selected.endsWith("?v=1&theme=dark"), `selected: ${selected}`);
    const frame = await panel.locator("#lesson-frame").inputValue();
    ok(/^<iframe src="[^"]*\?v=1&amp;theme=dark" width="100%" height="760" title="Evenkeel"><\/iframe>$/.test(frame), frame);
  },

  "a file and course packages": async ({ open, visit }) => {
    const { bench, panel } = await opened(open);
    await panel.getByLabel("Title").fill(MARKUP);
    await panel.getByLabel(/^Decimal mark/).selectOption({ label: "comma: 4,76" });
    const download = async (name) => {
      const [file] = await Promise.all([bench.page.waitForEvent("download"), panel.getByRole("button", { name }).click()]);
      await panel.getByText("The file is in your downloads.").waitFor();
      return file.path();
    };
    const path = await download("This lesson as one file");
    const folder = await mkdtemp(join(tmpdir(), "evenkeel-"));
    try {
      await copyFile(path, join(folder, "lesson.html"));
      const page = await visit({ origins: ["null"], before: [sameSeries] });
      await page.goto(`file://${folder}/lesson.html`);
      const learner = await Bench.on(page);
      equal((await learner.read()).texts.ph, "4,87", "the file's bench, with a comma");
      equal(await page.locator(".told > summary").innerText(), MARKUP, "the title");
      equal(await page.locator(".told img, .told b").count(), 0, "markup in the title became markup");
      equal(await page.getByRole("button", { name: "Lesson", exact: true }).count(), 0, "the teacher's side in a lesson's file");
      for (const [name, schema] of [["Course package, SCORM 1.2", "1.2"], ["Course package, SCORM 2004", "2004 4th Edition"]]) {
        const zip = await download(name);
        const list = execFileSync("python3", ["-c", "import sys,zipfile; z=zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None; print(z.namelist()); print(z.read('imsmanifest.xml').decode())", zip]).toString();
        ok(list.startsWith("['imsmanifest.xml', 'index.html']"), list.slice(0, 80));
        ok(list.includes(`<schemaversion>${schema}</schemaversion>`), `${name}: another edition`);
        ok(list.includes("&lt;b&gt;bold&lt;/b&gt;") && !list.includes("<b>"), `${name}: the title in the manifest`);
      }
    } finally {
      await rm(folder, { recursive: true });
    }
  },

  "the preview is the lesson": async ({ open }) => {
    const { bench, panel } = await opened(open);
    await panel.getByLabel(/^Decimal mark/).selectOption({ label: "comma: 4,76" });
    await panel.getByRole("button", { name: "Preview" }).click();
    const inside = bench.page.frameLocator(".preview iframe");
    await inside.locator("#ph").filter({ hasText: "4,87" }).waitFor();
    // In a frame a lesson is taken, not made.
    await inside.getByRole("button", { name: "Limits" }).waitFor();
    equal(await inside.getByRole("button", { name: "Lesson", exact: true }).count(), 0, "the teacher's side in a frame");
    equal(await panel.locator(".preview iframe").evaluate((frame) => frame.offsetWidth), 360, "phone size");
    await panel.getByRole("button", { name: "Frame", exact: true }).click();
    ok((await panel.locator(".preview iframe").evaluate((frame) => frame.offsetWidth)) > 380, "frame size");
  },

  "what a link gets wrong is said, and the page works": async ({ open }) => {
    const bad = ["?v=9", "?v=1&ca=lots", "?v=1&n=9999&ask=juggle", "?v=1#t=1.00000000.AAAA", "?%E0%A4%A&=&v=1&pair=%00"];
    for (const query of bad) {
      const bench = await open({ query });
      const told = bench.page.getByRole("alert").filter({ hasText: "does not open quite as its link says" });
      ok(await told.isVisible(), `${query}: nothing is said`);
      await bench.add("acid", "2.0");
      equal((await bench.read()).texts.baseAmount, "8.0 mmol", query);
    }
    const bench = await open({ query: "?utm_source=mail&fbclid=1&v=1" });
    equal(await bench.page.locator(".told").count(), 0, "keys of others are spoken of");
  },

  "the same lesson from the fragment": async ({ open }) => {
    const bench = await open({ query: "#v=1&pair=ammonium.1&theme=dark" });
    equal((await bench.read()).texts.ph, "9.24", "the pair of the fragment");
    equal(await bench.page.evaluate(() => document.documentElement.dataset.theme), "dark", "the theme");
  },

  "at the sizes of phones and screens, light and dark": async ({ open }) => {
    for (const [width, height] of [[320, 640], [360, 740], [800, 600], [1280, 800], [1920, 1080]]) {
      const { bench } = await opened(open, { width, height, dark: width === 360 });
      const wide = await bench.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      ok(wide <= 0, `${width}: ${wide} px wider than the screen`);
      none(await bench.page.evaluate(() => [...document.querySelectorAll(".lesson button, .lesson select, .lesson input:not([type=checkbox])")]
        .filter((e) => e.offsetParent && e.getBoundingClientRect().height < 43.5)
        .map((e) => `${e.localName} ${e.innerText.slice(0, 20)} is ${e.getBoundingClientRect().height} px high`)));
    }
  },
};
