// Once loaded, the page needs no network.

import { equal, ok } from "./expect.mjs";
import { facts } from "./reading.mjs";

export default {
  "everything goes on without a network": async ({ open }) => {
    const bench = await open();
    const { page } = bench;
    await page.context().setOffline(true);
    ok(await page.evaluate(() => !navigator.onLine), "the network is still there");
    const start = facts(await bench.read());
    await bench.exhaust("acid", "2.0");
    await bench.undo();
    equal(facts(await bench.read()), start, "a pour and its undo");
    await bench.press("As mixed");
    for (const panel of ["Limits", "Set up", "Why"]) await bench.panel(panel);
    await bench.panel("Set up");
    for (const pair of await bench.pairs()) {
      await bench.choosePair(pair);
      const { texts } = await bench.read();
      ok(/^\d+\.\d\d$/.test(texts.ph), `${pair}: pH ${texts.ph}`);
    }
    await page.emulateMedia({ colorScheme: "dark" });
    const { colors } = await bench.picture();
    ok(colors > 5, "the canvas is blank in the other theme");
  },

  "nothing is kept and nothing is sent": async ({ open }) => {
    const bench = await open();
    await bench.add("acid", "2.0");
    await bench.panel("Set up");
    await bench.field(/^Propanoic acid/, /^Concentration/).fill("0.2");
    await bench.settle();
    const kept = await bench.page.evaluate(async () => ({
      cookies: document.cookie,
      local: localStorage.length,
      session: sessionStorage.length,
      databases: (await indexedDB.databases()).length,
      caches: (await caches.keys()).length,
    }));
    equal(kept, { cookies: "", local: 0, session: 0, databases: 0, caches: 0 }, "kept in the browser");
  },
};
