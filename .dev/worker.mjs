// Writes the worker that keeps the page for use without a network: src/web/sw.js, told which files
// the page has and what is in them.

import { createHash } from "node:crypto";
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { transformSync } from "esbuild";

/** What a teacher takes away: too much for every visitor to keep. */
const TAKEN_AWAY = "lesson-file.html";

/** What boot.js is told to register. Its name may not change: browsers ask for it again. */
export const WORKER = "sw.js";

const digest = (content, form) => createHash("sha256").update(content).digest(form);

/** Completes `dist`, which holds every other file to host, by the worker. */
export function addWorker(dist) {
  rmSync(join(dist, WORKER), { force: true });
  const names = readdirSync(dist).filter((name) => name !== TAKEN_AWAY).sort();
  const files = Object.fromEntries(names.map((name) => [name, digest(readFileSync(join(dist, name)), "base64")]));
  const source = readFileSync("src/web/sw.js", "utf8");
  const build = digest(source + JSON.stringify(files), "hex").slice(0, 16);
  const define = { BUILD: JSON.stringify(build), FILES: JSON.stringify(files) };
  writeFileSync(join(dist, WORKER), transformSync(source, { minify: true, target: "es2022", define }).code);
}
