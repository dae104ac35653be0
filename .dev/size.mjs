// size.mjs FOLDER: prints the size of every file to host, raw and compressed, and fails when the
// first screen's download, or what is fetched after it, is over its budget. Everything in the
// folder counts as first screen unless a pattern names it, so a file cannot be forgotten.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

// Bytes, brotli.
const budgets = { first: 180 * 1024, later: 112 * 1024, extras: 16 * 1024 };
/** The lesson: fetched after the learner's first addition, or when one of its panels is opened. */
const later = /^split_lesson-/;
/** For use without a network, installing, and the page on privacy: fetched after the first screen. */
const extras = /^(sw\.js|manifest\.json|privacy(-\w+)?\.(html|css)|icon-.*\.png)$/;
const titles = { first: "first screen", later: "fetched later", extras: "offline extras" };

const folder = process.argv[2];
const files = readdirSync(folder, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => {
    const path = join(entry.parentPath ?? entry.path, entry.name);
    const bytes = readFileSync(path);
    const params = {
      [constants.BROTLI_PARAM_QUALITY]: 11,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
    };
    return {
      name: path.slice(folder.length + 1),
      raw: bytes.length,
      gzip: gzipSync(bytes, { level: 9 }).length,
      brotli: brotliCompressSync(bytes, { params }).length,
    };
  })
  .sort((a, b) => b.brotli - a.brotli);

const row = (name, ...sizes) =>
  console.log("  " + name.padEnd(40) + sizes.map((size) => String(size).padStart(10)).join(""));
const sum = (list, key) => list.reduce((total, file) => total + file[key], 0);
const parts = {
  first: files.filter(({ name }) => !later.test(name) && !extras.test(name)),
  later: files.filter(({ name }) => later.test(name)),
  extras: files.filter(({ name }) => extras.test(name)),
};

row(`${folder}/, bytes`, "raw", "gzip", "brotli-11");
for (const file of files) row(file.name, file.raw, file.gzip, file.brotli);
for (const [part, own] of Object.entries(parts)) {
  const [total, budget] = [sum(own, "brotli"), budgets[part]];
  row(titles[part], sum(own, "raw"), sum(own, "gzip"), total);
  console.log(`  budget: ${total} of ${budget} bytes, brotli (${((100 * total) / budget).toFixed(1)} %)`);
  if (total > budget) {
    console.error(`✗ over the budget by ${total - budget} bytes`);
    process.exitCode = 1;
  }
  const needed = part === "extras" ? "sw.js" : ".wasm";
  if (!own.some((file) => file.name.endsWith(needed))) {
    console.error(`✗ no ${needed} file of this part in ${folder}/: this is not a whole build`);
    process.exitCode = 1;
  }
}
