// What a run in Chromium was asked for: subjects of its own, on a built page.

import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

function stop(why) {
  console.error(why);
  process.exit(1);
}

/**
 * The folder with the page (EVENKEEL_PAGE names another one) and the subjects: those of the command
 * line, or `all`. From here on the process is in the project's folder, wherever it was called.
 */
export function asked(all) {
  process.chdir(fileURLToPath(new URL("../..", import.meta.url)));
  const folder = process.env.EVENKEEL_PAGE ?? "dist";
  if (!existsSync(`${folder}/index.html`)) stop(`No page in ${folder}: build it with .dev/build.sh first.`);
  const wanted = process.argv.slice(2);
  const unknown = wanted.filter((subject) => !all.includes(subject));
  if (unknown.length > 0) stop(`No such subject: ${unknown.join(", ")}. There are: ${all.join(", ")}.`);
  return { folder, subjects: wanted.length > 0 ? wanted : all };
}
