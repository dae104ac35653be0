// For those who do not see the page: the rules that a machine can check, and what is said aloud.

import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { equal, none, ok } from "./expect.mjs";
import { arrived, sameSeries, stages } from "./lesson.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** axe-core's violations (rules of WCAG 2 and its own best practices), one line each. */
async function violations(page, moment) {
  const { violations: found } = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
  return found.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${moment}: ${id} (${help}): ${node.target.join(" ")} ${node.failureSummary.replace(/\s+/g, " ").slice(0, 200)}`),
  );
}

function audit(width, height, dark) {
  const name = `axe at ${width} px, ${dark ? "dark" : "light"}`;
  return [
    name,
    async ({ open }) => {
      const bench = await open({ width, height, dark, before: [sameSeries] });
      await bench.page.evaluate(axe);
      const problems = [];
      for (const moment of ["at the start", "exhausted"]) {
        if (moment === "exhausted") await bench.add("acid", "2.0", 7);
        for (const panel of ["Why", "Curve", "Working", "Practice", "Set up", "Limits"]) {
          await bench.panel(panel);
          await arrived(bench.page);
          problems.push(...(await violations(bench.page, `${moment}, ${panel}`)));
        }
      }
      await stages(bench, async (stage) => problems.push(...(await violations(bench.page, stage))));
      await bench.panel("Set up");
      await bench.field(/^Propanoic acid/, /^Concentration/).fill("lots");
      await bench.settle();
      problems.push(...(await violations(bench.page, "with a wrong value")));
      await bench.panel("Curve");
      await bench.page.getByText("The same as a table").click();
      problems.push(...(await violations(bench.page, "the table of the curve")));
      none(problems);
    },
  ];
}

/** Writes down what every live region says, from now on; an output is one by its role. */
async function listen(page) {
  await page.evaluate(() => {
    globalThis.said = [];
    const live = "output, [role=status], [role=alert], [role=log], [aria-live]";
    for (const region of document.querySelectorAll(live)) {
      if (region.getAttribute("aria-live") === "off") continue;
      new MutationObserver(() => said.push(region.textContent)).observe(region, { childList: true, characterData: true, subtree: true });
    }
  });
}

const said = (page) => page.evaluate(() => said);

export default {
  ...Object.fromEntries([[360, 740], [800, 600], [1280, 800]].flatMap(([w, h]) => [audit(w, h, false), audit(w, h, true)])),

  "each addition is one message": async ({ open }) => {
    const bench = await open();
    equal((await bench.read()).texts.status, "", "said before anything happened");
    await listen(bench.page);
    await bench.add("acid", "0.5");
    const first = await said(bench.page);
    equal(first.length, 1, "messages after one addition");
    const { texts } = await bench.read();
    for (const part of ["0.5 mmol", "acid", texts.ph, texts.baseAmount, texts.water]) ok(first[0].includes(part), `${JSON.stringify(first[0])} does not tell ${part}`);
    await bench.add("alkali", "0.1", 2);
    equal((await said(bench.page)).length, 3, "messages after two more");
    await bench.undo();
    equal((await said(bench.page)).length, 4, "messages after an undo");
    await bench.press("As mixed");
    await bench.panel("Limits");
    equal((await said(bench.page)).length, 4, "messages after a look around");
  },

  "a pour is one message, once it is over": async ({ open }) => {
    const bench = await open();
    await listen(bench.page);
    let during;
    await bench.pourUntil(
      "acid",
      "0.1",
      async ({ base }) => {
        during = await said(bench.page);
        return base.mmol < 9.5;
      },
      "several portions poured",
    );
    equal(during, [], "said while pouring");
    const after = await said(bench.page);
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
    await listen(bench.page);
    for (let i = 0; i < 4; i += 1) await bench.add("acid", "0.1");
    equal((await said(bench.page)).length, 4, "messages for four additions");
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
