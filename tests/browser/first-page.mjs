// The page that `make serve` shows the first time, before Trunk is there: the same program, put
// together by .dev/page.mjs.

import { copyFileSync, mkdirSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { assemble } from "../../.dev/page.mjs";
import { Bench } from "./bench.mjs";
import { equal } from "./expect.mjs";
import { serve } from "./server.mjs";

const FOLDER = "target/first-page";
/** What wasm-bindgen and wasm-split wrote for the page under test. */
const PARTS = "target/hosted/parts";

export default {
  "put together without Trunk it starts and answers": async ({ visit }) => {
    rmSync(FOLDER, { recursive: true, force: true });
    mkdirSync(FOLDER, { recursive: true });
    for (const file of readdirSync(PARTS).filter((name) => /\.(js|wasm)$/.test(name))) copyFileSync(join(PARTS, file), join(FOLDER, file));
    assemble(FOLDER);
    const host = await serve({ folder: FOLDER });
    try {
      const page = await visit({ origins: [host.byNumber] });
      await page.goto(`${host.byNumber}/`);
      const bench = await Bench.on(page);
      await bench.add("acid", "2.0");
      equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
      await page.goto(`${host.byNumber}/privacy.html`);
      equal(await page.evaluate(() => [...document.styleSheets].filter(({ cssRules }) => cssRules.length > 0).length), 3, "styles of the privacy page");
      await page.close();
    } finally {
      await host.close();
    }
  },
};
