// A learner's way through the page in another engine: `node run.mjs firefox`, or `webkit`, or some
// of its checks only: `node run.mjs webkit file frame`. EVENKEEL_PAGE names another folder.

import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { none } from "../expect.mjs";
import { closeAll, serve } from "../server.mjs";
import { Firefox } from "./firefox.mjs";
import checks from "./journey.mjs";
import { WebKit } from "./webkit.mjs";

const ENGINES = { firefox: Firefox, webkit: WebKit };
/** Phone and wide screen; each theme of the system in one of them. */
const WINDOWS = [{ width: 360, height: 740, dark: true }, { width: 1280, height: 800 }];

process.chdir(fileURLToPath(new URL("../../..", import.meta.url)));
const folder = resolve(process.env.EVENKEEL_PAGE ?? "dist");
const [name, ...wanted] = process.argv.slice(2);
if (!existsSync(`${folder}/index.html`) || !(name in ENGINES)) {
  console.error(name in ENGINES ? `No page in ${folder}: build it with .dev/build.sh first.` : `Which engine? There are: ${Object.keys(ENGINES).join(", ")}.`);
  process.exit(1);
}

const site = await serve({ folder });
// A proxy that answers nothing: whatever is asked for beyond this machine fails.
const nowhere = { host: "127.0.0.1", port: 9 };
const failures = [];
let passed = 0;

/** One check in a window of its own size; the engine must have had nothing to complain about. */
async function run(engine, label, body) {
  const start = Date.now();
  const picture = (part) => `target/screens/${name}-${part}-${engine.width}x${engine.height}.png`;
  let problem;
  try {
    await engine.out();
    await body({ engine, site, folder, shot: (part) => engine.screenshot(picture(part)) });
    none(await engine.complaints());
    passed += 1;
  } catch (error) {
    const complaints = await engine.complaints();
    const lines = [error.message, ...complaints.filter((c) => !error.message.includes(c))];
    const path = picture("failed");
    await engine.out().then(() => engine.screenshot(path)).then(() => lines.push(`It looked like this: ${path}`), () => lines.push("No screenshot could be taken."));
    if (process.env.EVENKEEL_TRACE) lines.push(error.stack);
    problem = lines.join("\n");
    failures.push({ label, text: problem });
  }
  console.log(`${problem === undefined ? "✓" : "✗"} ${label} (${((Date.now() - start) / 1000).toFixed(1)} s)`);
}

for (const options of WINDOWS) {
  const engine = new ENGINES[name](options);
  const title = (check) => `${ENGINES[name].title} ${options.width} × ${options.height}: ${check}`;
  try {
    await engine.start(nowhere);
    for (const [check, body] of Object.entries(checks)) {
      if (wanted.length === 0 || wanted.some((word) => check.includes(word))) await run(engine, title(check), body);
    }
  } catch (error) {
    failures.push({ label: title("it could not be started"), text: error.message });
  } finally {
    await engine.stop();
  }
}
await closeAll();

const MOST = 15;
for (const { label, text } of failures) {
  const lines = text.split("\n");
  const more = lines.length > MOST ? [`… and ${lines.length - MOST} more like these`] : [];
  console.error(["", `✗ ${label}`, ...[...lines.slice(0, MOST), ...more].map((line) => `  ${line}`)].join("\n"));
}
console.log(`\n${passed} passed, ${failures.length} failed`);
process.exit(failures.length > 0 ? 1 : 0);
