// What 10,000 additions leave behind: the heap of the page's scripts and its WebAssembly's memory.

import { SCREENS, open, tell } from "./kit.mjs";

const ADDITIONS = 10_000;

/** As many as fill the list of steps back, which is the page's memory by design. */
const FIRST = 1000;

/** Runs in the page before its own scripts: `wasmMemory` is the program's memory. */
function watchMemory() {
  const made = WebAssembly.instantiateStreaming;
  WebAssembly.instantiateStreaming = async (...given) => {
    const result = await made(...given);
    globalThis.wasmMemory ??= result.instance.exports.memory;
    return result;
  };
}

/** Runs in the page: acid and alkali by turns, a fresh flask whenever this one is full. */
async function add(times) {
  const button = (name) => [...document.querySelectorAll("button")].find((b) => name.test(b.ariaLabel ?? b.textContent));
  const doses = [/^Add 0\.5 .* of acid$/, /^Add 0\.5 .* of alkali$/].map(button);
  const fresh = button(/^Start again$/);
  for (let i = 0; i < times; i += 1) {
    if (i % 300 === 299) fresh.click();
    doses[i % 2].click();
    // The page must come to paint, too.
    if (i % 20 === 19) await new Promise((done) => requestAnimationFrame(done));
  }
}

export default async function measure(browser, site) {
  const { page, devtools, close } = await open(browser, site, SCREENS[0], { before: [watchMemory] });
  const used = async () => {
    await devtools.send("HeapProfiler.collectGarbage");
    await devtools.send("HeapProfiler.collectGarbage");
    const { usedSize } = await devtools.send("Runtime.getHeapUsage");
    return { script: usedSize, wasm: await page.evaluate(() => wasmMemory.buffer.byteLength) };
  };
  await page.evaluate(add, FIRST);
  const before = await used();
  await page.evaluate(add, ADDITIONS);
  const after = await used();
  for (const [kind, what] of [["script", "heap of scripts"], ["wasm", "memory of the program"]]) {
    tell({
      key: "g",
      what: `${what}, after ${ADDITIONS.toLocaleString("en")} additions against before`,
      value: after[kind] / before[kind],
      unit: "times",
      aim: 1.05,
      note: `${(before[kind] / 1024).toFixed(0)} KB, then ${(after[kind] / 1024).toFixed(0)} KB`,
    });
  }
  await close();
}
