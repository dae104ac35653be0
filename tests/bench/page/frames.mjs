// How long the page's own script works on a frame of the particles, the processor six times slower.
//
// Each function that the page gives to requestAnimationFrame is timed; the page is served so that
// browsers give it a clock of 5 µs. Calls of the canvas are counted too, in a window of their own
// at full speed: unlike times, they hardly depend on what else the machine does.

import { ok } from "../../browser/expect.mjs";
import { SCREENS, open, pause, quantile, tell } from "./kit.mjs";

const RATE = 6;

/** Aim, ms. */
const AIM = 4;

/** So strong an acid that free H⁺ is there beside both forms: then as many particles as can be exchange. */
const QUERY = "?v=1&pair=own-acid&pka=1.0";

/** Runs in the page before its own scripts: `frameTimes` gathers what each frame took. */
function timeFrames() {
  globalThis.frameTimes = [];
  const ask = requestAnimationFrame.bind(globalThis);
  globalThis.requestAnimationFrame = (draw) =>
    ask((time) => {
      const start = performance.now();
      draw(time);
      frameTimes.push(performance.now() - start);
    });
}

/** Runs in the page before its own scripts: `frameTimes` gathers how often each frame called the canvas. */
function countCalls() {
  let calls = 0;
  globalThis.frameTimes = [];
  const canvas = CanvasRenderingContext2D.prototype;
  for (const [name, { value, get, set }] of Object.entries(Object.getOwnPropertyDescriptors(canvas))) {
    const counted = (call) =>
      function (...given) {
        calls += 1;
        return call.apply(this, given);
      };
    if (typeof value === "function") canvas[name] = counted(value);
    else if (set) Object.defineProperty(canvas, name, { get, set: counted(set) });
  }
  const ask = requestAnimationFrame.bind(globalThis);
  globalThis.requestAnimationFrame = (draw) =>
    ask((time) => {
      calls = 0;
      draw(time);
      frameTimes.push(calls);
    });
}

/** Adds acid until one step more would make a particle stand for more; returns what is drawn. */
async function fill(bench) {
  const unit = async () => (await bench.read()).legend.unit.mmol;
  const first = await unit();
  do await bench.add("acid", "2.0"); while ((await unit()) === first);
  await bench.undo();
  const { acid, base, legend } = await bench.read();
  return acid.count + base.count + (legend.drawn?.count ?? 0);
}

/** What goes on while frames are gathered: an addition on its way, and what never stops. */
const ACTS = {
  flight: async ({ page, bench }) => {
    for (let i = 0; i < 4; i += 1) {
      await bench.button("Replay").click();
      await pause(page, 1300);
    }
  },
  idle: ({ page }) => pause(page, 9000),
};

/** Gathers frames of these acts in both views; `each` is told what was gathered. */
async function gather(window, acts, each) {
  for (const view of ["Sorted", "As mixed"]) {
    await window.bench.press(view);
    await pause(window.page, 1500);
    for (const [name, act] of Object.entries(acts)) {
      await window.page.evaluate(() => (frameTimes.length = 0));
      await act(window);
      const frames = (await window.page.evaluate(() => frameTimes)).filter((value) => value > 0);
      ok(frames.length >= 20, `only ${frames.length} frames: ${view}, ${name}`);
      each(`${view.toLowerCase()}, ${name}`, frames);
    }
  }
}

export default async function measure(browser, site) {
  for (const screen of SCREENS) {
    const timed = await open(browser, site, screen, { before: [timeFrames], query: QUERY });
    ok(await timed.page.evaluate(() => crossOriginIsolated), "a clock too coarse for frames");
    const drawn = await fill(timed.bench);
    ok(drawn > 0.9 * screen.most, `only ${drawn} particles on a ${screen.name}`);
    await timed.slowDown(RATE);
    await gather(timed, ACTS, (act, frames) =>
      tell({
        key: "d",
        what: `script of a frame, p95, ${screen.name}, ${act}, ${RATE}×`,
        value: quantile(frames, 0.95),
        unit: "ms",
        aim: AIM,
        note: `${drawn} particles, ${frames.length} frames, median ${quantile(frames, 0.5).toFixed(1)}, most ${Math.max(...frames).toFixed(1)}`,
      }),
    );
    await timed.close();

    const counted = await open(browser, site, screen, { before: [countCalls], query: QUERY });
    await fill(counted.bench);
    await gather(counted, { flight: ACTS.flight }, (act, frames) =>
      tell({
        key: "d",
        what: `calls of the canvas in a frame, p95, ${screen.name}, ${act}`,
        value: quantile(frames, 0.95),
        unit: "calls",
        note: `median ${quantile(frames, 0.5)}, most ${Math.max(...frames)}`,
      }),
    );
    await counted.close();
  }
}
