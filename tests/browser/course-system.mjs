// A course system's side of SCORM for the checks: it serves the packages, writes down each call, and
// keeps what it is told.

import { execFileSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { serve } from "./server.mjs";

/** Packages are made by the application's own code, and unpacked here. */
export const FOLDER = "target/course";
const PACKER = "target/debug/examples/package";

/** What the two editions call things (their Run-Time Environment documents, data model). */
export const EDITIONS = {
  1.2: {
    library: "scorm12.js",
    maker: "Scorm12API",
    object: "API",
    calls: ["LMSInitialize", "LMSGetValue", "LMSSetValue", "LMSCommit", "LMSFinish", "LMSGetLastError", "LMSGetErrorString", "LMSGetDiagnostic"],
    raw: "cmi.core.score.raw",
    exit: "cmi.core.exit",
    status: ["cmi.core.lesson_status"],
    incomplete: ["incomplete"],
    passed: ["passed"],
    failed: ["failed"],
    completed: ["completed"],
    ended: "",
    time: ["cmi.core.session_time", /^\d\d:\d\d:\d\d(\.\d+)?$/],
    longest: 4096,
  },
  2004: {
    library: "scorm2004.js",
    maker: "Scorm2004API",
    object: "API_1484_11",
    calls: ["Initialize", "GetValue", "SetValue", "Commit", "Terminate", "GetLastError", "GetErrorString", "GetDiagnostic"],
    raw: "cmi.score.raw",
    exit: "cmi.exit",
    status: ["cmi.completion_status", "cmi.success_status"],
    incomplete: ["incomplete", "unknown"],
    passed: ["completed", "passed"],
    failed: ["completed", "failed"],
    completed: ["completed", "unknown"],
    ended: "normal",
    time: ["cmi.session_time", /^PT[\dHMS.]+$/],
    longest: 64000,
  },
};

/** Packs the file and unpacks it again, once for a run. */
export function unpacked(folder) {
  if (existsSync(FOLDER)) return;
  if (!existsSync(PACKER)) throw new Error(`${PACKER} is missing: cargo build --no-default-features --example package`);
  mkdirSync(FOLDER, { recursive: true });
  execFileSync(PACKER, [`${folder}/lesson-file.html`, FOLDER]);
  const library = createRequire(import.meta.url).resolve("scorm-again");
  for (const [edition, { library: name }] of Object.entries(EDITIONS)) {
    execFileSync("unzip", ["-q", `${FOLDER}/${edition}.zip`, "-d", `${FOLDER}/${edition}`]);
    copyFileSync(new URL(`file://${library}/../${name}`), `${FOLDER}/${name}`);
  }
}
rmSync(FOLDER, { recursive: true, force: true });

/** A page with `source` in a frame. */
export const frame = (source, attributes = "") =>
  `<!doctype html><meta charset="utf-8"><title>A course</title><link rel="icon" href="data:,">
<iframe src="${source}" title="Lesson" width="900" height="900" ${attributes}></iframe>`;

/** The course system's page: its half of the standard, which writes down each call, and `body`. */
export function system({ library, maker, object, calls }, body, kept) {
  return `<!doctype html><meta charset="utf-8"><title>A course system</title><link rel="icon" href="data:,">
<script src="/${library}"></script>
<script>
  const side = new ${maker}({ lmsCommitUrl: "/commit", dataCommitFormat: "flattened", logLevel: 5 });
  const kept = ${JSON.stringify(kept ?? null)};
  if (kept) side.loadFromFlattenedJSON(kept);
  const calls = [];
  window.${object} = Object.fromEntries(${JSON.stringify(calls)}.map((name) => [name, (...values) => {
    const answer = side[name.replace(/^LMS/, "lms")](...values);
    calls.push([name, ...values, answer].map(String));
    return answer;
  }]));
</script>
${body}`;
}

/** A course system that serves the packages and keeps what it is told. */
export async function course(given, edition, { kept = null, body = frame(`/${edition}/index.html`), before = [], expected = [] } = {}) {
  unpacked(given.folder);
  const names = EDITIONS[edition];
  const told = [];
  const posted = (text) => {
    told.push(JSON.parse(text));
    return { result: true, errorCode: 0 };
  };
  const pages = {
    "/": system(names, body, kept),
    "/1": frame("/2"),
    "/2": frame("/3"),
    "/3": frame(`/${edition}/index.html`),
  };
  const host = await serve({ folder: FOLDER, pages, posted });
  const page = await given.visit({ origins: [host.byNumber], before, expected: [/^a POST request: .*\/commit$/, ...expected] });
  await page.goto(host.byNumber);
  // Its window goes first, because it says so to the system.
  const close = async () => {
    await page.close();
    await host.close();
  };
  return { names, told, page, close };
}
