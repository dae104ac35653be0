// Lighthouse's scores of the hosted page on a phone with slow 4G (its own default): `node
// lighthouse.mjs DIST CHROMIUM`. Served compressed and with a host's headers, for it counts bytes.

import { launch } from "chrome-launcher";
import lighthouse from "lighthouse";
import { readdirSync, readFileSync } from "node:fs";
import { serve } from "../browser/server.mjs";
import { median, tell, tellVersions } from "./row.mjs";

const RUNS = 7;
const CATEGORIES = { performance: "performance", accessibility: "accessibility", "best-practices": "best practices" };
/** What the performance is put together from, in Lighthouse's own terms. */
const METRICS = {
  "first-contentful-paint": "first contentful paint",
  "largest-contentful-paint": "largest contentful paint",
  "speed-index": "speed index",
  "total-blocking-time": "total blocking time",
  "cumulative-layout-shift": "cumulative layout shift",
};

const [dist, chromePath] = process.argv.slice(2);
const site = await serve({ folder: dist, compressed: true });
const address = `${site.byNumber}/`;
// So that no measured visit waits for the server to compress.
for (const name of readdirSync(dist)) await (await fetch(address + name)).arrayBuffer();

/** One visit of a browser that was never here, as Lighthouse's report. */
async function visit() {
  const chromeFlags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
  const chrome = await launch({ chromePath, chromeFlags });
  try {
    const { lhr } = await lighthouse(address, { port: chrome.port, logLevel: "error", onlyCategories: Object.keys(CATEGORIES) });
    if (lhr.runtimeError) throw new Error(lhr.runtimeError.message);
    return lhr;
  } finally {
    await chrome.kill();
  }
}

const runs = [];
for (let run = 0; run < RUNS; run += 1) runs.push(await visit());
await site.close();

/** What is below the best in the middle run of a category, and counts for its score. */
function short(id) {
  const run = [...runs].sort((a, b) => a.categories[id].score - b.categories[id].score)[Math.floor(RUNS / 2)];
  return run.categories[id].auditRefs
    .filter(({ id, weight }) => weight > 0 && run.audits[id].score !== null && run.audits[id].score < 1)
    .map(({ id }) => `${run.audits[id].title} ${Math.round(100 * run.audits[id].score)}`);
}

for (const [id, name] of Object.entries(CATEGORIES)) {
  const scores = runs.map((run) => run.categories[id].score * 100);
  if (scores.some((score) => !Number.isFinite(score))) throw new Error(`Lighthouse gave no score for ${name}`);
  const below = short(id);
  tell({
    key: "f",
    what: `Lighthouse, phone, slow 4G: ${name}`,
    value: Math.round(median(scores)),
    unit: "of 100",
    aim: 100,
    better: "more",
    note: `median of ${RUNS} visits, ${Math.round(Math.min(...scores))} to ${Math.round(Math.max(...scores))}${below.length ? `; below 100: ${below.join(", ")}` : ""}`,
  });
}
for (const [id, name] of Object.entries(METRICS)) {
  const values = runs.map((run) => run.audits[id].numericValue);
  const [low, middle, high] = [Math.min(...values), median(values), Math.max(...values)];
  const isShift = id.endsWith("shift");
  const digits = (value) => (isShift ? Number(value.toFixed(3)) : Math.round(value));
  tell({ key: "f", what: `Lighthouse: ${name}`, value: digits(middle), unit: isShift ? "" : "ms", note: `${digits(low)} to ${digits(high)}` });
}
tellVersions({ Lighthouse: runs[0].lighthouseVersion });
