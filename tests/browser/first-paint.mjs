// What stands there before the application does, and where it never comes.

import { Bench } from "./bench.mjs";
import { equal, none, ok } from "./expect.mjs";
import { misfits } from "./geometry.mjs";
import { readBench } from "./reading.mjs";

/** The facts that the static page states; the application states the same and more. */
const STATED = ["ph", "start", "pka", "water", "acidAmount", "baseAmount", "equation", "headings"];

async function stated(page) {
  const { texts } = await readBench(page);
  return Object.fromEntries(STATED.map((part) => [part, texts[part]]));
}

/** The static page where scripts cannot be asked: read from its own markup instead. */
async function seen(page) {
  const text = (selector) => page.locator(selector).innerText();
  return {
    ph: await text("#ph"),
    start: await text("#ph-start"),
    pka: await text("#pka"),
    water: await text("#ph-water"),
    acidAmount: await text("#acid-amount"),
    baseAmount: await text("#base-amount"),
  };
}

/** Whether the stylesheets hold: a card with rounded corners on another ground than the page. */
async function styled(page) {
  const style = (selector, property) =>
    page.locator(selector).first().evaluate((node, p) => getComputedStyle(node)[p], property);
  const problems = [];
  if ((await style(".card", "borderTopLeftRadius")) === "0px") problems.push("cards have no rounded corners");
  if ((await style(".card", "backgroundColor")) === (await style("html", "backgroundColor"))) problems.push("cards have the page's own ground");
  if (parseFloat(await style("#ph", "fontSize")) < 40) problems.push("the pH is not big");
  if (/times|^serif/i.test(await style("body", "fontFamily"))) problems.push("the text is set in the browser's own face");
  return problems;
}

/** A page whose application cannot start: what it says instead. */
async function stopped(page, app) {
  const message = page.locator("#no-wasm");
  await message.waitFor({ state: "visible" });
  ok(!(await page.locator("#loading").isVisible()), "it still says that it is loading");
  ok(/could not start/.test(await message.innerText()), "the message does not say what is wrong");
  equal(await stated(page), app, "what the static page states");
  none(await styled(page));
}

async function appStates(open) {
  const bench = await open();
  const app = await stated(bench.page);
  ok(!(await bench.page.locator("#no-wasm").isVisible()), "a page that works says that it could not start");
  ok((await bench.page.locator("#loading").count()) === 0, "a page that works says that it is loading");
  return app;
}

export default {
  "without JavaScript": async ({ visit, open, site }) => {
    const app = await appStates(open);
    // With scripts off Chromium gives up on the preloaded module, and calls that the policy's doing; of
    // the program, which nobody uses then, it says so if the look at it takes more than seconds.
    const page = await visit({ script: false, width: 360, height: 740, expected: [/^failed: .*\.js csp$/, /preloaded using link preload but not used/] });
    await page.goto(site.byNumber);
    const { equation, headings, ...numbers } = app;
    equal(await seen(page), numbers, "what the static page states");
    none(await styled(page));
    ok(/needs JavaScript/.test(await page.locator("noscript").innerText()), "nothing says that JavaScript is needed");
    ok(!(await page.locator("#loading").isVisible()), "it says that it is loading, and never will be done");
    await page.screenshot({ path: "target/screens/first-paint-360x740.png" });
  },

  "before the WebAssembly arrives": async ({ visit, open, site }) => {
    const app = await appStates(open);
    const page = await visit();
    let release;
    const held = new Promise((resolve) => (release = resolve));
    await page.route("**/*.wasm", async (route) => {
      await held;
      await route.continue();
    });
    await page.goto(site.byNumber, { waitUntil: "commit" });
    await page.locator("#loading").waitFor({ state: "visible" });
    equal(await stated(page), app, "what the static page states");
    equal(app.ph, app.pka, "pH and pKa, which the static page calls equal");
    none(await styled(page));
    ok(!(await page.locator("#no-wasm").isVisible()), "it says that it could not start while it still may");
    // Amount and name are two words, on whatever line they stand.
    const head = await page.locator(".pan-heads .acid").innerText();
    ok(!/mmol(?=\S)/.test(head), `an amount runs into a name: ${JSON.stringify(head)}`);
    await page.screenshot({ path: "target/screens/first-paint-1280x800.png" });
    release();
    const bench = await Bench.on(page);
    equal(await stated(bench.page), app, "what the application states in its place");
  },

  "it fits before the WebAssembly arrives": async ({ visit, site }) => {
    const problems = [];
    for (const [width, height] of [[320, 640], [360, 740], [800, 600], [1280, 800]]) {
      const page = await visit({ width, height });
      await page.route("**/*.wasm", () => {});
      await page.goto(site.byNumber, { waitUntil: "commit" });
      await page.locator("#loading").waitFor({ state: "visible" });
      await page.waitForFunction(() => document.styleSheets.length >= 1);
      problems.push(...(await page.evaluate(misfits)).map((line) => `${width} × ${height}: ${line}`));
    }
    none(problems);
  },

  "its files do not arrive": async ({ visit, open, site }) => {
    const app = await appStates(open);
    // The browser's own word for a missing file, and the error that boot.js hands on.
    const expected = [/Failed to load resource/, /^failed: .*\.wasm/, /TypeError: Failed to fetch/];
    const page = await visit({ expected });
    await page.route("**/*.wasm", (route) => route.abort());
    await page.goto(site.byNumber);
    await stopped(page, app);
    await page.screenshot({ path: "target/screens/could-not-start-1280x800.png" });
  },

  "what reads a lesson's link does not arrive": async ({ visit, open, site }) => {
    const app = await appStates(open);
    const expected = [/Failed to load resource/, /^failed: .*linked.*\.wasm/, /TypeError: Failed to fetch/];
    const page = await visit({ expected });
    await page.route(/split_linked/, (route) => route.abort());
    await page.goto(`${site.byNumber}/?v=1&pair=ethanoic.1`);
    await stopped(page, app);
  },

  "its own scripts do not arrive": async ({ visit, open, site }) => {
    const app = await appStates(open);
    for (const name of ["**/boot*.js", "**/evenkeel*.js"]) {
      const expected = [/Failed to load resource/, /^failed: .*\.js/, /TypeError: Failed to fetch/];
      const page = await visit({ expected: [...expected, /preloaded using link preload but not used/] });
      await page.route(name, (route) => route.abort());
      await page.goto(site.byNumber);
      await stopped(page, app);
    }
  },

  "a browser without WebAssembly": async ({ visit, open, site }) => {
    const app = await appStates(open);
    const expected = [/ReferenceError: WebAssembly is not defined/, /preloaded using link preload but not used/];
    const page = await visit({ expected, before: [() => delete globalThis.WebAssembly] });
    await page.goto(site.byNumber);
    await stopped(page, app);
  },

  "a browser without modules": async ({ visit, open, site }) => {
    const app = await appStates(open);
    const page = await visit({ before: [() => delete HTMLScriptElement.prototype.noModule], expected: [/preloaded/] });
    // Such a browser does not fetch what it does not know.
    await page.route("**/{boot,evenkeel}*", (route) => route.fulfill({ body: "", contentType: "text/javascript" }));
    await page.goto(site.byNumber);
    await stopped(page, app);
  },
};
