// size.mjs FOLDER: prints the size of every file to host, raw and compressed, and fails when the
// first screen's download, what is fetched after it, or the lesson's file is over its budget.
// Everything in the folder counts as first screen unless a name below says otherwise, so a file
// cannot be forgotten.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

/**
 * What may be how big, in bytes: `by` tells how they are counted. The lesson's file travels as it
 * is, by mail, on a stick or in a course package, so its own size counts.
 */
const BUDGETS = [
  { part: "first screen", bytes: 140 * 1024, by: "brotli", whole: /\.wasm$/ },
  // Fetched once the first screen is there: the panels beside the bench.
  { part: "beside the bench", bytes: 40 * 1024, by: "brotli", named: /^(split|chunk)_beside\w*-/, whole: /^split_.*\.wasm$/ },
  // Fetched before a lesson's link is opened, and in frames.
  { part: "links and frames", bytes: 12 * 1024, by: "brotli", named: /^(split|chunk)_linked\w*-/, whole: /^split_.*\.wasm$/ },
  // Fetched after the learner's first addition, or when one of its panels is opened.
  { part: "learner's part", bytes: 98 * 1024, by: "brotli", named: /^(split|chunk)_lesson\w*-/, whole: /^split_.*\.wasm$/ },
  // Fetched when a teacher sets up a lesson, with what both parts need, which counts above.
  { part: "teacher's part", bytes: 46 * 1024, by: "brotli", named: /^split_teacher-/, whole: /\.wasm$/ },
  // For use without a network, installing, printing, and the pages to read: after the first screen.
  // The style for printers is disabled until a teacher opens the panel that prints, so not fetched.
  {
    part: "offline extras",
    bytes: 18 * 1024,
    by: "brotli",
    named: /^(sw\.js|manifest\.json|(privacy|teachers)\.html|(letter|paper)-\w+\.css|icon-.*\.png)$/,
    whole: /^sw\.js$/,
  },
  { part: "lesson's file", bytes: 340_000, by: "raw", named: /^lesson-file\.html$/, whole: /\.html$/ },
];

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
/** The part that a file belongs to. */
const partOf = (file) => BUDGETS.find(({ named }) => named?.test(file.name)) ?? BUDGETS[0];

row(`${folder}/, bytes`, "raw", "gzip", "brotli-11");
for (const file of files) row(file.name, file.raw, file.gzip, file.brotli);
for (const budget of BUDGETS) {
  const own = files.filter((file) => partOf(file) === budget);
  const total = sum(own, budget.by);
  row(budget.part, sum(own, "raw"), sum(own, "gzip"), sum(own, "brotli"));
  console.log(`  budget: ${total} of ${budget.bytes} bytes, ${budget.by} (${((100 * total) / budget.bytes).toFixed(1)} %)`);
  if (total > budget.bytes) {
    console.error(`✗ over the budget by ${total - budget.bytes} bytes`);
    process.exitCode = 1;
  }
  if (!own.some((file) => budget.whole.test(file.name))) {
    console.error(`✗ nothing of this part in ${folder}/: this is not a whole build`);
    process.exitCode = 1;
  }
}
