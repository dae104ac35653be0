// A learner's way through the page in one engine: `node run.mjs firefox`, `webkit` or `chromium`, or some
// of its checks only: `node run.mjs webkit file frame`. EVENKEEL_PAGE names another folder.

import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { none } from "../expect.mjs";
import { report } from "../report.mjs";
import { closeAll, serve } from "../server.mjs";
import { Chromium } from "./chromium.mjs";
import { Firefox } from "./firefox.mjs";
import checks from "./journey.mjs";
import { WebKit } from "./webkit.mjs";

const ENGINES = { chromium: Chromium, firefox: Firefox, webkit: WebKit };
/** Phone and wide screen; each theme of the system in one of them. */
const WINDOWS = [{ width: 360, height: 740, dark: true }, { width: 1280, height: 800 }];

process.chdir(fileURLToPath(new URL("../../..", import.meta.url)));
const folder = resolve(process.env.EVENKEEL_PAGE ?? "dist");
const [name, ...wanted] = process.argv.slice(2);
if (!existsSync(`${folder}/index.html`) || !(name in ENGINES)) {
  console.error(name in ENGINES ? `No page in ${folder}: build it with .dev/build.sh first.` : `Which engine? There are: ${Object.keys(ENGINES).join(", ")}.`);
  process.exit(1);
}

const unknown = wanted.filter((word) => !Object.keys(checks).some((check) => check.includes(word)));
if (unknown.length > 0) {
  console.error(`No check has in its name: ${unknown.join(", ")}. There are:\n${Object.keys(checks).join("\n")}`);
  process.exit(1);
}

// What breaks a rule of the page's policy before anybody in the page listens, the browser reports.
const broken = [];
const site = await serve({ folder, reports: true, posted: (rule) => broken.push(`broken rule: ${rule}`) });
// A proxy that answers nothing: whatever is asked for beyond this machine fails.
const nowhere = { host: "127.0.0.1", port: 9 };
const failures = [];
let passed = 0;

/** No check takes so long: an engine that does not answer must not hold up everything. */
const CAP = 180;

/** Fails if `promise` takes more than so many seconds. */
async function inTime(promise, seconds = CAP) {
  let timer;
  const late = new Promise((_, refuse) => {
    timer = setTimeout(() => refuse(Object.assign(new Error(`not done after ${seconds} s`), { late: true })), seconds * 1000);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

/** What can be told of a check that went wrong, one line each. */
async function told(engine, error, path) {
  if (error.late) return [error.message, "The engine does not answer; its other checks are left out."];
  const complaints = await inTime(engine.complaints(), 20).catch(() => []);
  const seen = await inTime(engine.out().then(() => engine.screenshot(path)), 20).then(() => `It looked like this: ${path}`, () => "No screenshot could be taken.");
  return [error.message, ...complaints.filter((c) => !error.message.includes(c)), seen];
}

const title = ({ width, height }, check) => `${width} × ${height}: ${check}`;

/** Reports that arrived since the check `label` was over: they are that one's, not the next one's. */
function late(label) {
  const text = broken.splice(0).join("\n");
  if (text) failures.push({ name: `${label}: reported once it was over`, text });
}

/** One check in a window of its own size, with nothing to complain about; whether to go on. */
async function run(engine, check, body) {
  const label = title(engine, check);
  const start = Date.now();
  const picture = (part) => `target/screens/${name}-${part}-${engine.width}x${engine.height}.png`;
  let failure;
  try {
    await inTime(engine.out());
    await inTime(body({ engine, site, folder, shot: (part) => engine.screenshot(picture(part)) }));
    none([...(await engine.complaints()), ...broken.splice(0)]);
    passed += 1;
  } catch (error) {
    failure = error;
    const lines = await told(engine, error, picture(`failed-${check.replace(/\W+/g, "-").slice(0, 40)}`));
    lines.push(...broken.splice(0).filter((rule) => !error.message.includes(rule)));
    if (process.env.EVENKEEL_TRACE) lines.push(error.stack);
    failures.push({ name: label, text: lines.join("\n") });
  }
  console.log(`${failure ? "✗" : "✓"} ${label} (${((Date.now() - start) / 1000).toFixed(1)} s)`);
  return !failure?.late;
}

for (const options of WINDOWS) {
  const engine = new ENGINES[name](options);
  let last = title(engine, "its start");
  let goesOn = true;
  try {
    await inTime(engine.start(nowhere));
    console.log(`• ${ENGINES[name].title} ${engine.version}, ${options.width} × ${options.height}, ${options.dark ? "dark" : "light"}`);
    for (const [check, body] of Object.entries(checks)) {
      const asked = wanted.length === 0 || wanted.some((word) => check.includes(word));
      if (!asked || !goesOn) continue;
      late(last);
      last = title(engine, check);
      goesOn = await run(engine, check, body);
    }
    // Reports that are still on their way arrive while another page is asked for.
    if (goesOn) await inTime(engine.out().then(() => engine.goto(`${site.byNumber}/over`)));
  } catch (error) {
    failures.push({ name: last, text: error.message });
  } finally {
    await engine.stop();
  }
  late(last);
}
await closeAll();

process.exit(report(passed, failures));
