// What the measurements of the page have in common: the two screens, a slowed-down processor, and
// the figures printed as lines of JSON.

import { Bench } from "../../browser/bench.mjs";
import { openWindow } from "../../browser/visit.mjs";

/** A phone, touched, and a wide window, with a mouse. `most` is how many particles each may draw. */
export const SCREENS = [
  { name: "phone", width: 360, height: 740, ratio: 2, touch: true, most: 400 },
  { name: "wide", width: 1280, height: 800, ratio: 1, touch: false, most: 1000 },
];

/** The value that `share` of `values` do not exceed. */
export function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
}

/** Prints a figure. `aim` is null where there is none. */
export function tell({ key, what, value, unit, aim = null, better = "less", note = "" }) {
  const rounded = Number(value.toPrecision(3));
  console.log(JSON.stringify({ key, what, value: rounded, unit, aim, better, note }));
}

/** A window on the page, its bench, and the means to slow its processor down. */
export async function open(browser, site, screen, { before, query = "" }) {
  const window = await openWindow(browser, [site.byNumber], { ...screen, before, worker: false });
  await window.page.goto(`${site.byNumber}/${query}`);
  const bench = await Bench.on(window.page);
  const devtools = await window.context.newCDPSession(window.page);
  const slowDown = (rate) => devtools.send("Emulation.setCPUThrottlingRate", { rate });
  const close = async () => {
    await window.context.close();
    if (window.complaints.length > 0) throw new Error(window.complaints.join("\n"));
  };
  return { page: window.page, bench, devtools, slowDown, close };
}

/** Lets `milliseconds` pass in the page's browser. */
export const pause = (page, milliseconds) => page.waitForTimeout(milliseconds);
