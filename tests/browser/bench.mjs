// The page as a person uses it: verbs.

import { ok, until } from "./expect.mjs";
import { shown } from "./frames.mjs";
import { readBench } from "./reading.mjs";

const quoted = (text) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

export class Bench {
  /** `page` may be a window or a frame in one. */
  constructor(page) {
    this.page = page;
  }

  /** The bench of a page that has come alive, with its panels: without, if they are held back. */
  static async on(page, { panels = true } = {}) {
    const bench = new Bench(page);
    await page.getByRole("button", { name: /^Add .* of acid$/ }).first().waitFor();
    if (panels) await bench.fetched();
    await bench.settle();
    return bench;
  }

  /** Waits for the panels that a hosted page fetches once its first screen is there; a file has them. */
  async fetched() {
    const there = () => !document.querySelector("link[type='application/wasm']") || performance.getEntriesByType("resource").some((r) => /split_beside/.test(r.name) && r.responseEnd > 0);
    await this.page.waitForFunction(there);
    await this.page.locator(".arriving").waitFor({ state: "detached" });
  }

  /** Lets what was done reach the screen. */
  async settle() {
    await this.page.evaluate(shown);
  }

  async read() {
    await this.settle();
    return readBench(this.page);
  }

  button(name) {
    return this.page.getByRole("button", { name, exact: true });
  }

  /** The button that adds `amount` ("0.5") of `reagent` ("acid" or "alkali"). */
  dose(reagent, amount) {
    return this.page.getByRole("button", { name: new RegExp(`^Add ${quoted(amount)} \\S+ of ${reagent}$`) });
  }

  /** Amounts on the three buttons of a reagent, as written. */
  async sizes(reagent) {
    const buttons = await this.page.getByRole("button", { name: new RegExp(`^Add .* of ${reagent}$`) }).all();
    return Promise.all(buttons.map((button) => button.innerText()));
  }

  async add(reagent, amount, times = 1) {
    for (let i = 0; i < times; i += 1) await this.dose(reagent, amount).click();
    await this.settle();
  }

  /** Holds a button down until the bench is as `enough` wants it, then lets go. */
  async pourUntil(reagent, amount, enough, what) {
    const button = this.dose(reagent, amount);
    await button.scrollIntoViewIfNeeded();
    await button.hover();
    await this.page.mouse.down();
    try {
      await until(() => this.read(), enough, what);
    } finally {
      await this.page.mouse.up();
    }
    await this.settle();
  }

  /** Pours until `count` free ions are drawn. */
  async exhaust(reagent, amount, count = 20) {
    const ion = reagent === "acid" ? "H⁺" : "OH⁻";
    const seen = ({ legend }) => legend.ion === ion && legend.drawn?.count >= count;
    await this.pourUntil(reagent, amount, seen, `free ${ion} drawn`);
  }

  async press(name) {
    await this.button(name).click();
    await this.settle();
  }

  undo = () => this.press("Undo");
  redo = () => this.press("Redo");
  startAgain = () => this.press("Start again");

  /** Opens a panel by its tab; a wide screen shows the curve without one. */
  async panel(name) {
    const tab = this.page.getByRole("navigation", { name: "Panels" }).getByRole("button", { name, exact: true });
    if (await tab.isVisible()) await tab.click();
    else ok(name === "Curve", `no tab ${name}`);
    await this.settle();
  }

  async pairs() {
    return this.page.getByLabel("Conjugate pair").locator("option").allInnerTexts();
  }

  async choosePair(label) {
    await this.page.getByLabel("Conjugate pair").selectOption({ label });
    await this.settle();
  }

  /** The field called `label` ("Concentration", "Volume") of the solution called `solution`. */
  field(solution, label) {
    return this.page.getByRole("group", { name: solution }).getByLabel(label);
  }

  /** What the canvas shows, as a number that changes with any pixel, and how many colors. */
  async picture() {
    return this.page.evaluate(() => {
      const canvas = document.querySelector("canvas[role=img]");
      const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext("2d", { willReadFrequently: true });
      for (const layer of document.querySelectorAll(".canvas-box canvas")) copy.drawImage(layer, 0, 0);
      const words = new Uint32Array(copy.getImageData(0, 0, canvas.width, canvas.height).data.buffer);
      let hash = 2166136261;
      const colors = new Map();
      for (const word of words) {
        hash = Math.imul(hash ^ word, 16777619) >>> 0;
        colors.set(word, (colors.get(word) ?? 0) + 1);
      }
      return { hash, colors: colors.size, painted: 1 - (colors.get(0) ?? 0) / words.length };
    });
  }

  /** A hold of what the canvas shows: its colors as they are seen on white. */
  async pixels() {
    return this.page.evaluateHandle(() => {
      const canvas = document.querySelector("canvas[role=img]");
      const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext("2d", { willReadFrequently: true });
      copy.fillStyle = "white";
      copy.fillRect(0, 0, canvas.width, canvas.height);
      for (const layer of document.querySelectorAll(".canvas-box canvas")) copy.drawImage(layer, 0, 0);
      return copy.getImageData(0, 0, canvas.width, canvas.height);
    });
  }

  /** How far two of these are apart at most, in levels of 255. */
  async apart(one, other) {
    return this.page.evaluate(
      ([a, b]) => (a.width === b.width && a.height === b.height ? a.data.reduce((most, level, at) => Math.max(most, Math.abs(level - b.data[at])), 0) : Infinity),
      [one, other],
    );
  }
}
