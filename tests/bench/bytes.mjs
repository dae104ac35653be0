// What the hosted page weighs, beside a bare counter of the same component library, compiled and made
// small in the same way: `node bytes.mjs DIST COUNTER`. COUNTER holds what wasm-bindgen wrote.

import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { bundle, compact } from "../../.dev/page.mjs";
import { partsOf, sizesOf, total } from "../../.dev/size.mjs";
import { serve } from "../browser/server.mjs";
import { launch } from "../browser/visit.mjs";
import { tell, tellVersions } from "./row.mjs";

const FIRST_SCREEN_AIM = 150 * 1024;

const [dist, counter] = process.argv.slice(2);

/** Makes a page of the counter, its glue bundled and minified as the page's is. */
async function counterPage() {
  const folder = join(counter, "page");
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  cpSync(join(counter, "counter_bg.wasm"), join(folder, "counter_bg.wasm"));
  writeFileSync(join(folder, "index.html"), compact(readFileSync("tests/bench/counter/index.html", "utf8")));
  const stdin = { contents: 'import start from "./counter.js"; start();', resolveDir: counter };
  writeFileSync(join(folder, "counter.js"), await bundle({ stdin }));
  return folder;
}

/** A counter that does not count would be no measure. */
async function counts(folder) {
  const site = await serve({ folder });
  const browser = await launch();
  try {
    const page = await browser.newPage();
    await page.goto(`${site.byNumber}/`);
    await page.getByRole("button", { name: "Add one" }).click();
    await page.locator("output", { hasText: /^1$/ }).waitFor({ timeout: 10_000 });
  } finally {
    await browser.close();
    await site.close();
  }
}

const count = (value) => value.toLocaleString("en-GB");
const folder = await counterPage();
await counts(folder);
const own = total(sizesOf(folder));
const parts = partsOf(sizesOf(dist));
for (const { part, by, bytes, sizes, isWhole } of parts) {
  if (!isWhole) throw new Error(`nothing of the ${part} in ${dist}: build it with .dev/build.sh first`);
  const isFirst = part === "first screen";
  tell({
    key: "e",
    what: by === "raw" ? `${part}, as it is` : `${part}, brotli-11`,
    value: sizes[by],
    unit: "bytes",
    aim: isFirst ? FIRST_SCREEN_AIM : null,
    note: `raw ${count(sizes.raw)}, gzip ${count(sizes.gzip)}${by === "raw" ? `, brotli ${count(sizes.brotli)}` : ""}; limit of \`make test\` ${count(bytes)}`,
  });
}
tell({ key: "e", what: "a bare counter of the same library, brotli-11", value: own.brotli, unit: "bytes", note: `raw ${count(own.raw)}, gzip ${count(own.gzip)}; with its HTML and glue` });
tell({ key: "e", what: "first screen against the bare counter", value: Number((parts[0].sizes.brotli / own.brotli).toPrecision(3)), unit: "×", note: "brotli-11" });
const locked = readFileSync("Cargo.lock", "utf8");
tellVersions({ Leptos: locked.match(/name = "leptos"\nversion = "(.*)"/)[1] });
