// size.mjs FOLDER: prints the size of every file to host, raw and compressed, and fails when the
// first screen's download, what is fetched after it, or the lesson's file is over its budget.
// Everything in the folder counts as first screen unless a name below says otherwise, so a file
// cannot be forgotten.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

/**
 * What may be how big, in bytes: `by` tells how they are counted. The lesson's file travels as it
 * is, by mail, on a stick or in a course package, so its own size counts.
 */
const BUDGETS = [
  { part: "first screen", bytes: 144 * 1024, by: "brotli", whole: /\.wasm$/ },
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
  { part: "lesson's file", bytes: 345_000, by: "raw", named: /^lesson-file\.html$/, whole: /\.html$/ },
];

/** Every file of a folder with its sizes, the largest first. */
export function sizesOf(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
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
}

/** The sizes of several files together. */
export function total(files) {
  const sum = (key) => files.reduce((all, file) => all + file[key], 0);
  return { raw: sum("raw"), gzip: sum("gzip"), brotli: sum("brotli") };
}

/** The parts that a whole build's files belong to, each with its budget and its sizes. */
export function partsOf(files) {
  const partOf = (file) => BUDGETS.find(({ named }) => named?.test(file.name)) ?? BUDGETS[0];
  return BUDGETS.map((budget) => {
    const own = files.filter((file) => partOf(file) === budget);
    return { ...budget, sizes: total(own), isWhole: own.some((file) => budget.whole.test(file.name)) };
  });
}

function report(folder) {
  const row = (name, { raw, gzip, brotli }) =>
    console.log("  " + name.padEnd(40) + [raw, gzip, brotli].map((size) => String(size).padStart(10)).join(""));
  const files = sizesOf(folder);
  row(`${folder}/, bytes`, { raw: "raw", gzip: "gzip", brotli: "brotli-11" });
  for (const file of files) row(file.name, file);
  for (const { part, bytes, by, sizes, isWhole } of partsOf(files)) {
    const counted = sizes[by];
    row(part, sizes);
    console.log(`  budget: ${counted} of ${bytes} bytes, ${by} (${((100 * counted) / bytes).toFixed(1)} %)`);
    if (counted > bytes) {
      console.error(`✗ over the budget by ${counted - bytes} bytes`);
      process.exitCode = 1;
    }
    if (!isWhole) {
      console.error(`✗ nothing of this part in ${folder}/: this is not a whole build`);
      process.exitCode = 1;
    }
  }
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) report(process.argv[2]);
