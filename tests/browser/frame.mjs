// The page in a frame of another page, on another origin.

import { Bench } from "./bench.mjs";
import { equal, ok, until } from "./expect.mjs";
import { serve } from "./server.mjs";

/** A course page: text, the frame, text; the frame is made as high as it asks to be. */
function host(source, { sandbox, follow = true, height = 500, width = "100%", scheme = "light" } = {}) {
  const attributes = sandbox === undefined ? "" : `sandbox="${sandbox}"`;
  return `<!doctype html><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,">
<style>:root { color-scheme: ${scheme}; } body { margin: 0; } p { height: 900px; } iframe { border: 0; display: block; }</style>
<iframe src="${source}" title="Evenkeel" width="${width}" height="${height}" ${attributes}></iframe>
<p>Text below.</p>
<script>
  const heights = [];
  const others = [];
  const frame = document.querySelector("iframe");
  addEventListener("message", ({ source, data }) => {
    if (source !== frame.contentWindow) return;
    if (data?.type === "widget:height" && data.v === 1) {
      heights.push(data.height);
      if (${follow}) frame.height = data.height;
    } else if (data?.subject) {
      others.push(data);
    }
  });
</script>`;
}

/** Opens a host page around the widget; hands over the host's window and the widget's frame. */
async function framed({ visit, site, folder }, options = {}, visitOptions = {}) {
  const widget = options.shared ? await serve({ folder, shared: true }) : site;
  const source = `${widget.byName}/${options.query ?? ""}`;
  const outside = await serve({ pages: { "/": host(source, options) } });
  const page = await visit({ ...visitOptions, origins: [outside.byNumber, widget.byName] });
  await page.goto(outside.byNumber);
  const close = async () => {
    await page.close();
    await outside.close();
    if (widget !== site) await widget.close();
  };
  return { page, frame: page.frames()[1], close };
}

/** Playwright's verbs for a frame: those that the bench needs of a page. */
async function benchIn(page, frame) {
  const bench = await Bench.on(frame);
  Object.defineProperty(frame, "mouse", { value: page.mouse, configurable: true });
  return bench;
}

const last = (page) => page.evaluate(() => heights.at(-1) ?? 0);
const content = (frame) => frame.evaluate(() => Math.ceil(document.querySelector("#app").getBoundingClientRect().height));

/** Waits until the frame has stopped asking for another height, and returns it. */
async function resting(page, frame) {
  let same = 0;
  let before = -1;
  return until(
    async () => {
      const now = [await last(page), await content(frame), await page.locator("iframe").evaluate((f) => f.clientHeight)];
      same = JSON.stringify(now) === JSON.stringify(before) ? same + 1 : 0;
      before = now;
      return now;
    },
    ([asked, inside]) => same > 10 && asked === inside && asked > 0,
    "a height at rest",
  ).then(([asked]) => asked);
}

async function ground(frame) {
  return frame.evaluate(() => [getComputedStyle(document.documentElement).backgroundColor, getComputedStyle(document.querySelector(".card")).backgroundColor]);
}

const WIDTHS = [360, 700, 1100];

export default {
  "no chrome of its own, and it works": async (given) => {
    const { page, frame, close } = await framed(given);
    const bench = await benchIn(page, frame);
    const steps = await page.evaluate(() => history.length);
    ok(!(await frame.getByRole("heading", { name: "Evenkeel" }).isVisible()), "the page's title shows in a frame");
    await bench.add("acid", "2.0");
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
    equal((await ground(frame))[0], "rgba(0, 0, 0, 0)", "the ground, which is the host's");
    for (const panel of ["Set up", "Limits"]) await bench.panel(panel);
    equal(await page.evaluate(() => history.length), steps, "entries in the host's history");
    await close();
  },

  "its height is told, and is enough": async (given) => {
    for (const width of WIDTHS) {
      const { page, frame, close } = await framed(given, { width });
      const bench = await benchIn(page, frame);
      const first = await resting(page, frame);
      ok(first > 200, `the height told is ${first}`);
      const scrolls = () => frame.evaluate(() => document.documentElement.scrollHeight - document.documentElement.clientHeight);
      ok((await scrolls()) <= 1, `at ${width} px the frame scrolls by ${await scrolls()} px within the height it asked for`);
      const heights = new Set([first]);
      for (const panel of ["Set up", "Limits", "Why"]) {
        await bench.panel(panel);
        heights.add(await resting(page, frame));
        ok((await scrolls()) <= 1, `at ${width} px with ${panel} the frame scrolls by ${await scrolls()} px`);
      }
      // Below the bench a panel is as high as it is; beside it the host's page stands still.
      const as = (want) => ok(want, `at ${width} px the panels tell the heights ${[...heights]}`);
      as(width < 700 ? heights.size > 1 : heights.size === 1);
      await close();
    }
  },

  "it can shrink again": async (given) => {
    for (const width of WIDTHS) {
      const { page, frame, close } = await framed(given, { width, height: 2600 });
      await benchIn(page, frame);
      const height = await resting(page, frame);
      ok(height < 2500, `at ${width} px a frame 2600 px high asks for ${height} px`);
      await close();
    }
  },

  "the second dialect": async (given) => {
    const { page, frame, close } = await framed(given);
    await benchIn(page, frame);
    const height = await resting(page, frame);
    const others = await page.evaluate(() => others);
    equal(others.at(-1), { subject: "lti.frameResize", height }, "the message that course systems know");
    await close();
  },

  "the wheel and a finger scroll the host": async (given) => {
    const { page, frame, close } = await framed(given);
    await benchIn(page, frame);
    await resting(page, frame);
    for (const [name, selector] of [["the canvas", "canvas:last-child"], ["the readout", "#ph"], ["a button", "button"]]) {
      await page.evaluate(() => scrollTo(0, 0));
      await frame.locator(selector).first().hover();
      const from = await page.evaluate(() => scrollY);
      await page.mouse.wheel(0, 240);
      await until(() => page.evaluate(() => scrollY), (y) => y > from, `the host scrolls with the wheel over ${name}`);
    }
    const touch = await frame.locator("canvas").last().evaluate((canvas) => getComputedStyle(canvas).touchAction);
    ok(["auto", "pan-y", "manipulation"].includes(touch), `a finger on the canvas cannot scroll the host: ${touch}`);
    await close();
  },

  "the theme in the address wins": async (given) => {
    for (const dark of [false, true]) {
      for (const [theme, paper, card] of [["light", "rgb(251, 250, 246)", "rgb(255, 255, 255)"], ["dark", "rgb(18, 23, 30)", "rgb(26, 33, 42)"]]) {
        const { page, frame, close } = await framed(given, { query: `?v=1&theme=${theme}&unknown=x`, scheme: dark ? "dark" : "light" }, { dark });
        await benchIn(page, frame);
        equal(await ground(frame), [paper, card], `theme=${theme} on a ${dark ? "dark" : "light"} system`);
        await close();
      }
    }
  },

  "sandboxed, where the host shares its files": async (given) => {
    // Without an origin of its own the frame is refused the preloaded copy; that is all it may say.
    const { page, frame, close } = await framed(given, { sandbox: "allow-scripts", shared: true }, { expected: [/preload/] });
    const bench = await benchIn(page, frame);
    await bench.add("acid", "2.0");
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
    ok((await resting(page, frame)) > 200, "no height is told");
    await close();
  },

  "sandboxed, where it does not": async (given) => {
    const { page, frame, close } = await framed(given, { sandbox: "allow-scripts" }, { expected: [/CORS policy|ERR_FAILED|preload|TypeError|securitypolicyviolation|Content Security Policy/i] });
    await frame.locator("#no-wasm").waitFor({ state: "visible" });
    ok(!(await frame.locator("#loading").isVisible()), "it still says that it is loading");
    equal(await frame.locator("#ph").innerText(), "4.87", "the pH of the static page");
    await close();
  },
};
