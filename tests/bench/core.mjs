// The core's solve and curve times, natively and in Chromium, beside two libraries in Python on the
// same mixtures: `node core.mjs PYTHON WASM`. The three take turns, several times over, so that what
// else the machine does falls on all of them, and the median turn counts.

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { launch } from "../browser/visit.mjs";
import { median, tell, tellVersions } from "./row.mjs";

const TURNS = 5;
/** How often quicker than scipy's brentq the core should be. */
const AIM = 100;
/** Far below what any two of the ways differ in that solve the same balance. */
const SAME_BALANCE = 1e-9;
/** PHREEQC takes its own Debye–Hückel constant. */
const SAME_MODEL = 0.001;

const [python, module] = process.argv.slice(2);
const run = (command, args, input) => execFileSync(command, args, { input, encoding: "utf8", stdio: ["pipe", "pipe", "inherit"], maxBuffer: 1e8 });

const natively = () => run("cargo", ["bench", "--quiet", "--locked", "--no-default-features", "--bench", "core"]);
const inPython = (tasks) => JSON.parse(run(python, ["tests/bench/rivals.py"], tasks));

/** In the page: seconds for each task, and a pH of each. As in core.rs, but its clock is coarser. */
async function timed([text, count]) {
  const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  const { run } = (await WebAssembly.instantiate(bytes)).instance.exports;
  const batch = (task, times) => {
    const start = performance.now();
    run(task, times);
    return performance.now() - start;
  };
  return Array.from({ length: count }, (_, task) => {
    // Long enough for the engine to have compiled what it runs often.
    for (const start = performance.now(); performance.now() < start + 200; ) run(task, 7);
    let times = 7;
    while (batch(task, times) < 20) times *= 2;
    const quickest = Math.min(...Array.from({ length: 15 }, () => batch(task, times)));
    return { seconds: quickest / times / 1000, ph: run(task, 1) };
  });
}

const bytes = readFileSync(module).toString("base64");
const browser = await launch();
const turns = [];
try {
  const page = await browser.newPage();
  for (let turn = 0; turn < TURNS; turn += 1) {
    const told = natively();
    const native = JSON.parse(told);
    turns.push({ native, python: inPython(told), chromium: await page.evaluate(timed, [bytes, native.length]) });
  }
  tellVersions({ Chromium: browser.version(), ...turns[0].python.versions });
} finally {
  await browser.close();
}

const seconds = (of) => median(turns.map((turn) => of(turn).seconds));
const digits = (value) => Number(value.toPrecision(3));
const micro = (value) => `${digits(value * 1e6)} µs`;

turns[0].native.forEach((task, index) => {
  const [native, chromium] = [seconds((turn) => turn.native[index]), seconds((turn) => turn.chromium[index])];
  if (turns[0].chromium[index].ph !== task.mixtures[0].ph && task.work !== "curve") throw new Error(`${task.name}: the browser finds another pH`);
  const places = [
    ["natively", "opt-level 3", native],
    ["in Chromium", "compiled as the page is: opt-level z", chromium],
  ];
  if (task.work === "curve") {
    for (const [place, level, took] of places) {
      tell({ key: "b", what: `curve of 400 points, ${task.name}, ${place}`, value: digits(took * 1e3), unit: "ms", note: level });
    }
    return;
  }
  for (const [place, level, took] of places) {
    const what = task.work === "ph" ? "the pH" : "all species";
    tell({ key: "a", what: `solving a mixture for ${what}, ${task.name}, ${place}`, value: digits(took * 1e6), unit: "µs", note: level });
  }
  // Root finders give the pH, PHREEQC all species: each is held against the same work.
  if (task.work === "species") return;
  const whole = turns[0].native.findIndex((other) => other.name === task.name && other.work === "species");
  const ofSpecies = [seconds((turn) => turn.native[whole]), seconds((turn) => turn.chromium[whole])];
  for (const way of Object.keys(turns[0].python.tasks[task.name])) {
    const { deviation } = turns[0].python.tasks[task.name][way];
    const isScipy = way.startsWith("scipy");
    // Its own database has other constants, ion pairs and activity coefficients: told, not judged.
    const most = isScipy ? SAME_BALANCE : /database/.test(way) ? Infinity : SAME_MODEL;
    if (!(deviation <= most)) throw new Error(`${task.name}: ${way} differs by ${deviation} in pH, so it does other work`);
    const took = seconds((turn) => turn.python.tasks[task.name][way]);
    for (const [at, [place, , ofPh]] of places.entries()) {
      const own = isScipy ? ofPh : ofSpecies[at];
      tell({
        key: "a",
        what: `${task.name}: times as fast ${place} as ${way}`,
        value: digits(took / own),
        unit: "×",
        aim: isScipy ? AIM : null,
        better: "more",
        note: `${micro(took)} against ${micro(own)}; pH within ${deviation.toExponential(0)}`,
      });
    }
  }
});
