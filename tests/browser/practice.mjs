// Practice as a learner goes through it. The numbers typed are worked out here, from the words of
// the question, by the definition of pH and the Ka expression (common practice, no source).

import { equal, far, none, ok } from "./expect.mjs";
import { BUFFER, Lesson, SAME_QUESTIONS, TWO_CONCENTRATIONS, WHOLE, acidWithAlkali, hydrogen, twoConcentrations, twoDecimals } from "./lesson.mjs";

const PART = "Work out pH from a weak acid and strong alkali";

/** A question about two concentrations, sorted and ready for its lines. */
async function ready(lesson) {
  const data = await lesson.find(twoConcentrations);
  await lesson.sort(BUFFER);
  return data;
}

async function opened(open, options = {}) {
  const lesson = await Lesson.practice(await open({ ...SAME_QUESTIONS, ...options }));
  await lesson.choose(TWO_CONCENTRATIONS, WHOLE);
  return lesson;
}

/** The places of the lines whose names are such. */
async function places(lesson, kinds) {
  const names = await lesson.panel.locator(".line label:visible").allInnerTexts();
  const found = kinds.map((kind) => names.findIndex((name) => kind.test(name)));
  ok(found.every((place) => place >= 0), `lines: ${names}`);
  return found;
}

export default {
  "a right answer": async ({ open }) => {
    const lesson = await opened(open);
    const data = await ready(lesson);
    await lesson.line(1).fill(twoDecimals(-Math.log10(hydrogen(data))));
    await lesson.check();
    ok(/^Right\. First try: (\d) of \1 marks\.$/.test(await lesson.status()), `said: ${await lesson.status()}`);
    ok(await lesson.button("Next question").isVisible(), "nothing leads on");
    ok(await lesson.panel.getByText("Does it make sense?").isVisible(), "the layout is not shown");
  },

  "three usual slips, each told by its number": async ({ open }) => {
    const lesson = await opened(open);
    const slips = [
      [({ ka, acid, base }) => -Math.log10((ka * base) / acid), /the ratio of the two forms is upside down/],
      [(data) => Math.log10(hydrogen(data)), /the minus sign of −log is left out/],
      [(data) => -Math.log(hydrogen(data)), /the natural logarithm \(ln\) is used/],
    ];
    for (const [wrong, reason] of slips) {
      const data = await ready(lesson);
      const typed = twoDecimals(wrong(data));
      await lesson.line(1).fill(typed);
      await lesson.check();
      const said = await lesson.says(1);
      ok(said.startsWith(`${typed} is what you get if `), `${typed}: ${said}`);
      ok(reason.test(said), `${typed}: ${said}`);
      ok(said.endsWith("?"), `no question back: ${said}`);
      equal(await lesson.line(1).getAttribute("aria-invalid"), "true", "a wrong line");
      // Nothing typed is lost, and one retry is free.
      equal(await lesson.line(1).inputValue(), typed, "what was typed");
      await lesson.line(1).fill(twoDecimals(-Math.log10(hydrogen(data))));
      await lesson.check();
      ok((await lesson.status()).startsWith("Right in the end."), `after the retry: ${await lesson.status()}`);
      await lesson.press("Next question");
    }
  },

  "a number from nowhere": async ({ open }) => {
    const lesson = await opened(open);
    await ready(lesson);
    await lesson.line(1).fill("1.11");
    await lesson.check();
    ok((await lesson.says(1)).startsWith("No usual slip leads to 1.11."), await lesson.says(1));
  },

  "junk costs nothing": async ({ open }) => {
    const lesson = await opened(open);
    const data = await ready(lesson);
    for (const junk of ["abc", "4,7,6", "4.7.6", "1e999", "٣", "🧪", "-", "<b>4</b>", "9".repeat(3000)]) {
      await lesson.line(1).fill(junk);
      await lesson.check();
      const said = await lesson.says(1);
      ok(/This cost nothing|No usual slip/.test(said), `${junk.slice(0, 20)}: ${said}`);
      equal(await lesson.line(1).inputValue(), junk, "what was typed");
      if (/No usual slip/.test(said)) throw new Error(`${junk.slice(0, 20)} was taken for a number`);
    }
    await lesson.line(1).fill("");
    await lesson.check();
    equal(await lesson.says(1), "", "said about an empty line");
    await lesson.line(1).fill(twoDecimals(-Math.log10(hydrogen(data))).replace(".", ","));
    await lesson.check();
    ok(/^Right\. First try: (\d) of \1 marks\.$/.test(await lesson.status()), `after junk, with a comma: ${await lesson.status()}`);
  },

  "an early slip loses only its own mark": async ({ open }) => {
    const lesson = await Lesson.practice(await open(SAME_QUESTIONS));
    await lesson.choose(PART, WHOLE);
    const { ka, acid, alkali } = await lesson.find(acidWithAlkali);
    await lesson.sort(BUFFER);
    const [left, made, ph] = await places(lesson, [/^n\(HA\).*after/, /^n\(A−\).*after/, /^pH/]);
    // The acid from before the reaction kept: [H⁺] = Ka n(HA, start) / n(OH⁻).
    await lesson.line(left).fill(acid.toFixed(3));
    await lesson.line(made).fill(alkali.toFixed(3));
    await lesson.line(ph).fill(twoDecimals(-Math.log10((ka * acid) / alkali)));
    await lesson.check();
    ok(/the amount from before the reaction is kept/.test(await lesson.says(left)), `n(HA): ${await lesson.says(left)}`);
    equal(await lesson.says(made), "✓ Right.", "said about a right line");
    ok(/^✓ Right from your own numbers above/.test(await lesson.says(ph)), `pH: ${await lesson.says(ph)}`);
  },

  "amounts typed in mol, right and by a slip": async ({ open }) => {
    const lesson = await Lesson.practice(await open(SAME_QUESTIONS));
    await lesson.choose(PART, WHOLE);
    const { ka, acid, alkali } = await lesson.find(acidWithAlkali);
    await lesson.sort(BUFFER);
    const [start, strong, left, made, ph] = await places(lesson, [/^n\(HA\).*before/, /^n\(OH−\)/, /^n\(HA\).*after/, /^n\(A−\).*after/, /^pH/]);
    await lesson.line(start).fill((acid / 1000).toFixed(5));
    await lesson.line(strong).fill(`${alkali.toFixed(2)}x10^-3`);
    // The alkali added to the acid's amount.
    await lesson.line(left).fill(((acid + alkali) / 1000).toFixed(5));
    await lesson.line(made).fill((alkali / 1000).toFixed(5));
    await lesson.line(ph).fill(twoDecimals(-Math.log10((ka * (acid + alkali)) / alkali)));
    await lesson.check();
    for (const right of [start, strong, made]) equal(await lesson.says(right), "✓ Right.", `said about line ${right}`);
    ok(/the alkali is added to the amount of acid/.test(await lesson.says(left)), await lesson.says(left));
    ok(/^✓ Right from your own numbers above/.test(await lesson.says(ph)), await lesson.says(ph));
  },

  "one retry, one step shown, then the layout": async ({ open }) => {
    const lesson = await opened(open);
    await ready(lesson);
    const lines = () => lesson.panel.locator(".entry:visible").count();
    equal(await lines(), 2, "lines to fill in");
    for (const [place, wrong] of [[0, "1"], [0, "2"]]) {
      await lesson.line(place).fill(wrong);
      await lesson.check();
    }
    equal(await lines(), 1, "lines left after a second wrong try");
    ok(/One line is shown now/.test(await lesson.status()), await lesson.status());
    ok(await lesson.panel.locator(".line [role=math]").first().isVisible(), "the line is not shown worked");
    await lesson.line(1).fill("1.11");
    await lesson.check();
    ok(/whole layout/.test(await lesson.status()), await lesson.status());
    equal(await lines(), 0, "lines left after the third");
  },

  "three levels": async ({ open }) => {
    const lesson = await Lesson.practice(await open(SAME_QUESTIONS));
    const asked = [];
    for (const level of ["Worked example: finish the last line", "Missing steps: the formulas are there", WHOLE]) {
      await lesson.choose(PART, level);
      await lesson.find(acidWithAlkali);
      await lesson.sort(BUFFER);
      const open = await lesson.panel.locator(".entry:visible").count();
      const formulas = await lesson.panel.locator(".line:visible:has(.entry:visible) [role=math]").count();
      asked.push([open, formulas]);
    }
    const [[example], [missing, shown], [whole, none]] = asked;
    equal(example, 1, "lines left of a worked example");
    ok(missing > 1 && missing < whole, `lines of missing steps: ${missing} of ${whole}`);
    equal([shown, none], [missing, 0], "formulas beside open lines");
  },

  "on a phone, with the page's own keys": async ({ open }) => {
    const lesson = await opened(open, { width: 360, height: 740, touch: true });
    const data = await ready(lesson);
    const h = hydrogen(data);
    const power = Math.floor(Math.log10(h));
    const digits = (h / 10 ** power).toFixed(2);
    const keys = lesson.panel.locator(".line").nth(0).getByRole("group", { name: "Keys" });
    const line = lesson.line(0);
    await line.pressSequentially(digits.split(".")[0]);
    await keys.getByRole("button", { name: "decimal point" }).tap();
    await line.pressSequentially(digits.split(".")[1]);
    await keys.getByRole("button", { name: "×10, times ten to the power" }).tap();
    await keys.getByRole("button", { name: "minus" }).tap();
    await line.pressSequentially(String(-power));
    equal(await line.inputValue(), `${digits}×10−${-power}`, "typed by keys");
    // A key goes in where the cursor is.
    await line.evaluate((input) => input.setSelectionRange(1, 2));
    await keys.getByRole("button", { name: "decimal comma" }).tap();
    equal(await line.inputValue(), `${digits.replace(".", ",")}×10−${-power}`, "a comma for the point");
    await lesson.line(1).fill(twoDecimals(-Math.log10(h)));
    await lesson.button("Check").tap();
    await lesson.bench.settle();
    ok(/^Right\. First try: (\d) of \1 marks\.$/.test(await lesson.status()), await lesson.status());
    await lesson.button("Next question").tap();
    await lesson.page.waitForFunction(() => {
      const { top } = document.getElementById("question").getBoundingClientRect();
      return top >= 0 && top < innerHeight / 2;
    });
  },

  "a question's mixture on the bench and back": async ({ open }) => {
    const lesson = await Lesson.practice(await open(SAME_QUESTIONS));
    await lesson.choose(PART, WHOLE);
    const { ka, acid, alkali } = await lesson.find(acidWithAlkali);
    await lesson.sort(BUFFER);
    await lesson.press("Show the layout");
    await lesson.press("Put this mixture on the bench");
    const { texts } = await lesson.bench.read();
    // To three figures, as the page writes it.
    none(far(parseFloat(texts.acidAmount), acid - alkali, 0.0501, "HA on the bench"));
    const ph = -Math.log10((ka * (acid - alkali)) / alkali);
    ok(Math.abs(Number(texts.ph) - ph) < 0.02, `pH ${texts.ph} on the bench, ${ph.toFixed(3)} by the short form`);
    ok(await lesson.button("Next question").isVisible(), "the question is gone");
    await lesson.bench.undo();
    equal((await lesson.bench.read()).texts.acidAmount, "10.0 mmol", "HA after an undo");
  },

  "the same series gives the same questions": async ({ open }) => {
    const texts = [];
    for (let visit = 0; visit < 2; visit += 1) {
      const lesson = await Lesson.practice(await open(SAME_QUESTIONS));
      texts.push(await lesson.question());
    }
    equal(texts[0], texts[1], "the first question of a series");
    const other = await Lesson.practice(await open());
    const third = await Lesson.practice(await open());
    ok((await other.question()) !== (await third.question()), "two visits got one series");
  },

  "an explanation, clause by clause": async ({ open }) => {
    const lesson = await Lesson.practice(await open(SAME_QUESTIONS));
    await lesson.press("Explain");
    const pick = (clause) => lesson.panel.getByLabel(clause, { exact: true }).check();
    await pick("The salt supplies plenty of A−.");
    await pick("A− + H+ → HA");
    await pick("Every last ion that was added is removed.");
    await pick("So the pH stays constant.");
    await lesson.check();
    equal(await lesson.status(), "2 of 4 clauses have their mark. Put the others right and check again.", "marks");
    const said = await lesson.panel.locator(".says").allInnerTexts();
    equal(said.map((text) => text[0]), ["✓", "✓", "✗", "✗"], "clause by clause");
    ok(said[3].includes("earns no mark"), said[3]);
    await pick("Nearly all of what was added is removed.");
    await pick("The ratio n(A−)/n(HA) changes little, and with it [H+] and the pH.");
    await lesson.check();
    ok((await lesson.status()).startsWith("4 of 4"), await lesson.status());
    ok((await lesson.panel.locator(".whole").innerText()).startsWith("The salt supplies plenty of A− . A−".replace(" .", ".")), "the whole explanation is not shown");
    await lesson.press("Another explanation");
    ok(/strong alkali/.test(await lesson.panel.locator("#explain").innerText()), "no other explanation");
  },
};
