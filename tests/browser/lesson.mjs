// The lesson's panels as a person uses them: verbs, and the questions read as a person would.

import { until } from "./expect.mjs";

/** The same series of questions in every run; a function to run before the page's own scripts. */
export function sameSeries() {
  Math.random = () => 0.4242;
}

/** Options of a window with that series. */
export const SAME_QUESTIONS = { before: [sameSeries] };

/** What the page calls a kind of question, a level and a mixture. */
export const TWO_CONCENTRATIONS = "Work out pH from two concentrations";
export const WHOLE = "Whole question";
export const BUFFER = "A buffer: a weak acid and its salt";

/** [H⁺] of a mixture of two concentrations, by the Ka expression. */
export const hydrogen = ({ ka, acid, base }) => (ka * acid) / base;

/** A pH as learners write it. */
export const twoDecimals = (ph) => ph.toFixed(2).replace("-", "−");

export class Lesson {
  constructor(bench) {
    this.bench = bench;
    this.page = bench.page;
    this.panel = this.page.locator("#panel");
  }

  /** Practice, opened. */
  static async practice(bench) {
    await bench.panel("Practice");
    const lesson = new Lesson(bench);
    await lesson.panel.getByRole("heading", { name: /^Question/ }).waitFor();
    return lesson;
  }

  button(name) {
    return this.panel.getByRole("button", { name, exact: true });
  }

  async press(name) {
    await this.button(name).click();
    await this.bench.settle();
  }

  /** Chooses a kind of question and how much of it is done. */
  async choose(kind, level) {
    await this.panel.getByText("Choose questions").click();
    await this.panel.getByLabel("Kind of question").selectOption({ label: kind });
    await this.panel.getByLabel("How much is done for you").selectOption({ label: level });
    await this.panel.getByText("Choose questions").click();
    await this.bench.settle();
  }

  /** The question's words, with real superscripts. */
  async question() {
    return this.panel.locator(".question").evaluate((node) => {
      const raise = (text) => [...text].map((c) => ({ "−": "⁻", "+": "⁺" })[c] ?? "⁰¹²³⁴⁵⁶⁷⁸⁹"[c] ?? c).join("");
      const written = (n) => {
        if (n.nodeType === Node.TEXT_NODE) return n.data;
        const text = [...n.childNodes].map(written).join("");
        if (n.localName === "p") return `${text}\n`;
        return n.localName === "sup" ? raise(text) : text;
      };
      return written(node);
    });
  }

  async sort(kind) {
    await this.press(kind);
    await this.panel.locator(".kinds").waitFor({ state: "hidden" });
  }

  line(place) {
    return this.page.locator(`#line-${place}`);
  }

  async says(place) {
    return this.page.locator(`#line-${place}-says`).innerText();
  }

  status() {
    return this.panel.locator(".stands").innerText();
  }

  /** Hands in what stands in the lines. */
  async check() {
    await this.press("Check");
  }

  /** On to the next question, whatever became of this one. */
  async next() {
    const onward = this.button("Next question");
    if (!(await onward.isVisible())) await this.press("Show the layout");
    await this.press("Next question");
  }

  /** The next question that `read` can read, with what it read. */
  async find(read) {
    return until(
      async () => {
        const found = read(await this.question());
        if (!found) await this.skip();
        return found;
      },
      Boolean,
      "a question of this kind",
    );
  }

  async skip() {
    const kinds = this.panel.locator(".kinds button");
    for (let i = 0; i < 2 && (await kinds.first().isVisible()); i += 1) await kinds.nth(3 + i).click();
    await this.bench.settle();
    await this.next();
  }
}

const number = (text) => {
  const [, digits, power = "0"] = text.match(/([\d.]+)(?:×10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?/);
  const plain = [...power].map((c) => (c === "⁻" ? "-" : "⁰¹²³⁴⁵⁶⁷⁸⁹".includes(c) ? "⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(c) : c)).join("");
  return Number(`${digits}e${plain}`);
};

/** A buffer of a weak acid and its salt by their concentrations: Ka, c(HA), c(A⁻). */
export function twoConcentrations(text) {
  const found = text.match(/([\d.]+) mol dm⁻³ \S+ acid and ([\d.]+) mol dm⁻³ /);
  const ka = text.match(/Ka of \S+ acid = ([^ ]+) mol/);
  return found && ka && { ka: number(ka[1]), acid: Number(found[1]), base: Number(found[2]) };
}

/** Any buffer of two solutions: what to call it, and its pH as it is typed. */
export function anyBuffer(text) {
  const found = text.match(/([\d.]+) mol dm⁻³ ([^.]*?) and ([\d.]+) mol dm⁻³ /);
  const ka = text.match(/Ka of .*? = ([^ ]+) mol/);
  if (!found || !ka) throw new Error(`cannot read ${text}`);
  const alkaline = /chloride/.test(found[2]);
  const ph = -Math.log10((number(ka[1]) * Number(found[1])) / Number(found[3]));
  return { kind: `A buffer: a weak ${alkaline ? "base" : "acid"} and its salt`, ph: ph.toFixed(2) };
}

/** A weak acid with less strong alkali: Ka, volumes in cm³ and concentrations. */
export function acidWithAlkali(text) {
  const acid = text.match(/([\d.]+) cm³ of ([\d.]+) mol dm⁻³ \S+ acid/);
  const alkali = text.match(/([\d.]+) cm³ of ([\d.]+) mol dm⁻³ (?:sodium hydroxide|NaOH)/);
  const ka = text.match(/Ka of \S+ acid = ([^ ]+) mol/);
  if (!acid || !alkali || !ka) return null;
  const [a, b] = [acid, alkali].map(([, volume, strength]) => Number(volume) * Number(strength));
  return { ka: number(ka[1]), acid: a, alkali: b };
}

/** Waits until a part of the page that is fetched is there. */
export async function arrived(page) {
  await page.waitForFunction(() => document.querySelector("#panel > .panel"));
}

/** Waits until what prints can: the Lesson panel asks for the printers' style when it is opened. */
export async function prints(page) {
  await page.waitForFunction(() => document.querySelector("link[href*='paper']").sheet);
}

/** Opens every closed part of `panel`. */
export async function openAll(panel) {
  await panel.waitFor();
  const closed = panel.locator("details:not([open]) > summary");
  while (await closed.count()) await closed.first().click();
}

/** Takes a page through the lesson's stages and calls `look` with the name of each. */
export async function stages(bench, look) {
  const { page } = bench;
  const lesson = await Lesson.practice(bench);
  await lesson.choose("Work out pH from a weak acid and strong alkali", "Missing steps: the formulas are there");
  await lesson.find(acidWithAlkali);
  await lesson.sort("A buffer: a weak acid and its salt");
  await look("lines");
  const lines = await lesson.panel.locator(".entry:visible input").all();
  for (const [place, line] of lines.entries()) await line.fill(place === 0 ? "abc" : "1.11");
  await lesson.check();
  await look("wrong");
  await lesson.press("Show the layout");
  for (const step of await lesson.panel.locator(".step").all()) {
    if ((await step.getAttribute("open")) === null) await step.locator("> summary").click();
  }
  await look("layout");
  await lesson.press("Explain");
  await lesson.panel.getByRole("radio").first().check();
  await lesson.check();
  await look("explain");
  await lesson.press("How you stand");
  await look("standing");
  await bench.panel("Lesson");
  await openAll(lesson.panel.locator(".lesson"));
  await look("lesson");
  await bench.panel("Why");
  const guide = page.locator(".guide");
  await page.getByRole("button", { name: /^Show me/ }).click();
  await guide.waitFor();
  await guide.getByRole("button", { name: "Skip this step" }).click();
  await bench.settle();
  await look("predict");
  await guide.getByRole("button", { name: "not at all" }).click();
  await guide.getByRole("button", { name: "Lock it" }).click();
  await bench.add("acid", "0.5");
  await look("compare");
  await guide.getByRole("button", { name: "Close the guide" }).click();
}
