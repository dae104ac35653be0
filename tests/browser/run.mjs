// Every check in a real browser, on the built page: `node run.mjs`, or some subjects only:
// `node run.mjs journey typing`. EVENKEEL_PAGE names another folder with a built page.

import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Bench } from "./bench.mjs";
import { none } from "./expect.mjs";
import { closeAll, serve } from "./server.mjs";
import { launch, openWindow } from "./visit.mjs";

const SUBJECTS = ["first-paint", "first-page", "journey", "pairs", "typing", "hostile", "working", "practice", "teacher", "code", "paper", "guide", "keyboard", "layout", "notation", "access", "frame", "host", "motion", "memory", "offline", "installed", "privacy", "file", "course", "digest"];

// Screenshots and the page are found from the project's folder, wherever this was called.
process.chdir(fileURLToPath(new URL("../..", import.meta.url)));
const folder = process.env.EVENKEEL_PAGE ?? "dist";
if (!existsSync(`${folder}/index.html`)) {
  console.error(`No page in ${folder}: build it with .dev/build.sh first.`);
  process.exit(1);
}
const wanted = process.argv.slice(2);
const unknown = wanted.filter((subject) => !SUBJECTS.includes(subject));
if (unknown.length > 0) {
  console.error(`No such subject: ${unknown.join(", ")}. There are: ${SUBJECTS.join(", ")}.`);
  process.exit(1);
}

const site = await serve({ folder });
const browser = await launch();
const failures = [];
let passed = 0;

/** Runs one check with windows of its own, which must have had nothing to complain about. */
async function run(name, body) {
  const windows = [];
  const start = Date.now();
  const seconds = () => `(${((Date.now() - start) / 1000).toFixed(1)} s)`;
  const visit = async (options = {}) => {
    const opened = await openWindow(browser, options.origins ?? [site.byNumber], options);
    windows.push(opened);
    return opened.page;
  };
  const open = async (options = {}) => {
    const page = await visit(options);
    await page.goto(`${site.byNumber}/${options.query ?? ""}`);
    return Bench.on(page);
  };
  try {
    await body({ visit, open, site, folder, browser });
    none(windows.flatMap((w) => w.complaints));
    passed += 1;
    console.log(`✓ ${name} ${seconds()}`);
  } catch (error) {
    const complaints = windows.flatMap((w) => w.complaints);
    const text = [error.message, ...complaints.filter((c) => !error.message.includes(c))].join("\n");
    failures.push({ name, text });
    console.log(`✗ ${name} ${seconds()}`);
    if (process.env.EVENKEEL_TRACE) console.log(error.stack);
  } finally {
    for (const { context } of windows) await context.close();
  }
}

for (const subject of wanted.length > 0 ? wanted : SUBJECTS) {
  const { default: checks } = await import(`./${subject}.mjs`);
  for (const [name, body] of Object.entries(checks)) await run(`${subject}: ${name}`, body);
}
await browser.close();
await closeAll();

/** As much of a report as a person reads. */
const MOST = 15;
for (const { name, text } of failures) {
  const lines = text.split("\n");
  const more = lines.length > MOST ? [`… and ${lines.length - MOST} more like these`] : [];
  console.error(["", `✗ ${name}`, ...[...lines.slice(0, MOST), ...more].map((line) => `  ${line}`)].join("\n"));
}
console.log(`\n${passed} passed, ${failures.length} failed`);
process.exitCode = failures.length > 0 ? 1 : 0;
