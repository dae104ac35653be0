// The page that `make serve` shows the first time, before Trunk is there: the same program, put
// together by .dev/first.mjs.

import { copyFileSync, mkdirSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { assemble } from "../../.dev/first.mjs";
import { Bench } from "./bench.mjs";
import { equal } from "./expect.mjs";
import { serve } from "./server.mjs";

const FOLDER = "target/first-page";

export default {
  "put together without Trunk it starts and answers": async ({ visit, folder }) => {
    rmSync(FOLDER, { recursive: true, force: true });
    mkdirSync(FOLDER, { recursive: true });
    const built = readdirSync(folder);
    const named = (end) => join(folder, built.find((name) => name.startsWith("evenkeel-") && name.endsWith(end)));
    copyFileSync(named(".js"), join(FOLDER, "evenkeel.js"));
    copyFileSync(named(".wasm"), join(FOLDER, "evenkeel_bg.wasm"));
    assemble(FOLDER);
    const host = await serve({ folder: FOLDER });
    try {
      const page = await visit({ origins: [host.byNumber] });
      await page.goto(`${host.byNumber}/`);
      const bench = await Bench.on(page);
      await bench.add("acid", "2.0");
      equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
    } finally {
      await host.close();
    }
  },
};
