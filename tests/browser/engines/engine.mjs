// A browser as the engines' checks use it: a small set of operations, in the terms of WebDriver
// (W3C Recommendation), so that whatever speaks it serves. An engine brings start, command and stop.

import { mkdir, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import { until } from "../expect.mjs";
import { shown } from "../frames.mjs";

/** The key under which WebDriver names an element (its chapter on elements). */
const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";
export const idOf = (node) => node[ELEMENT];

/** Only a page that never gets there waits so long. */
const LONGEST = 60_000;

/** Keys as WebDriver writes them (its table of normalised keys). */
export const TAB = "\uE004";

/** Runs in the page: writes down whatever it complains of from now on. */
export function watch() {
  if (window.complaints) return;
  const complaints = (window.complaints = []);
  addEventListener("error", ({ message, target }) => complaints.push(message ? `uncaught: ${message}` : `did not load: ${target.src ?? target.href}`), true);
  addEventListener("unhandledrejection", ({ reason }) => complaints.push(`unhandled: ${reason}`));
  document.addEventListener("securitypolicyviolation", (e) => complaints.push(`securitypolicyviolation ${e.violatedDirective} ${e.blockedURI}`));
  for (const kind of ["error", "warn"]) {
    const say = console[kind].bind(console);
    console[kind] = (...words) => {
      complaints.push(`console ${kind}: ${words.join(" ")}`);
      say(...words);
    };
  }
}

/**
 * Runs in the page: the first element in sight that fits. `css`, or `role` with `name`, which is a
 * text or, between slashes, a pattern; `inside` narrows to what is in another element.
 */
export function find({ css, role, name, inside }) {
  const roles = {
    button: "button",
    field: "input:not([type=checkbox], [type=radio]), select, textarea",
    heading: "h1, h2, h3",
    summary: "summary",
    choice: "input[type=radio], input[type=checkbox]",
  };
  const called = (node) => node.getAttribute("aria-label") ?? (node.labels?.length ? node.labels[0].innerText : node.innerText);
  const pattern = /^\/(.*)\/$/s.exec(name ?? "")?.[1];
  const fits = (text) => (pattern === undefined ? text === name : new RegExp(pattern).test(text));
  const places = inside === undefined ? [document] : [...document.querySelectorAll(inside)];
  const shows = (node) => node.checkVisibility({ visibilityProperty: true }) && node.getClientRects().length > 0;
  for (const place of places) {
    for (const node of place.querySelectorAll(css ?? roles[role])) {
      if (shows(node) && (name === undefined || fits(called(node).replace(/\s+/g, " ").trim()))) return node;
    }
  }
  return null;
}

export class Engine {
  /** What the engine itself has heard; complaints of the page are asked of the page. */
  heard = [];

  /** Window size: the page's own, without what the browser puts around it. */
  constructor({ width, height, dark = false }) {
    Object.assign(this, { width, height, dark });
  }

  /** Opens a window of the right size; `capabilities` are those of the engine. */
  async begin(capabilities) {
    const opened = await this.command("newSession", { capabilities: { alwaysMatch: { pageLoadStrategy: "none", ...capabilities } } });
    this.session = opened.sessionId;
    this.version = opened.capabilities.browserVersion;
    await this.command("setTimeouts", { script: LONGEST, pageLoad: LONGEST, implicit: 0 });
    await this.size();
  }

  async size() {
    const inner = () => this.evaluate(() => [innerWidth, innerHeight, outerWidth, outerHeight]);
    const right = ([w, h]) => w === this.width && h === this.height;
    await until(
      async () => {
        const [w, h, outerWidth, outerHeight] = await inner();
        if (!right([w, h])) await this.command("setWindowRect", { x: 0, y: 0, width: this.width + outerWidth - w, height: this.height + outerHeight - h });
        return inner();
      },
      right,
      `a window of ${this.width} × ${this.height}`,
    );
  }

  /** Goes to `url`; comes back once its document is there, while the rest may still be loading. */
  async goto(url) {
    await this.collect();
    await this.evaluate(() => { window.isLeft = true; });
    await this.command("navigateTo", { url });
    // Between two documents there is nothing to ask.
    await until(() => this.evaluate(() => !window.isLeft && !!document.body && location.href).catch(() => false), (there) => there && there !== "about:blank", `${url} is opened`);
    await this.evaluate(watch);
  }

  /** Fetches from the page what it has complained of. */
  async collect() {
    const said = await this.evaluate(() => (window.complaints ?? []).splice(0)).catch(() => []);
    this.heard.push(...said);
  }

  /** Every complaint since the last time. */
  async complaints() {
    await this.collect();
    return this.heard.splice(0);
  }

  /** Runs a function in the page, or in the frame gone into; what it returns must be plain data. */
  async evaluate(body, argument = null) {
    const script = `const [given, done] = arguments;
      Promise.resolve(given).then(${body}).then((value) => done({ value }), (error) => done({ error: String(error) }));`;
    const { value, error } = await this.command("executeAsync", { script, args: [argument] });
    if (error !== undefined) throw new Error(error);
    return value;
  }

  /** The element that `what` tells of, once it is in sight. */
  async find(what) {
    const script = `return (${find})(arguments[0]);`;
    return until(() => this.command("executeSync", { script, args: [what] }), Boolean, `in sight: ${JSON.stringify(what)}`);
  }

  async isThere(what) {
    return (await this.command("executeSync", { script: `return (${find})(arguments[0]);`, args: [what] })) !== null;
  }

  /** Lets what was done reach the screen. */
  async settle() {
    await this.evaluate(shown);
  }

  /** The element in the middle of the screen, away from what stands fixed at its edges. */
  async reach(what) {
    const node = await this.find(what);
    await this.command("executeSync", { script: 'arguments[0].scrollIntoView({ block: "center", behavior: "instant" });', args: [node] });
    await this.settle();
    return node;
  }

  async click(what) {
    await this.command("elementClick", { id: idOf(await this.reach(what)) });
    await this.settle();
  }

  /** Types `text` over what stands in a field, key by key. */
  async type(what, text) {
    const id = idOf(await this.reach(what));
    await this.command("elementClear", { id });
    await this.command("elementSendKeys", { id, text });
    await this.settle();
  }

  /** Presses keys where the focus is. */
  async press(...keys) {
    const actions = keys.flatMap((value) => [{ type: "keyDown", value }, { type: "keyUp", value }]);
    await this.command("performActions", { actions: [{ type: "key", id: "keyboard", actions }] });
    await this.settle();
  }

  /** Keeps the pointer down on something until `enough` says yes to what `probe` answers. */
  async hold(what, probe, enough, saying) {
    const target = await this.reach(what);
    const actions = [{ type: "pointerMove", origin: target, x: 0, y: 0 }, { type: "pointerDown", button: 0 }];
    await this.command("performActions", { actions: [{ type: "pointer", id: "mouse", actions }] });
    try {
      await until(probe, enough, saying);
    } finally {
      await this.command("performActions", { actions: [{ type: "pointer", id: "mouse", actions: [{ type: "pointerUp", button: 0 }] }] });
    }
    await this.settle();
  }

  /** Goes into a frame of the page, or back out. */
  async into(what) {
    await this.command("switchToFrame", { frame: await this.find(what) });
    await until(() => this.evaluate(() => !!document.body).catch(() => false), Boolean, "the frame's document");
    await this.evaluate(watch);
  }

  async out() {
    await this.collect();
    await this.command("switchToFrame", { frame: null });
  }

  /** Writes what is to be seen to `path`, and hands it over. */
  async screenshot(path) {
    const picture = await this.command("takeScreenshot", {});
    await mkdir(dirname(path), { recursive: true });
    const png = Buffer.from(picture, "base64");
    await writeFile(path, png);
    return png;
  }
}
