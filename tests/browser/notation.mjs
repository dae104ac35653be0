// A lesson's notation reaches everything that is shown, and fits where the usual one does.

import { equal, none, ok, until } from "./expect.mjs";
import { misfits } from "./geometry.mjs";
import { Lesson, arrived, sameSeries, stages, twoConcentrations } from "./lesson.mjs";

const QUERY = "?v=1&ask=add-acid&n=3&level=whole&seed=4&conc=L&vol=mL&names=systematic&mark=comma&dp=3&ion=H3O&by=log";

/** What the page says, and what a screen reader is told besides. */
function said() {
  const labels = [...document.querySelectorAll("[aria-label]")].map((node) => node.getAttribute("aria-label"));
  return [document.body.innerText, ...labels].join("\n");
}

/** Free H⁺ is nowhere in it: what is handed from one particle to another is a proton still. */
function bare(text) {
  const handed = /(its|gives?( up)?|gave|takes?( up)?|took|taken|exchange of) (the )?H\+|H\+ (only )?passes/g;
  return text.replace(handed, "").match(/.{0,20}(?<![A-Z])H\+.{0,10}/g) ?? [];
}

async function look(bench, name, problems) {
  const { page } = bench;
  const found = [...(await page.evaluate(misfits)), ...bare(await page.evaluate(said)).map((text) => `bare H⁺: ${text}`)];
  if (/\d\.\d/.test(await page.locator(".bench").innerText())) found.push("a decimal point on the bench");
  problems.push(...found.map((line) => `${name}: ${line}`));
  await page.screenshot({ path: `target/screens/notation-${name}.png`, fullPage: true });
}

const at = (width, height) => async ({ open }) => {
  const bench = await open({ width, height, query: QUERY });
  const { page } = bench;
  const problems = [];
  await look(bench, `${width}`, problems);
  await bench.add("acid", "2,0");
  await bench.add("acid", "2,0", 6);
  await look(bench, `${width}-exhausted`, problems);
  await bench.press("Start again");
  await bench.add("acid", "2,0");
  for (const panel of ["Working", "Practice", "Why", "Limits"]) {
    await bench.panel(panel);
    await arrived(page);
    if (panel === "Working") {
      for (const step of await page.locator("#panel .step > summary").all()) {
        await step.click();
        await look(bench, `${width}-working`, problems);
      }
    }
    await look(bench, `${width}-${panel.toLowerCase()}`, problems);
  }
  none(problems);
};

export default {
  "the readout, the equation and the calculation": async ({ open }) => {
    const bench = await open({ query: QUERY });
    const { page } = bench;
    equal((await bench.read()).texts.ph, "4,874", "pH");
    await bench.add("acid", "2,0");
    // A lesson with questions opens at them.
    await page.getByRole("heading", { name: /^Question 1/ }).waitFor();
    await bench.panel("Why");
    const equation = page.locator("#panel .block math").first();
    equal((await equation.textContent()).replace(/\s+/g, ""), "H3O++CH3CH2COO−→CH3CH2COOH+H2O", "the equation under Why");
    equal(await equation.getAttribute("aria-label"), "H 3 O, one plus, plus C H 3 C H 2 C O O, one minus, gives C H 3 C H 2 C O O H, plus H 2 O", "as it is read aloud");
    await bench.panel("Working");
    await page.getByText("As plain text, to copy").click();
    const text = await until(() => page.locator("#panel pre").innerText(), Boolean, "the plain text");
    for (const line of ["pH = pKₐ + log₁₀(n(A⁻)/n(HA))", "H₃O⁺ + CH₃CH₂COO⁻ → CH₃CH₂COOH + H₂O", "= 4,698", "n(H₃O⁺) = 2,00 mmol"]) {
      ok(text.includes(line), `${line} is not in\n${text}`);
    }
    ok(!text.includes("[H₃O⁺] = Kₐ"), text);
  },

  "a question by pKa and the logarithm is marked": async ({ open }) => {
    const bench = await open({ query: "?v=1&ask=conc&n=40&level=whole&seed=2&ion=H3O&by=log&dp=3" });
    const lesson = await Lesson.practice(bench);
    const { ka, acid, base } = await lesson.find(twoConcentrations);
    ok(/3 decimal places/.test(await lesson.question()), "the places of the pH are not asked for");
    await lesson.sort("A buffer: a weak acid and its salt");
    equal(await lesson.panel.locator(".entry:visible input").count(), 2, "lines");
    const pka = -Math.log10(ka);
    await lesson.line(0).fill(pka.toFixed(3));
    await lesson.line(1).fill((pka + Math.log10(acid / base)).toFixed(3));
    await lesson.check();
    ok(/the ratio of the two forms is upside down/.test(await lesson.says(1)), await lesson.says(1));
    await lesson.line(1).fill((pka + Math.log10(base / acid)).toFixed(3));
    await lesson.check();
    await lesson.button("Next question").waitFor();
    const math = await lesson.panel.locator("[role=math]").evaluateAll((all) => all.map((node) => node.getAttribute("aria-label")));
    ok(math.some((row) => /p H equals p K a plus log to base ten of/.test(row)), math.join("\n"));
  },

  "everywhere else of the page": async ({ open }) => {
    const bench = await open({ width: 360, height: 740, query: "?v=1&dp=3&ion=H3O&by=log", before: [sameSeries] });
    const { page } = bench;
    const problems = [];
    const hear = async (stage) => problems.push(...bare(await page.evaluate(said)).map((text) => `${stage}: bare H⁺: ${text}`));
    for (const panel of ["Set up", "Curve"]) {
      await bench.panel(panel);
      await hear(panel);
    }
    await stages(bench, hear);
    none(problems);
  },

  "320 px": at(320, 640),
  "360 px": at(360, 740),
  "800 px": at(800, 600),
  "1280 px": at(1280, 800),
};
