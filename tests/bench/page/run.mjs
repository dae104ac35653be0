// Measures the built page in Chromium: `node run.mjs`, or some subjects only: `node run.mjs tap`.
// Prints a line of JSON for each figure. EVENKEEL_PAGE names another folder with a built page.

import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { closeAll, serve } from "../../browser/server.mjs";
import { launch } from "../../browser/visit.mjs";

const SUBJECTS = ["tap", "frames", "heap"];

process.chdir(fileURLToPath(new URL("../../..", import.meta.url)));
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

const site = await serve({ folder, isolated: true });
const browser = await launch();
try {
  for (const subject of wanted.length > 0 ? wanted : SUBJECTS) {
    const { default: measure } = await import(`./${subject}.mjs`);
    await measure(browser, site);
  }
} finally {
  await browser.close();
  await closeAll();
}
