// size.mjs FOLDER: prints the size of every file to host, raw and compressed, and fails when the
// first screen's download is over the budget. Everything in the folder counts as first screen
// unless `later` names it, so a file cannot be forgotten.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const budget = 150 * 1024; // bytes, brotli
const later = [];

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
const first = files.filter((file) => !later.includes(file.name));

row(`${folder}/, bytes`, "raw", "gzip", "brotli-11");
for (const file of files) row(file.name, file.raw, file.gzip, file.brotli);
const total = sum(first, "brotli");
row("first screen", sum(first, "raw"), sum(first, "gzip"), total);
console.log(`  budget: ${total} of ${budget} bytes, brotli (${((100 * total) / budget).toFixed(1)} %)`);
if (total > budget) {
  console.error(`✗ the first screen is ${total - budget} bytes over its budget`);
  process.exit(1);
}
if (!first.some((file) => file.name.endsWith(".wasm"))) {
  console.error(`✗ no .wasm file in ${folder}/: this is not a whole build`);
  process.exit(1);
}
