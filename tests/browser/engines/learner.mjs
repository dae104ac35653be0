// The page as a learner uses it, in any engine: verbs.

import { until } from "../expect.mjs";
import { readBench } from "../reading.mjs";

const dose = (reagent, amount) => ({ role: "button", name: `/^Add ${amount.replace(".", "\\.")} \\S+ of ${reagent}$/` });

export class Learner {
  constructor(engine) {
    this.engine = engine;
  }

  /** On a page that has come alive. */
  static async on(engine) {
    await engine.find({ role: "button", name: "/^Add .* of acid$/" });
    await engine.settle();
    return new Learner(engine);
  }

  async read() {
    await this.engine.settle();
    return readBench(this.engine);
  }

  async add(reagent, amount) {
    await this.engine.click(dose(reagent, amount));
  }

  /** Holds the button down until free ions are drawn. */
  async exhaust(reagent, amount) {
    const ion = reagent === "acid" ? "H⁺" : "OH⁻";
    const enough = ({ legend }) => legend.ion === ion && legend.drawn?.count >= 20;
    await this.engine.hold(dose(reagent, amount), () => this.read(), enough, `free ${ion} drawn`);
  }

  async press(name) {
    await this.engine.click({ role: "button", name });
  }

  /** Opens a panel by its tab; part of it may have to be fetched. */
  async panel(name) {
    await this.engine.click({ css: ".tabs button", name });
    await this.engine.find({ css: "#panel > .panel" });
    await this.engine.settle();
  }

  async text(css) {
    await this.engine.find({ css });
    return this.engine.evaluate((selector) => document.querySelector(selector).innerText.replace(/[ \t]+/g, " ").trim(), css);
  }

  /** The question's words, with superscripts as such. */
  async question() {
    return this.engine.evaluate(() => {
      const raise = (text) => [...text].map((c) => ({ "−": "⁻", "+": "⁺" })[c] ?? "⁰¹²³⁴⁵⁶⁷⁸⁹"[c] ?? c).join("");
      const written = (node) => {
        if (node.nodeType === Node.TEXT_NODE) return node.data;
        const text = [...node.childNodes].map(written).join("");
        return node.localName === "sup" ? raise(text) : text;
      };
      return written(document.querySelector("#panel .question"));
    });
  }

  /** Hands in `text` as the answer in a line of the question. */
  async answer(place, text) {
    await this.engine.type({ css: `#line-${place}` }, text);
    await this.press("Check");
  }

  says(place) {
    return this.engine.evaluate((id) => document.getElementById(id).innerText, `line-${place}-says`);
  }

  status() {
    return this.engine.evaluate(() => document.querySelector("#panel .stands").innerText);
  }

  /** Opens everything that can be opened in the panel, in turn. */
  async openAll() {
    const closed = { css: "#panel details:not([open]) > summary" };
    const seen = new Set();
    for (;;) {
      const next = await this.engine.evaluate(({ css, seen: names }) => {
        const found = [...document.querySelectorAll(css)].find((s) => s.checkVisibility() && !names.includes(s.innerText));
        return found?.innerText ?? null;
      }, { ...closed, seen: [...seen] });
      if (next === null) return [...seen];
      seen.add(next);
      await this.engine.click({ ...closed, name: next.replace(/\s+/g, " ").trim() });
    }
  }

  /** Waits until the last addition has played out: the picture stands still for a while. */
  async rested() {
    let [last, same] = [null, 0];
    await until(async () => {
      const now = await this.engine.evaluate(() => [...document.querySelectorAll(".canvas-box canvas")].map((layer) => layer.toDataURL()).join());
      same = now === last ? same + 1 : 0;
      last = now;
      return same;
    }, (times) => times > 3, "the particles come to rest");
  }
}
