// first.mjs FOLDER PORT: serves the page before Trunk is there. FOLDER holds what wasm-bindgen
// wrote; the rest is copied as it stands, with the links that Trunk would write into the head.

import { copyFileSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { serve } from "../tests/browser/server.mjs";

/** Completes `folder`, which holds evenkeel.js and evenkeel_bg.wasm, to the page. */
export function assemble(folder) {
  const copied = (path) => {
    copyFileSync(path, join(folder, basename(path)));
    return basename(path);
  };
  const program =
    '<link rel="modulepreload" crossorigin href="evenkeel.js" />' +
    '<link rel="preload" as="fetch" crossorigin type="application/wasm" href="evenkeel_bg.wasm" />';
  const page = readFileSync("index.html", "utf8")
    .replace(/<link data-trunk rel="rust"[^>]*>/, program)
    .replace(/<link data-trunk rel="css" href="([^"]*)"/g, (_, path) => `<link rel="stylesheet" href="${copied(path)}"`)
    .replace(/<link data-trunk ([^>]*href=)"([^"]*)"/g, (_, rest, path) => `<link ${rest}"${copied(path)}"`)
    .replace(/<script data-trunk data-no-minify ([^>]*)src="([^"]*)"/g, (_, rest, path) => `<script ${rest}src="${copied(path)}"`);
  if (page.includes("data-trunk")) throw new Error("index.html has a line for Trunk that first.mjs does not know");
  writeFileSync(join(folder, "index.html"), page);
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const [folder, port] = process.argv.slice(2);
  assemble(folder);
  await serve({ folder, port: Number(port) });
}
