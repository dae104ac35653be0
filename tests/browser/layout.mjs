// Every size at which the page is used: nothing cut, nothing sideways, nothing too small to hit.
// Screenshots go to target/screens, to be looked at.

import { none } from "./expect.mjs";
import { misfits } from "./geometry.mjs";
import { arrived, sameSeries, stages } from "./lesson.mjs";

const SIZES = [[320, 640], [360, 740], [800, 600], [1280, 800], [1920, 1080]];

/** Runs in the page: what of the bench lies below the first `height` pixels. */
function below(height) {
  const parts = {
    "the pH": document.querySelectorAll("#ph"),
    "the pH line": document.querySelectorAll(".ph-line"),
    "the reservoirs": document.querySelectorAll("canvas[role=img], #acid-amount, #base-amount"),
    "the additions": [...document.querySelectorAll("button")].filter((b) => /^Add /.test(b.getAttribute("aria-label") ?? "")),
  };
  return Object.entries(parts).flatMap(([name, nodes]) => {
    if (nodes.length === 0) return [`${name} is missing`];
    const lowest = Math.max(...[...nodes].map((node) => node.getBoundingClientRect().bottom + scrollY));
    return lowest > height ? [`${name} reaches down to ${lowest.toFixed(0)} px of ${height}`] : [];
  });
}

/** Where the six buttons stand. */
function places(page) {
  return page.evaluate(() =>
    [...document.querySelectorAll("button")]
      .filter((b) => /^Add /.test(b.getAttribute("aria-label") ?? ""))
      .map((b) => [Math.round(b.getBoundingClientRect().x), Math.round(b.getBoundingClientRect().y + scrollY)]),
  );
}

async function painted(bench) {
  const { colors, painted } = await bench.picture();
  return colors < 6 || painted < 0.02 ? [`the canvas is as good as blank: ${colors} colors on ${(painted * 100).toFixed(1)} %`] : [];
}

/** No vertical scroll: only asked for where the whole bench and its panels have room. */
async function fits(page) {
  const [needs, has] = await page.evaluate(() => [document.documentElement.scrollHeight, document.documentElement.clientHeight]);
  return needs > has ? [`scrolls down: ${needs} px in ${has}`] : [];
}

async function look(bench, width, height, name, problems) {
  const { page } = bench;
  const say = (found) => problems.push(...found.map((line) => `${name}: ${line}`));
  say(await page.evaluate(misfits));
  say(await painted(bench));
  say(await page.evaluate(units));
  if (width === 360) say(await page.evaluate(below, 740));
  if (width >= 1280) say(await fits(page));
  await page.screenshot({ path: `target/screens/${name}.png` });
  if (width < 1280) await page.screenshot({ path: `target/screens/${name}-whole.png`, fullPage: true });
}

/** Beside the bench a panel takes nothing from it: what is too long for the window scrolls by itself. */
async function beside(bench, panel) {
  const { page } = bench;
  const found = await page.evaluate(() => {
    const bottom = (nodes) => Math.max(...[...nodes].map((node) => node.getBoundingClientRect().bottom));
    const content = document.querySelector("#panel > .panel");
    return {
      needs: document.documentElement.scrollHeight,
      has: innerHeight,
      buttons: bottom(document.querySelectorAll(".additions button")),
      curve: document.querySelector(".curve-card .chart-box")?.clientHeight,
      long: content.scrollHeight > content.clientHeight + 1,
    };
  });
  const problems = [];
  if (found.needs > found.has) problems.push(`the page scrolls: ${found.needs} px in ${found.has}`);
  if (found.buttons > found.has) problems.push(`buttons down to ${found.buttons} px of ${found.has}`);
  if (found.curve < 120) problems.push(`the curve is ${found.curve} px high`);
  if (found.long) {
    const scroller = page.locator("#panel > .panel");
    const own = (await scroller.getAttribute("tabindex")) === "0";
    await (own ? scroller : scroller.locator("select, input, button, summary").first()).focus();
    for (let i = 0; i < 40 && own; i += 1) await page.keyboard.press("ArrowDown");
    for (let i = 0; i < 12 && !own; i += 1) await page.keyboard.press("Tab");
    await page.waitForFunction(() => document.querySelector("#panel > .panel").scrollTop > 0).catch(() => problems.push(`${panel} does not scroll by keyboard`));
  }
  return problems;
}

/** The unit of the additions stands where they are, on every screen. */
function units() {
  const headings = [...document.querySelectorAll(".additions h3")].map((h) => h.innerText);
  return headings.length === 2 && headings.every((h) => h.endsWith("/ mmol")) ? [] : [`the additions are headed ${headings}`];
}

/** All panels in turn, where each can be opened. */
async function panels(bench, name, problems) {
  for (const panel of ["Set up", "Limits", "Curve", "Working", "Practice", "Why"]) {
    await bench.panel(panel);
    await arrived(bench.page);
    const found = await bench.page.evaluate(misfits);
    problems.push(...found.map((line) => `${name}, ${panel}: ${line}`));
    if (bench.page.viewportSize().width >= 700) problems.push(...(await beside(bench, panel)).map((line) => `${name}, ${panel}: ${line}`));
    await bench.page.screenshot({ path: `target/screens/${name}-${panel.toLowerCase().replace(" ", "-")}.png`, fullPage: true });
  }
}

/** The lesson in its stages. */
async function lesson(bench, name, problems) {
  await stages(bench, async (stage) => {
    const found = await bench.page.evaluate(misfits);
    problems.push(...found.map((line) => `${name}, ${stage}: ${line}`));
    await bench.page.screenshot({ path: `target/screens/${name}-${stage}.png`, fullPage: true });
  });
}

function at(width, height, options) {
  const name = [`${width}x${height}`, options.dark ? "dark" : "light", ...(options.reduced ? ["still"] : [])].join("-");
  return [
    name,
    async ({ open }) => {
      const bench = await open({ width, height, before: [sameSeries], ...options });
      const problems = [];
      await look(bench, width, height, name, problems);
      const before = JSON.stringify(await places(bench.page));
      for (const [reagent, times] of [["acid", 1], ["alkali", 2]]) {
        await bench.add(reagent, "2.0", times);
        const now = JSON.stringify(await places(bench.page));
        if (now !== before) problems.push(`${name}: adding ${reagent} moves the buttons from ${before} to ${now}`);
      }
      // Seven more of acid in all take up the 10 mmol and leave H⁺ over.
      await bench.add("acid", "2.0", 8);
      await bench.page.evaluate(() => scrollTo(0, 0));
      await rested(bench);
      await look(bench, width, height, `${name}-exhausted`, problems);
      if (!options.reduced) await panels(bench, name, problems);
      if (!options.reduced) await lesson(bench, name, problems);
      none(problems);
    },
  ];
}

/** Waits until the last addition has played out: the picture stands still for a while. */
async function rested(bench) {
  let last;
  let same = 0;
  for (let i = 0; i < 200 && same < 4; i += 1) {
    const { hash } = await bench.picture();
    same = hash === last ? same + 1 : 0;
    last = hash;
    await bench.settle();
    await bench.settle();
  }
}

const CASES = [{}, { dark: true }, { reduced: true }];

export default Object.fromEntries(SIZES.flatMap(([width, height]) => CASES.map((options) => at(width, height, options))));
