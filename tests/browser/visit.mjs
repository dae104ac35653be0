// A browser window that tells on the page: every word of complaint on the console, every broken
// rule of the policy, every request that goes elsewhere or is more than a GET.

import { chromium } from "playwright-core";
import { execFileSync } from "node:child_process";
import { leaveOnceLanded } from "./landing.mjs";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

function browserPath() {
  if (process.env.EVENKEEL_BROWSER) return process.env.EVENKEEL_BROWSER;
  for (const name of NAMES) {
    try {
      return execFileSync("sh", ["-c", `command -v ${name}`], { encoding: "utf8" }).trim();
    } catch {
      // Not this one.
    }
  }
  throw new Error(`no browser on PATH: ${NAMES.join(", ")}`);
}

/** Starts the browser; `more` are options of Playwright's. */
export function launch(more = {}) {
  return chromium.launch({
    ...more,
    executablePath: browserPath(),
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

/** The browser asks for a page's icon by itself, at a time of its own, and gives up on it when the page is left. */
const ICON_LEFT = /^failed: .*\/icon-[0-9a-f]+\.svg net::ERR_ABORTED$/;

/** Puts a broken policy on the console of any frame, where the listeners below hear it. */
function reportViolations() {
  document.addEventListener("securitypolicyviolation", (e) => {
    console.error(`securitypolicyviolation ${e.violatedDirective} ${e.blockedURI} ${e.sourceFile}:${e.lineNumber}`);
  });
}

/**
 * Opens a window. Options: `width`, `height`, `ratio` (dots to a CSS pixel), `dark`, `reduced`, `forced` (the reader's own colors),
 * `text` (the reader's own size of text, in pixels; 16 is usual), `touch`, `script: false`,
 * `before` (functions to run before the page's own scripts), `expected` (patterns of
 * complaints that this visit provokes on purpose), `origins` (those that may be asked),
 * `worker: false` (a browser that has no workers, and so keeps no copy of the page).
 */
export async function openWindow(browser, origins, options = {}) {
  const { width = 1280, height = 800, expected = [] } = options;
  const context = await browser.newContext({
    viewport: { width, height },
    deviceScaleFactor: options.ratio ?? 1,
    colorScheme: options.dark ? "dark" : "light",
    reducedMotion: options.reduced ? "reduce" : "no-preference",
    forcedColors: options.forced ? "active" : "none",
    hasTouch: options.touch ?? false,
    javaScriptEnabled: options.script ?? true,
  });
  // Only a page that never gets there waits so long, however busy the computer is.
  context.setDefaultTimeout(120_000);
  await context.addInitScript(reportViolations);
  if (options.worker === false) await context.addInitScript(() => delete Navigator.prototype.serviceWorker);
  for (const script of options.before ?? []) await context.addInitScript(script);
  const complaints = [];
  const complain = (text) => {
    if (![ICON_LEFT, ...expected].some((pattern) => pattern.test(text))) complaints.push(text);
  };
  const page = await context.newPage();
  // Without scripts a page has no turns, and asks for nothing by itself.
  if (options.script ?? true) leaveOnceLanded(page);
  if (options.text) {
    const session = await context.newCDPSession(page);
    await session.send("Page.setFontSizes", { fontSizes: { standard: options.text, fixed: options.text } });
  }
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) complain(`console ${message.type()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => complain(`uncaught: ${error.message}`));
  page.on("requestfailed", (request) => complain(`failed: ${request.url()} ${request.failure()?.errorText}`));
  page.on("response", (response) => {
    if (response.status() >= 400) complain(`status ${response.status()}: ${response.url()}`);
  });
  // Also those of other windows and of workers.
  context.on("request", (request) => {
    const url = new URL(request.url());
    if (request.method() !== "GET") complain(`a ${request.method()} request: ${url}`);
    if (url.protocol !== "data:" && !origins.includes(url.origin)) complain(`a request elsewhere: ${url}`);
  });
  return { context, page, complaints };
}
