// For those who do not see the page: the rules that a machine can check, and what is said aloud.

import { audit, spaced } from "./audit.mjs";
import { rendered, unlisted } from "./contrast.mjs";
import { heard, listen } from "./ear.mjs";
import { equal, none, ok } from "./expect.mjs";
import { misfits } from "./geometry.mjs";
import { WALKS } from "./states.mjs";

/**
 * The states of `walks`, in both themes, at a size of the window and of the text; if `space`, with the
 * spaces that a reader may set, and with every pair of colors among those that are computed.
 */
function audited(name, walks, options, space) {
  return walks.map((walk) => [
    `${name}: ${walk}`,
    async (given) => {
      const problems = [];
      const look = async (page, moment) => {
        const say = (found, how = "") => problems.push(...found.map((line) => `${moment}${how}: ${line}`));
        say(await audit(page));
        const size = await page.evaluate(() => parseFloat(getComputedStyle(document.documentElement).fontSize));
        if (size < (options.text ?? 16)) say([`the text has the size ${size}, the reader asked for ${options.text}`]);
        if (!space) return;
        say(await unlisted(await page.evaluate(rendered), "light"));
        await page.evaluate(spaced, true);
        say(await page.evaluate(misfits, true), ", spaced");
        await page.evaluate(spaced, false);
      };
      await WALKS[walk](given, options, look);
      none(problems);
    },
  ]);
}

export default {
  ...Object.fromEntries([
    // 320 pixels is also 1280 at 400 %.
    ...audited("axe at 320 px", Object.keys(WALKS), { width: 320, height: 640 }, true),
    ...audited("axe at 360 px", ["bench", "framed"], { width: 360, height: 740 }),
    ...audited("axe at 800 px", ["bench", "lesson"], { width: 800, height: 600 }),
    ...audited("axe at 1280 px", Object.keys(WALKS), { width: 1280, height: 800 }, true),
    ...audited("axe at 1920 px", ["bench", "others"], { width: 1920, height: 1080 }),
    // Without the frame of another origin: to its process the browser hands no size of text here.
    ...audited("axe at 1280 px, text at 200 %", ["bench", "lesson", "others"], { width: 1280, height: 800, text: 32 }),
    ...audited("axe at 360 px, text at 200 %", ["bench", "lesson", "others"], { width: 360, height: 740, text: 32 }),
  ]),

  "each addition is one message": async ({ open }) => {
    const bench = await open();
    equal((await bench.read()).texts.status, "", "said before anything happened");
    await bench.page.evaluate(listen);
    await bench.add("acid", "0.5");
    const first = await heard(bench.page);
    equal(first.length, 1, "messages after one addition");
    const { texts } = await bench.read();
    for (const part of ["0.5 mmol", "acid", texts.ph, texts.baseAmount, texts.water]) ok(first[0].includes(part), `${JSON.stringify(first[0])} does not tell ${part}`);
    await bench.add("alkali", "0.1", 2);
    equal((await heard(bench.page)).length, 2, "messages after two more");
    await bench.undo();
    equal((await heard(bench.page)).length, 1, "messages after an undo");
    await bench.press("As mixed");
    await bench.panel("Limits");
    equal(await heard(bench.page), [], "messages after a look around");
  },

  "a pour is one message, once it is over": async ({ open }) => {
    const bench = await open();
    await bench.page.evaluate(listen);
    const during = [];
    await bench.pourUntil(
      "acid",
      "0.1",
      async ({ base }) => {
        during.push(...(await heard(bench.page)));
        return base.mmol < 9.5;
      },
      "several portions poured",
    );
    equal(during, [], "said while pouring");
    const after = await heard(bench.page);
    equal(after.length, 1, "messages once it is over");
    const { why } = await bench.read();
    const poured = why.headline.match(/added (.*) of/)[1];
    ok(after[0].includes(poured), `${JSON.stringify(after[0])} does not tell of the whole pour, ${poured}`);
  },

  "the same words twice are said twice": async ({ open }) => {
    const bench = await open();
    // Far past the end an addition no longer changes any number that is told.
    await bench.dose("acid", "2.0").evaluate((button) => {
      for (let i = 0; i < 60; i += 1) button.click();
    });
    await bench.settle();
    await bench.page.evaluate(listen);
    for (let i = 0; i < 4; i += 1) await bench.add("acid", "0.1");
    equal((await heard(bench.page)).length, 4, "messages for four additions");
  },

  "the page has one heading of the first level, and landmarks": async ({ open }) => {
    const bench = await open();
    equal(await bench.page.getByRole("heading", { level: 1 }).allInnerTexts(), ["Evenkeel"], "first-level headings");
    equal(await bench.page.getByRole("main").count(), 1, "main landmarks");
    equal(await bench.page.evaluate(() => document.querySelector("#ph").localName), "output", "the pH is an output");
    await bench.add("acid", "0.5");
    const { canvas, acidCount } = (await bench.read()).texts;
    ok(canvas.includes(acidCount.split(" ")[0]), "the canvas is not described by its counts");
  },
};
