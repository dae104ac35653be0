// The working of the bench: what is shown, read aloud and copied is one calculation.

import { equal, none, ok } from "./expect.mjs";
import { readBench } from "./reading.mjs";

/** What a screen reader says at each formula of the panel. */
const spoken = (page) => page.locator("#panel [role=math]").evaluateAll((nodes) => nodes.map((n) => n.getAttribute("aria-label")));
const headings = (page) => page.locator("#panel .step > summary").allInnerTexts();

async function opened(bench) {
  await bench.panel("Working");
  await bench.page.locator("#panel .step").first().waitFor();
}

/** The working as plain text, which is written once it is opened. */
async function plain({ page }) {
  const details = page.locator("#panel details:has(> pre)");
  if ((await details.getAttribute("open")) === null) await details.locator("> summary").click();
  await page.waitForFunction(() => document.querySelector("#panel pre").textContent);
  return page.locator("#panel pre").textContent();
}

export default {
  "it works out what the bench shows": async ({ open }) => {
    const bench = await open();
    await opened(bench);
    const { page } = bench;
    const check = async (moment) => {
      await bench.settle();
      const { texts } = await readBench(page);
      const last = (await headings(page)).find((heading) => /· pH: /.test(heading));
      ok(last?.endsWith(`pH: ${texts.ph}`), `${moment}: ${last} beside ${texts.ph}`);
      const text = await plain(bench);
      ok(text.includes(`= ${texts.ph}`), `${moment}: the plain text does not end in ${texts.ph}`);
    };
    await check("at the start");
    await bench.add("acid", "2.0");
    await check("after acid");
    await bench.add("alkali", "2.0", 3);
    await check("after alkali");
  },

  "every step opens by itself, and every number has its origin": async ({ open }) => {
    const bench = await open({ width: 360, height: 740 });
    await bench.add("acid", "0.5");
    await opened(bench);
    const steps = await bench.page.locator("#panel .step").all();
    ok(steps.length > 3, `${steps.length} steps`);
    for (const step of steps) {
      if ((await step.getAttribute("open")) === null) await step.locator("> summary").click();
      equal(await bench.page.locator("#panel .step[open]").count(), 1, "steps open at a time");
      for (const origin of await step.locator(".origin").all()) {
        await origin.locator("summary").click();
        ok((await origin.innerText()).split(",").length > 1, await origin.innerText());
      }
    }
  },

  // The words are ours; the check is that they are words, and that they say what is written.
  "equations are read aloud as text": async ({ open }) => {
    const bench = await open();
    await opened(bench);
    const said = await spoken(bench.page);
    none(said.filter((text) => /[⁰-₎×√−/=⇌→]|10\^/.test(text)).map((text) => `symbols, not words: ${text}`));
    const wanted = [
      "the concentration of H, one plus, equals K a times n of H A over n of A, one minus, equals 1.34 times ten to the minus 5 moles per cubic decimetre times 10.0 millimoles over 10.0 millimoles, equals 1.34 times ten to the minus 5 moles per cubic decimetre",
      "p H equals minus log to base ten of the concentration of H, one plus, equals minus log to base ten of 1.34 times ten to the minus 5, equals 4.87",
    ];
    equal(said.slice(-2), wanted, "the last two formulas");
    equal(await bench.page.locator("#panel [role=math] math").evaluateAll((nodes) => nodes.every((n) => n.closest("[aria-hidden=true]"))), true, "said twice");
  },

  "past exhaustion it says that the buffer formula no longer serves": async ({ open }) => {
    const bench = await open();
    await bench.add("acid", "2.0", 6);
    await opened(bench);
    const text = await plain(bench);
    ok(/left over/.test(text), "nothing is left over");
    ok(/The calculation above: pH 2\.\d\d\. Full balance/.test(text), "no verdict on the short form");
  },
};
