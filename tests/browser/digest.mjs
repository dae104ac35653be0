// The same figures on every machine, to the last bit: the pure core, compiled without the page,
// must come to the number in tests/it/digest_cases.rs here as well as natively.

import { readFileSync } from "node:fs";
import { equal } from "./expect.mjs";

const MODULE = "target/wasm32-unknown-unknown/release/digest.wasm";

export default {
  "the browser solves to the same bits as the native build": async ({ open }) => {
    const { page } = await open();
    const bytes = readFileSync(MODULE).toString("base64");
    const code = await page.evaluate(async (text) => {
      const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
      const { instance } = await WebAssembly.instantiate(bytes);
      return instance.exports.main(0, 0);
    }, bytes);
    equal(code, 0, "exit code of the comparison");
  },
};
