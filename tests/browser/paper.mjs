// What a teacher prints, as the pages of a PDF: which pages there are, what stands on them and where.
// They are drawn into target/screens, to be looked at.

import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Bench } from "./bench.mjs";
import { seen } from "./camera.mjs";
import { equal, none, ok } from "./expect.mjs";
import { Lesson, openAll, prints, sameSeries } from "./lesson.mjs";

const PYTHON = process.env.EVENKEEL_PYTHON ?? ".tools/venv/bin/python";
/** Least white at the edges of a page, mm: what most printers cannot reach, and a little more. */
const MARGIN = 5;
const A4 = [210, 297];

/** The print window opens, and that is all: the page is printed by page.pdf(). */
function opensPrintWindow() {
  window.print = () => window.dispatchEvent(new Event("beforeprint"));
}

/** A frame in a sandbox, a reader's built-in browser: nothing happens. */
function printsNothing() {
  window.print = () => {};
}

/** Text without what a PDF has otherwise: blanks, line ends and the hyphens at them, ligatures. */
const bare = (text) => text.normalize("NFKC").replace(/[\s\u0002\u00ad\ufffe\u200b\u200e\u200f\u202a-\u202e\u2066-\u2069-]+/g, "");

/** The pages of what `page` prints now; drawn as target/screens/paper-NAME/N.png. */
async function pagesOf(page, name) {
  const folder = await mkdtemp(join(tmpdir(), "evenkeel-"));
  const screens = `target/screens/paper-${name}`;
  rmSync(screens, { recursive: true, force: true });
  mkdirSync(screens, { recursive: true });
  try {
    const path = join(folder, "paper.pdf");
    await page.pdf({ path, preferCSSPageSize: true, printBackground: false });
    const out = execFileSync(PYTHON, ["tests/browser/pdf.py", path, screens], { encoding: "utf8", maxBuffer: 1 << 26 });
    return out.trim().split("\n").map((line) => {
      const read = JSON.parse(line);
      const [foot, ...rest] = read.lines;
      return { ...read, foot, bare: bare(rest.join("\n")) };
    });
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** The Lesson panel, opened, in a browser that prints. */
async function opened(open, options = {}) {
  const bench = await open({ ...options, before: [sameSeries, opensPrintWindow, ...(options.before ?? [])] });
  for (const [reagent, amount, times] of options.added ?? []) await bench.add(reagent, amount, times);
  await bench.panel("Lesson");
  const panel = bench.page.locator("#panel .lesson");
  await openAll(panel);
  await prints(bench.page);
  return { bench, page: bench.page, panel };
}

/** Every text that was laid for the printer, without blanks. */
const laid = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll(".paper :is(p, li, th, td, h1, h2, h4, figcaption)")]
      .filter((node) => !node.querySelector("p, math"))
      .map((node) => node.textContent));

/** Prints one part, and checks of its pages what holds of all; `fontless`: signs that no font here has. */
async function printed({ page, panel }, part, name, fontless = /^$/) {
  await panel.getByRole("button", { name: `Print the ${part}` }).click();
  const texts = await laid(page);
  const pages = await pagesOf(page, name);
  const all = pages.map((p) => p.bare).join("");
  none([
    ...texts.filter((text) => !fontless.test(text)).map(bare).filter((text) => !all.includes(text)).map((text) => `not on the pages: ${text}`),
    ...pages.flatMap((p, i) => [
      ...(Math.abs(p.size[0] - A4[0]) > 0.5 || Math.abs(p.size[1] - A4[1]) > 0.5 ? [`page ${i + 1} is ${p.size} mm`] : []),
      ...(p.colour > 0 ? [`page ${i + 1} has a color: ${p.colour}`] : []),
      ...(p.edges.some((edge) => edge < MARGIN) ? [`page ${i + 1} is printed up to its edge: ${p.edges} mm`] : []),
      ...(p.fonts.length === 0 ? [`page ${i + 1} has no font`] : []),
      ...(p.bare.includes("\ufffd") ? [`page ${i + 1} has a sign without a picture`] : []),
      ...(p.foot.endsWith(` ${i + 1} / ${pages.length}`) ? [] : [`page ${i + 1} does not say that it is: ${p.foot}`]),
    ]),
  ]);
  equal(await page.locator(".paper").count(), 0, "what was printed is still on the page");
  return Object.assign(pages, { texts });
}

/** A snapshot of the native checks, line by line without blanks. */
const snapshot = (name) =>
  readFileSync(`tests/it/snapshots/it__paper__${name}.snap`, "utf8").split("---\n")[2].trim().split("\n").map(bare);

const LESSON = "?v=1&ask=mix.excess.recipe-salt&n=3&seed=417";

export default {
  "questions and answers are pages of their own, as the native checks have them": async ({ open, visit, site }) => {
    const lesson = await opened(open, { query: LESSON });
    await lesson.panel.getByLabel("Title").fill("Bakery buffers");
    await lesson.panel.getByLabel("Prompt 1").fill("Say first what reacts with what.");
    const questions = await printed(lesson, "questions", "questions");
    const answers = await printed(lesson, "answers", "answers");
    for (const [name, pages] of Object.entries({ questions, answers })) {
      const all = pages.map((p) => p.bare).join("");
      none(pages.flatMap((p, i) => (p.foot.includes("seed 417") ? [] : [`${name}, page ${i + 1}: no seed`])));
      const missing = snapshot(name).filter((line) => !line.startsWith(bare("The same questions on a screen")) && !all.includes(line));
      none(missing.map((line) => `${name}: not printed: ${line}`));
    }
    const told = /Howitismarked|Hasitsmark|iswhatyougetif|Itis:/;
    none(questions.flatMap((p, i) => (told.test(p.bare) ? [`an answer on page ${i + 1} of the questions`] : [])));
    none(answers.flatMap((p, i) => (/Roomtowork|Tickone/.test(p.bare) ? [`a question to fill in on page ${i + 1} of the answers`] : [])));
    // The wrong numbers begin a page, and no worked answer stands on it.
    const wrong = answers.findIndex((p) => p.bare.includes(bare("Likely wrong numbers")) && p.bare.includes("iswhatyougetif"));
    ok(wrong > 0 && !answers.slice(wrong).some((p) => p.bare.includes("Hasitsmark")), `the wrong numbers are on page ${wrong + 1}`);

    // The link on paper opens the same question, and the right numbers on paper are right there.
    const text = questions[0].bare;
    const link = questions.texts.find((line) => line.startsWith("The same questions on a screen:")).match(/\?v=1.*$/)[0];
    equal(seen(readFileSync("target/screens/paper-questions/1.png")), `${site.byNumber}/${link}`, "the link in the printed code");
    const page = await visit();
    await page.goto(`${site.byNumber}/${link}`);
    const screen = await Lesson.practice(await Bench.on(page));
    await screen.panel.locator(".question p").first().waitFor();
    for (const p of await screen.panel.locator(".question p").allTextContents()) ok(text.includes(bare(p)), `only on the screen: ${p}`);
    const kinds = screen.panel.locator(".kinds button");
    for (let i = 0; i < 2 && (await kinds.first().isVisible()); i += 1) await kinds.nth(3 + i).click();
    const right = answers.flatMap((p) => p.lines).map((line) => line.match(/^pH (\d+\.\d\d) \d+\.\d\d to \d+\.\d\d$/)).find(Boolean);
    ok(right, "no pH among the mark points");
    await screen.line(3).fill(right[1]);
    await screen.press("Check");
    ok((await screen.says(3)).includes("Right."), `${right[1]}: ${await screen.says(3)}`);
  },

  "afterwards all is as before": async ({ open }) => {
    const lesson = await opened(open, { added: [["acid", "2.0", 1]] });
    const { page, panel } = lesson;
    const button = panel.getByRole("button", { name: "Print the answers" });
    await button.scrollIntoViewIfNeeded();
    const stands = () =>
      page.evaluate(() => ({
        focus: document.activeElement.innerText,
        scroll: [scrollY, document.querySelector("#panel > .panel").scrollTop],
        root: [document.documentElement.className, document.documentElement.getAttribute("style") ?? ""],
        body: document.body.children.length,
        panel: document.querySelector("#panel").innerHTML,
      }));
    await button.focus();
    const before = await stands();
    await printed(lesson, "answers", "after");
    equal(await stands(), before, "focus, scroll, page");
  },

  "the same numbers until others are asked for": async ({ open }) => {
    const lesson = await opened(open, { before: [() => { let n = 0; Math.random = () => ((n += 1) * 0.137) % 1; }] });
    const seed = async (part) => (await printed(lesson, part, "numbers"))[0].foot.match(/seed (\d+)/)[1];
    const first = await seed("questions");
    equal(await seed("answers"), first, "the seed of the answers");
    await lesson.bench.panel("Why");
    await lesson.bench.panel("Lesson");
    equal(await seed("answers"), first, "the seed after another panel");
    ok(await lesson.panel.getByText(`Numbers of seed ${first}, for the paper only`).isVisible(), "the seed is not said");
    await lesson.panel.getByRole("button", { name: "Other numbers" }).click();
    ok((await seed("questions")) !== first, "other numbers are the same");
  },

  "where no print window opens it says what to do, and the browser's own command prints": async ({ open }) => {
    const { bench, page, panel } = await opened(open, { before: [printsNothing] });
    const press = () => panel.getByRole("button", { name: "Print the questions" }).click();
    await press();
    ok(await panel.getByText("open the full page to print").isVisible(), "nothing is said");
    ok((await pagesOf(page, "own-command"))[0].bare.startsWith(bare("Questions · seed")), "the sheet was not ready");
    equal(await page.locator(".paper").count(), 0, "what was printed is still on the page");
    await press();
    await bench.panel("Why");
    equal(await page.locator(".paper").count(), 0, "what was not printed outlives its panel");
  },

  "twelve questions, comma and mL": async ({ open }) => {
    const lesson = await opened(open, { query: "?v=1&n=12&seed=20261&vol=mL&conc=L&mark=comma&names=systematic&tol=3&theme=dark", dark: true });
    for (const part of ["questions", "answers"]) {
      const all = (await printed(lesson, part, `twelve-${part}`)).map((p) => p.bare).join("");
      const point = all.replace(/http:.*?theme=dark/, "").match(/.{9}\d\.\d(?!\d?·).{9}/);
      ok(!point, `${part}: a decimal point: ${point}`);
      ok(!all.includes("cm3") && !all.includes("dm−3") && all.includes("molL−1"), `${part}: another unit`);
    }
  },

  "a teacher's words, whatever they are": async ({ open }) => {
    const words = ["<script>alert(1)</script> & \"q\" <b>b</b>", "\u202eשלום\u202c مرحبا بكم", "🧪 e\u0301 水", "W".repeat(200), `${"lang ".repeat(39)}long`];
    const lesson = await opened(open, { query: "?v=1&ask=dilution&n=1&seed=5" });
    await lesson.panel.getByLabel("Title").fill("<i>M</i>".repeat(10));
    for (const [i, text] of words.entries()) await lesson.panel.getByLabel(`Prompt ${i + 1}`).fill(text);
    const [first] = await printed(lesson, "questions", "words", /[水\u05d0-\u06ff]/);
    for (const part of ["<script>alert(1)</script>", "<i>M</i>".repeat(10), "W".repeat(200)]) ok(first.bare.includes(part), `not there: ${part}`);
    await printed(lesson, "answers", "words-answers");
    equal((await printed(lesson, "bench", "words-bench")).length, 1, "pages of the bench");
  },

  "the bench on one page, before and after it gives way": async ({ open }) => {
    const benches = {
      usual: {},
      added: { added: [["alkali", "2.0", 2]] },
      "run-out": { added: [["acid", "2.0", 6]] },
      ammonia: { query: "?v=1&pair=ammonium.1", added: [["acid", "2.0", 1]] },
      "ammonia-run-out": { query: "?v=1&pair=ammonium.1&mark=comma&vol=mL", added: [["alkali", "2,0", 7]] },
      phosphate: { query: "?v=1&pair=phosphoric.2", added: [["alkali", "0.5", 3]] },
      "phosphate-run-out": { query: "?v=1&pair=phosphoric.2", added: [["acid", "2.0", 8]] },
    };
    for (const [name, options] of Object.entries(benches)) {
      const lesson = await opened(open, options);
      const { texts } = await lesson.bench.read();
      const pages = await printed(lesson, "bench", `bench-${name}`);
      equal(pages.length, 1, `${name}: pages`);
      const [{ bare: text }] = pages;
      if (!options.added) {
        ok(text.includes(bare("Nothing has been added to this bench yet. As an example")), `${name}: no word of an example`);
        continue;
      }
      ok(text.includes(`Atthestart:pH${texts.start}`) && text.includes(`Now:pH${texts.ph}`), `${name}: the stills do not say their pH`);
      for (const part of ["acidAmount", "baseAmount"]) ok(text.includes(texts[part].split(" ")[0]), `${name}: ${texts[part]}`);
    }
  },

  "the page itself, printed": async ({ open }) => {
    for (const [name, options] of Object.entries({ phone: { width: 360, height: 740 }, wide: {}, projector: { width: 1920, height: 1080, dark: true } })) {
      const bench = await open(options);
      await bench.add("acid", "2.0");
      const { texts } = await bench.read();
      for (const panel of ["Why", "Working", "Practice", "Limits"]) {
        await bench.panel(panel);
        if (panel === "Working") await bench.page.locator("#panel .step").first().waitFor();
        if (panel === "Practice") await bench.page.locator("#panel .question p").first().waitFor();
        const pages = await pagesOf(bench.page, `page-${name}-${panel.toLowerCase()}`);
        const all = pages.map((p) => p.bare).join("");
        for (const part of ["ph", "acidAmount", "baseAmount"]) ok(all.includes(bare(texts[part])), `${name}, ${panel}: no ${texts[part]}`);
        none(pages.flatMap((p, i) => (p.edges.some((edge) => edge < MARGIN) ? [`${name}, ${panel}, page ${i + 1} is printed up to its edge: ${p.edges} mm`] : [])));
      }
    }
  },
};
