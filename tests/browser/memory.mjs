// Memory stays as it is, however long somebody plays: thousands of additions, hours of animation.

import { Bench } from "./bench.mjs";
import { none, ok } from "./expect.mjs";
import { addMany, heapOfAdditions, held, holdMemory } from "./heap.mjs";

/**
 * How much more a page may hold: what engines keep for themselves goes up and down by as much. The
 * program's memory comes in pages of 64 KB, and now and then what is free lies so that it takes one
 * more; ten hours on it has taken no second one, and a byte left behind in each step would be seven.
 */
const MORE = { heap: 400_000, program: 65_536, nodes: 20, listeners: 0 };

/** One line for everything that grew by more than it may. */
export function grown(before, after) {
  const over = Object.entries(MORE).filter(([what, most]) => after[what] - before[what] > most);
  return over.map(([what, most]) => `${what}: from ${before[what]} to ${after[what]}, may grow by ${most}`);
}

const said = (title, { before, after }) => {
  const parts = Object.keys(MORE).map((what) => `${what} ${before[what]} → ${after[what]}`);
  console.log(`  ${title}: ${parts.join(", ")}`);
};

/**
 * A clock of the page's own: timers, frames and the time go by it. It goes with the browser's frames
 * until it is told to stand still. A function to run before the page's own scripts.
 */
function clockwork() {
  const frame = requestAnimationFrame.bind(globalThis);
  const shown = () => new Promise((done) => frame(done));
  const timers = new Map();
  let [now, names, still] = [Date.now(), 0, false];
  let frames = [];
  Date.now = () => now;
  globalThis.requestAnimationFrame = (callback) => frames.push(callback);
  globalThis.setTimeout = (callback, delay = 0, ...rest) => {
    names += 1;
    timers.set(names, { at: now + Number(delay), run: () => callback(...rest) });
    return names;
  };
  globalThis.clearTimeout = (name) => timers.delete(name);
  /** Lets a sixtieth of a second pass; whether the page had asked for a frame. */
  const tick = () => {
    now += 1000 / 60;
    for (const [name, { at, run }] of timers) {
      if (at > now) continue;
      timers.delete(name);
      run();
    }
    const due = frames;
    frames = [];
    for (const callback of due) callback(now);
    return due.length > 0;
  };
  (async () => {
    while (!still) {
      await shown();
      tick();
    }
  })();
  globalThis.standStill = () => (still = true);
  /** Lets `count` frames pass, and returns in how many of them the page drew. */
  globalThis.pass = async (count) => {
    let drawn = 0;
    for (let n = 0; n < count; n += 1) {
      if (!tick()) continue;
      drawn += 1;
      // What follows in the program follows in microtasks; and a canvas that is never shown keeps all
      // that is drawn on it.
      await (drawn % 200 === 0 ? shown() : null);
    }
    return drawn;
  };
}

/** Frames of a minute, at sixty a second. */
const MINUTE = 60 * 60;

/**
 * Runs in the page: lets minutes pass with an addition in each. Without `painting` every step of the
 * animation is worked out, and none is put on the canvas. Returns the frames in which something moved.
 */
async function minutes({ count, frames, painting }) {
  globalThis.ownContext ??= HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = painting ? ownContext : () => null;
  const doses = document.querySelectorAll(".additions .sizes button");
  let drawn = 0;
  for (let n = 0; n < count; n += 1) {
    doses[n % 2 === 0 ? 1 : 4].click();
    drawn += await pass(frames);
  }
  return drawn;
}

export default {
  "ten thousand additions": async ({ visit, site }) => {
    const page = await visit({ width: 360, height: 740, before: [holdMemory] });
    await page.goto(`${site.byNumber}/`);
    await Bench.on(page);
    const measured = await heapOfAdditions(page);
    said("10,000 additions", measured);
    none(grown(measured.before, measured.after));
  },

  "two hours of animation": async ({ visit, site }) => {
    const page = await visit({ width: 360, height: 740, before: [holdMemory, clockwork] });
    await page.goto(`${site.byNumber}/`);
    await Bench.on(page);
    // Fills the history, which is all that is to grow.
    await page.evaluate(addMany, 1000);
    await page.evaluate(() => standStill());
    const pass = (count, painting) => page.evaluate(minutes, { count, frames: MINUTE, painting });
    await pass(1, true);
    await pass(20, false);
    const before = await held(page);
    // What a frame paints does not depend on the frames before it, and takes ten times as long as all
    // the rest of it: so all 432,000 steps are taken, and the first 18,000 are painted.
    const painted = await pass(5, true);
    const drawn = await pass(115, false);
    const after = await held(page);
    said(`432,000 steps, something moved in ${painted + drawn}, ${painted} painted`, { before, after });
    ok(painted > 3000 && drawn > 20 * painted, `only ${painted} and ${drawn} frames in which something moved`);
    none(grown(before, after));
  },

  "what leaks is seen": async ({ visit, site }) => {
    const page = await visit({ width: 360, height: 740, before: [holdMemory] });
    await page.goto(`${site.byNumber}/`);
    await Bench.on(page);
    const before = await held(page);
    await page.evaluate(() => {
      globalThis.kept = Array.from({ length: 100 }, () => {
        const node = document.createElement("p");
        node.addEventListener("click", () => {});
        return { node, text: [...Array(2000).keys()] };
      });
      programMemory[0].grow(2);
    });
    const after = await held(page);
    const seen = grown(before, after);
    ok(seen.length === 4, `of four leaks these were seen: ${seen.join("; ")}`);
  },
};
