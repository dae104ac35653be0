// Chromium as a touch screen, driven by Playwright: the other engines' way through the page with a
// finger. Everything that only Chromium can show (no motion, forced colors, a worker) is a check in
// the folder above.

import { mkdir } from "node:fs/promises";
import { dirname } from "node:path";
import { launch } from "../visit.mjs";
import { until } from "../expect.mjs";
import { Engine, find, watch } from "./engine.mjs";

/** Keys as WebDriver writes them, in Playwright's words. */
const KEYS = { "\uE004": "Tab" };

export class Chromium extends Engine {
  static title = "Chromium, by touch";

  async start({ host, port }) {
    this.browser = await launch({ proxy: { server: `http://${host}:${port}`, bypass: "127.0.0.1,localhost" } });
    this.version = this.browser.version();
    this.context = await this.browser.newContext({
      viewport: { width: this.width, height: this.height },
      colorScheme: this.dark ? "dark" : "light",
      hasTouch: true,
    });
    await this.context.addInitScript(watch);
    this.page = await this.context.newPage();
    this.page.on("pageerror", ({ message }) => this.heard.push(`uncaught: ${message}`));
    this.page.on("requestfailed", (request) => this.heard.push(`failed: ${request.url()} ${request.failure()?.errorText}`));
    this.touch = await this.context.newCDPSession(this.page);
    this.frame = this.page.mainFrame();
  }

  async goto(url) {
    await this.collect();
    await this.page.goto(url, { waitUntil: "commit" });
    await until(() => this.evaluate(() => !!document.body).catch(() => false), Boolean, `${url} is opened`);
  }

  /** A function, or the text of one. */
  evaluate(body, argument = null) {
    return this.frame.evaluate(typeof body === "string" ? `(${body})(${JSON.stringify(argument)})` : body, argument);
  }

  find(what) {
    return until(() => this.seen(what), Boolean, `in sight: ${JSON.stringify(what)}`);
  }

  async isThere(what) {
    return (await this.seen(what)) !== null;
  }

  async seen(what) {
    return (await this.frame.evaluateHandle(find, what)).asElement();
  }

  async reach(what) {
    const node = await this.find(what);
    await node.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
    await this.settle();
    return node;
  }

  /** Where a finger meets an element: its middle, or that of its first line. */
  async place(node) {
    const { x, y, width, height } = await node.evaluate((element) => {
      const { x, y, width, height } = element.getClientRects()[0];
      return { x, y, width, height };
    });
    const frame = this.frame === this.page.mainFrame() ? { x: 0, y: 0 } : await (await this.frame.frameElement()).boundingBox();
    return { x: frame.x + x + width / 2, y: frame.y + y + height / 2 };
  }

  async click(what) {
    const { x, y } = await this.place(await this.reach(what));
    await this.page.touchscreen.tap(x, y);
    await this.settle();
  }

  async type(what, text) {
    const node = await this.reach(what);
    const { x, y } = await this.place(node);
    await this.page.touchscreen.tap(x, y);
    await node.selectText();
    await this.page.keyboard.press("Delete");
    await this.page.keyboard.type(text);
    await this.settle();
  }

  async press(...keys) {
    for (const key of keys) await this.page.keyboard.press(KEYS[key] ?? key);
    await this.settle();
  }

  async hold(what, probe, enough, saying) {
    const point = await this.place(await this.reach(what));
    const send = (type, touchPoints) => this.touch.send("Input.dispatchTouchEvent", { type, touchPoints });
    await send("touchStart", [point]);
    try {
      await until(probe, enough, saying);
    } finally {
      await send("touchEnd", []);
    }
    await this.settle();
  }

  async into(what) {
    this.frame = await (await this.find(what)).contentFrame();
    await until(() => this.evaluate(() => !!document.body).catch(() => false), Boolean, "the frame's document");
  }

  async out() {
    await this.collect();
    this.frame = this.page.mainFrame();
  }

  async screenshot(path) {
    await mkdir(dirname(path), { recursive: true });
    return this.page.screenshot({ path });
  }

  async stop() {
    await this.browser?.close();
  }
}
