// From a finger's or a mouse button's release to the frame on the screen that has the new pH.
//
// The browser's own Event Timing tells it (https://www.w3.org/TR/event-timing/): from the moment that
// the release is put down to, to the next frame that is presented after all has been done about it, in
// steps of 8 ms. So time spent waiting for the page to listen counts, and so does what the screen
// needs. That the pH stands in that frame is looked at in it.

import { ok } from "../../browser/expect.mjs";
import { SCREENS, open, pause, quantile, tell } from "./kit.mjs";

const RATES = [1, 4, 6];

/** Aim at the slowest rate, ms. */
const AIM = 50;

/** Taps with each panel open: as many of acid as of alkali. */
const TAPS = 20;

/** How long a finger or a mouse button is down, ms: shorter than what begins a pour. */
const DOWN = 70;

/** Between two taps, ms: particles of the last addition are still on their way at the next. */
const BETWEEN = 250;

/** The shortest that the browser tells of, ms; what is quicker counts as this. */
const SHORTEST = 16;

/** Runs in the page before its own scripts: `tapTimes` gathers what each tap took, `late` how many were not in the next frame. */
function watchTaps() {
  globalThis.tapTimes = [];
  globalThis.late = 0;
  new PerformanceObserver((list) => {
    for (const { name, duration, target } of list.getEntries()) {
      if (name === "pointerup" && target?.closest(".sizes")) tapTimes.push(duration);
    }
  }).observe({ type: "event", durationThreshold: 16 });
  addEventListener("pointerup", ({ target }) => {
    if (!target.closest(".sizes")) return;
    const ph = document.getElementById("ph");
    const before = ph.textContent;
    requestAnimationFrame(() => (late += Number(ph.textContent === before)));
  }, true);
}

/** The middle of the button, which is on the screen after it. */
async function place(button) {
  await button.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await button.boundingBox();
  return [x + width / 2, y + height / 2];
}

/** Taps with one panel open, on a fresh bench. */
async function taps({ page, bench, devtools }, { touch }, panel) {
  await bench.panel(panel);
  if ((await bench.button("Start again").getAttribute("aria-disabled")) === "false") await bench.startAgain();
  await page.evaluate(() => (tapTimes.length = 0));
  const finger = (type, touchPoints) => devtools.send("Input.dispatchTouchEvent", { type, touchPoints });
  const press = async ([x, y]) => {
    if (!touch) return page.mouse.click(x, y, { delay: DOWN });
    await finger("touchStart", [{ x, y }]);
    await pause(page, DOWN);
    await finger("touchEnd", []);
  };
  // The first half uses the base form up and goes past it, the second goes back.
  for (const reagent of ["acid", "alkali"]) {
    const button = await place(bench.dose(reagent, "2.0"));
    for (let tap = 0; tap < TAPS / 2; tap += 1) {
      await press(button);
      await pause(page, BETWEEN);
    }
  }
  await pause(page, 1000);
  const { times, late, heard } = await page.evaluate(() => ({ times: tapTimes, late, heard: performance.eventCounts.get("pointerup") }));
  ok(heard >= TAPS, `the browser timed ${heard} releases`);
  ok(late === 0, `${late} of ${TAPS} taps change the pH in no frame, or a later one`);
  ok(times.length <= TAPS, `${times.length} times for ${TAPS} taps`);
  return [...times, ...Array(TAPS - times.length).fill(SHORTEST)];
}

export default async function measure(browser, site) {
  for (const screen of SCREENS) {
    const window = await open(browser, site, screen, { before: [watchTaps] });
    // The first addition and the first look at the working fetch the lesson, as they do once a visit.
    await window.bench.add("acid", "2.0");
    await window.bench.panel("Working");
    await window.page.locator("#panel .working").first().waitFor();
    // A wide screen shows the curve beside Why.
    const panels = screen.touch ? ["Why", "Curve", "Working"] : ["Why", "Set up", "Working"];
    for (const rate of RATES) {
      await window.slowDown(rate);
      const times = [];
      const each = [];
      for (const panel of panels) {
        const taken = await taps(window, screen, panel);
        times.push(...taken);
        each.push(`${panel} ${quantile(taken, 0.95).toFixed(0)}`);
      }
      ok(rate < Math.max(...RATES) || times.some((time) => time > SHORTEST), "the browser told of no tap");
      tell({
        key: "c",
        what: `tap to pH on the screen, p95, ${screen.name}, ${rate}×`,
        value: quantile(times, 0.95),
        unit: "ms",
        aim: rate === Math.max(...RATES) ? AIM : null,
        note: `${times.length} taps, median ${quantile(times, 0.5).toFixed(0)}, most ${Math.max(...times).toFixed(0)}; p95 by panel: ${each.join(", ")}`,
      });
    }
    await window.close();
  }
}
