// What a page holds in memory, as Chromium counts it, and a crowd of additions. `heapOfAdditions` is
// for the benchmark as well.

import { ok } from "./expect.mjs";

/** A function to run before the page's own scripts: keeps hold of the program's memory. */
export function holdMemory() {
  globalThis.programMemory = [];
  for (const name of ["instantiate", "instantiateStreaming"]) {
    const own = WebAssembly[name];
    WebAssembly[name] = async (...parts) => {
      const made = await own.apply(WebAssembly, parts);
      const { memory } = (made.instance ?? made).exports;
      if (memory && !programMemory.includes(memory)) programMemory.push(memory);
      return made;
    };
  }
}

/** What `page` holds now, once garbage is collected: bytes of both heaps, nodes, listeners. */
export async function held(page) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("Performance.enable");
  await cdp.send("HeapProfiler.enable");
  // What finalizers let go is collected by the next collection.
  for (let i = 0; i < 3; i += 1) {
    await cdp.send("HeapProfiler.collectGarbage");
    await new Promise((done) => setTimeout(done, 50));
  }
  const { usedSize } = await cdp.send("Runtime.getHeapUsage");
  const { metrics } = await cdp.send("Performance.getMetrics");
  const of = (name) => metrics.find((metric) => metric.name === name).value;
  await cdp.detach();
  const program = await page.evaluate(() => programMemory.reduce((sum, memory) => sum + memory.buffer.byteLength, 0));
  return { heap: usedSize, program, nodes: of("Nodes"), listeners: of("JSEventListeners") };
}

/**
 * Runs in the page: `count` additions as fingers make them, now and then taken back, put back, and
 * all taken away. Returns how many the flask took.
 */
export async function addMany(count) {
  const doses = [...document.querySelectorAll(".additions .sizes button")];
  const [undo, redo, again] = document.querySelectorAll(".additions .back button");
  const full = document.querySelector(".additions .full");
  const touch = async (button) => {
    for (const type of ["pointerdown", "pointerup"]) button.dispatchEvent(new PointerEvent(type, { bubbles: true, button: 0, pointerType: "touch" }));
    button.dispatchEvent(new MouseEvent("click", { bubbles: true, detail: 1 }));
    // What follows in the program follows in microtasks.
    for (let i = 0; i < 8; i += 1) await null;
  };
  let taken = 0;
  for (let n = 1; n <= count; n += 1) {
    // Mostly the smallest of both, for the flask to have room for hundreds.
    await touch(doses[n % 97 === 0 ? 2 : n % 2 === 0 ? 3 : 0]);
    if (full.textContent === "") taken += 1;
    if (n % 7 === 0) await touch(undo);
    if (n % 14 === 0) await touch(redo);
    if (n % 900 === 0) await touch(again);
    // Now and then a frame is drawn.
    if (n % 25 === 0) await new Promise(requestAnimationFrame);
  }
  return taken;
}

/**
 * What a page held before `additions` and holds after, and how many seconds they took; a warm-up
 * fills its history first. `page` has to have been opened with `holdMemory`.
 */
export async function heapOfAdditions(page, additions = 10_000) {
  const add = async (count) => {
    const taken = await page.evaluate(addMany, count);
    ok(taken > 0.9 * count, `only ${taken} of ${count} additions were taken`);
  };
  await add(1000);
  const before = await held(page);
  const start = Date.now();
  await add(additions);
  const seconds = (Date.now() - start) / 1000;
  return { before, after: await held(page), seconds };
}
