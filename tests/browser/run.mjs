// Every check in a real browser, on the built page: `node run.mjs`, or some subjects only:
// `node run.mjs journey typing`. EVENKEEL_PAGE names another folder with a built page.

import { asked } from "./asked.mjs";
import { Bench } from "./bench.mjs";
import { none } from "./expect.mjs";
import { report } from "./report.mjs";
import { closeAll, serve } from "./server.mjs";
import { launch, openWindow } from "./visit.mjs";

const SUBJECTS = [
  "first-paint", "first-page", "journey", "pairs", "typing", "hostile", "working", "practice", "results",
  "teacher", "code", "paper", "guide", "keyboard", "layout", "notation", "access", "tree", "contrast",
  "glyphs", "forced", "frame", "host", "commands", "sandbox", "motion", "memory", "offline", "installed",
  "privacy", "file", "course", "fault", "doors", "digest",
];

const { folder, subjects } = asked(SUBJECTS);
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

const queue = [...subjects];
// Two subjects beside each other: a check often waits for particles to arrive, and then the other
// has the computer. Each check has a window of its own; files are shared within a subject only.
const lane = async () => {
  for (let subject = queue.shift(); subject; subject = queue.shift()) {
    const { default: checks } = await import(`./${subject}.mjs`);
    for (const [name, body] of Object.entries(checks)) await run(`${subject}: ${name}`, body);
  }
};
await Promise.all([lane(), lane()]);
await browser.close();
await closeAll();

process.exitCode = report(passed, failures);
