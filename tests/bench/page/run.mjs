// Measures the built page in Chromium: `node run.mjs`, or some subjects only: `node run.mjs tap`.
// Prints a line of JSON for each figure. EVENKEEL_PAGE names another folder with a built page.

import { asked } from "../../browser/asked.mjs";
import { closeAll, serve } from "../../browser/server.mjs";
import { launch } from "../../browser/visit.mjs";

const SUBJECTS = ["tap", "frames", "heap"];

const { folder, subjects } = asked(SUBJECTS);
const site = await serve({ folder, isolated: true });
const browser = await launch();
try {
  for (const subject of subjects) {
    const { default: measure } = await import(`./${subject}.mjs`);
    await measure(browser, site);
  }
} finally {
  await browser.close();
  await closeAll();
}
