// The lesson's file: the whole page in one HTML file, opened as people open one.

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { Bench } from "./bench.mjs";
import { equal, ok } from "./expect.mjs";
import { serve } from "./server.mjs";

/** Broken copies are written here. */
const FOLDER = "target/files";
const name = (folder) => `${folder}/lesson-file.html`;

/** An address may be opened from the disk; nothing else may be asked for. */
const FROM_DISK = ["null"];

/** A file with `html` in it; its address. */
function written(html, as) {
  mkdirSync(FOLDER, { recursive: true });
  writeFileSync(`${FOLDER}/${as}`, html);
  return pathToFileURL(`${FOLDER}/${as}`).href;
}

/** Opens `address` without a network; hands over the page and all requests that it makes. */
async function opened(visit, address, options = {}) {
  const page = await visit({ origins: FROM_DISK, ...options });
  await page.context().setOffline(true);
  const requests = [];
  page.on("request", (request) => requests.push(request.url()));
  await page.goto(address);
  return { page, requests };
}

/** That everything there is works: the bench, and the lesson, which the hosted page fetches. */
async function works(bench) {
  await bench.add("acid", "2.0");
  equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
  await bench.panel("Practice");
  await bench.page.getByRole("heading", { name: /^Question/ }).waitFor();
  await bench.panel("Working");
  await bench.page.locator("#panel .step").first().waitFor();
}

/** That the page says it cannot start, and still shows the buffer. */
async function apologizes(page) {
  const said = page.locator("#no-wasm");
  await said.waitFor({ state: "visible" });
  const text = (await said.innerText()).replaceAll(/\s+/g, " ");
  ok(/this file is damaged/.test(text), text);
  ok(/Open it in a current browser, or get the file again\./.test(text), text);
  ok(!/connection|did not arrive/.test(text), `a file does not arrive: ${text}`);
  ok(!(await page.locator("#loading").isVisible()), "it still says that it is loading");
  equal(await page.locator("#ph").innerText(), "4.87", "the pH of the static page");
}

/** A host page on another origin around `source`. */
const host = (source) => `<!doctype html><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,">
<iframe src="${source}" title="Evenkeel" width="900" height="900" sandbox="allow-scripts"></iframe>`;

/** Where the stream stands in the file. */
const stream = (html) => html.indexOf('id="packed"');

export default {
  "opened from the disk without a network it works": async ({ visit, folder }) => {
    const address = pathToFileURL(name(folder)).href;
    const { page, requests } = await opened(visit, address);
    const bench = await Bench.on(page);
    ok(await page.evaluate(() => !navigator.onLine), "the network is still there");
    await works(bench);
    const elsewhere = requests.filter((url) => url !== address && !url.startsWith("data:"));
    equal(elsewhere, [], "requests beside the file itself");
    const fetched = await page.evaluate(() => performance.getEntriesByType("resource").map((r) => r.name).filter((url) => !url.startsWith("data:")));
    equal(fetched, [], "resources beside the file itself");
  },

  "in a sandboxed frame of another site": async ({ visit, site }) => {
    const outside = await serve({ pages: { "/": host(`${site.byName}/lesson-file.html`) } });
    try {
      const page = await visit({ origins: [outside.byNumber, site.byName] });
      await page.goto(outside.byNumber);
      const frame = page.frames()[1];
      Object.defineProperty(frame, "mouse", { value: page.mouse, configurable: true });
      const bench = await Bench.on(frame);
      equal(await frame.evaluate(() => origin), "null", "the frame's origin");
      await works(bench);
    } finally {
      await outside.close();
    }
  },

  "its policy holds for all that is in it": async ({ visit, folder }) => {
    const html = readFileSync(name(folder), "utf8");
    ok(/connect-src 'none'/.test(html) && !/unsafe-inline|'unsafe-eval'/.test(html), "the policy is open");
    // One character more in the script that starts it, and the browser refuses that script.
    const changed = html.replace("const unpack", "const  unpack");
    ok(changed !== html, "nothing was changed");
    const { page } = await opened(visit, written(changed, "changed.html"), { expected: [/Content Security Policy|securitypolicyviolation/] });
    await page.waitForLoadState();
    equal(await page.evaluate(() => [typeof cannotStart, document.documentElement.dataset.boot ?? "nothing"]), ["function", "nothing"], "what ran");
  },

  "other line ends do no harm": async ({ visit, folder }) => {
    const html = readFileSync(name(folder), "utf8").replaceAll("\n", "\r\n");
    const { page } = await opened(visit, written(html, "line-ends.html"));
    await works(await Bench.on(page));
  },

  "cut short or damaged it says so": async ({ visit, folder }) => {
    const html = readFileSync(name(folder), "utf8");
    const middle = Math.round((stream(html) + html.length) / 2);
    const digit = /[!-~]/.exec(html.slice(middle));
    const at = middle + digit.index;
    const broken = {
      "cut.html": html.slice(0, middle),
      "short.html": html.slice(0, middle) + html.slice(middle + 4000),
      "changed-digit.html": html.slice(0, at) + (html[at] === "A" ? "B" : "A") + html.slice(at + 1),
    };
    for (const [as, text] of Object.entries(broken)) {
      const { page } = await opened(visit, written(text, as), { expected: [/not whole|file is damaged/] });
      await apologizes(page);
    }
  },

  "a browser that lacks what it takes says so": async ({ visit, folder }) => {
    const lacking = () => { delete window.WebAssembly; };
    const { page } = await opened(visit, pathToFileURL(name(folder)).href, { before: [lacking], expected: [/ReferenceError/] });
    await apologizes(page);
  },

  "without script it is the static page, with its style": async ({ visit, folder }) => {
    const { page } = await opened(visit, pathToFileURL(name(folder)).href, { script: false });
    equal(await page.locator("#ph").innerText(), "4.87", "the pH of the static page");
    ok(/needs JavaScript/.test(await page.locator("noscript").innerText()), "nothing says that JavaScript is needed");
    ok(!(await page.locator("#packed").isVisible()), "the stream is shown as text");
    const corner = await page.locator(".card").first().evaluate((card) => getComputedStyle(card).borderTopLeftRadius);
    ok(corner !== "0px", "the style is not there before the program is");
  },
};
