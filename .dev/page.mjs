// Puts the page together: index.html, styles, scripts and what wasm-bindgen wrote. Trunk does the
// same for `make serve` once it is there, and reads the same lines of index.html.
//
//   page.mjs first FOLDER PORT   completes FOLDER, which holds what wasm-bindgen wrote, and serves it
//   page.mjs host FOLDER DIST    makes DIST of FOLDER: small, and files named after their content

import { createHash } from "node:crypto";
import { copyFileSync, cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, extname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { serve } from "../tests/browser/server.mjs";

/**
 * The parts of the program that are fetched after the first screen; src/ui/later.rs and linked.rs
 * say which. A chunk is what several parts need.
 */
const LATER = /^(split|chunk)_.*\.wasm$/;

/** Which chunks each part needs: what loads the parts says so. */
function chunksOf(folder) {
  const loader = readFileSync(join(folder, "__wasm_split.js"), "utf8");
  const parts = [...loader.matchAll(/__wasm_split_load_(\w+) = .*?\[(.*?)\]\)\)/gs)];
  return new Map(parts.map(([, part, chunks]) => [part, chunks.match(/\w+/g)?.map((chunk) => chunk.slice(2)) ?? []]));
}

/** Pages to read: on what is kept and sent, and for teachers. */
const LETTERS = ["src/web/privacy.html", "src/web/teachers.html"];

/**
 * index.html with `program` for its line about Rust and with what `styles` makes of its style
 * sheets, `paper` of the one for printers, `classic` of its classic scripts, which stand together;
 * every other file is where `placed` says.
 */
export function page({ program, styles, placed, script = null, classic = null, paper = null }) {
  paper ??= (path) => `<link rel="stylesheet" media="print" disabled href="${placed(path)}" />`;
  script ??= (attributes, path) => `<script ${attributes}src="${placed(path)}"></script>`;
  classic ??= (paths) => paths.map((path) => script("defer ", path)).join("");
  const html = readFileSync("index.html", "utf8")
    .replace(/<link data-trunk rel="rust"[^>]*>/, program)
    .replace(/(\s*<link data-trunk rel="css" href="[^"]*" \/>)+/, (links) =>
      styles([...links.matchAll(/href="([^"]*)"/g)].map((link) => link[1])))
    .replace(/<link data-trunk rel="css" href="([^"]*)" media="print" disabled \/>/, (_, path) => paper(path))
    .replace(/\s*<link data-trunk rel="copy-[^>]*>/g, "")
    .replace(/<link data-trunk ([^>]*href=)"([^"]*)"/g, (_, rest, path) => `<link ${rest}"${placed(path)}"`)
    .replace(/(\s*<script data-trunk defer src="[^"]*"><\/script>)+/, (scripts) =>
      classic([...scripts.matchAll(/src="([^"]*)"/g)].map((found) => found[1])))
    .replace(/<script data-trunk ([^>]*)src="([^"]*)"><\/script>/g, (_, attributes, path) => script(attributes, path));
  if (html.includes("data-trunk")) throw new Error("index.html has a line for Trunk that page.mjs does not know");
  return html;
}

/**
 * The links that fetch the program; boot.js reads the names from them. The style that the first paint
 * waits for goes before it.
 */
const fetched = (glue, wasm) =>
  `<link rel="modulepreload" crossorigin href="${glue}" />` +
  `<link rel="preload" as="fetch" fetchpriority="low" crossorigin type="application/wasm" href="${wasm}" />`;

/** The page without its comments and indentation. */
export const compact = (html) => html.replace(/<!--.*?-->/gs, "").replace(/\s*\n\s*/g, "\n");

/** The style sheets in one text, minified by esbuild, which `make serve` does without. */
export function styleOf(paths, { transformSync }) {
  const all = paths.map((path) => readFileSync(path, "utf8")).join("");
  return transformSync(all, { loader: "css", minify: true }).code;
}

/** Classic scripts in one text, minified without newer syntax than they have: old browsers read them. */
export function classicOf(paths, { transformSync }) {
  const all = paths.map((path) => readFileSync(path, "utf8")).join("");
  return transformSync(all, { minify: true, target: "es5" }).code.trim();
}

/** A script and all that it imports as one small file; `input` says where esbuild finds it. */
export async function bundle(input) {
  const esbuild = await import("esbuild");
  const { outputFiles } = await esbuild.build({ ...input, bundle: true, minify: true, format: "esm", target: "es2022", write: false });
  return outputFiles[0].text;
}

/** Completes `folder`, which holds evenkeel.js and evenkeel_bg.wasm, to the page. */
export function assemble(folder) {
  const placed = (path) => {
    copyFileSync(path, join(folder, basename(path)));
    return basename(path);
  };
  const styles = (paths) => paths.map((path) => `<link rel="stylesheet" href="${placed(path)}" />`).join("");
  writeFileSync(join(folder, "index.html"), page({ program: fetched("evenkeel.js", "evenkeel_bg.wasm"), styles, placed }));
  LETTERS.forEach(placed);
  cpSync("style", join(folder, "style"), { recursive: true });
}

/** A page to read, for hosting: the styles that it shares with the page, and its own. */
function letter(path, { shared, placed }) {
  return readFileSync(path, "utf8")
    .replace(/<link rel="stylesheet" href="style\/(tokens|base)\.css" \/>\s*/g, "")
    .replace(/<link rel="stylesheet"/, (own) => `<link rel="stylesheet" href="${shared}" />${own}`)
    .replace(/"(style\/[^"]*)"/g, (_, path) => `"${placed(path)}"`);
}

/** manifest.json, from which a browser installs the page. */
function manifest({ placed }) {
  const told = JSON.parse(readFileSync("src/web/manifest.json", "utf8"));
  for (const icon of told.icons) icon.src = placed(icon.src);
  return JSON.stringify(told);
}

/**
 * What loads the parts waits for the chunk first. If neither arrives, nobody would listen to the
 * part's own failure, and the browser would report it beside ours. And wasm-split writes a list of
 * names in an order that differs from run to run: two builds are to be the same.
 */
const heard = {
  name: "heard",
  setup: (build) =>
    build.onLoad({ filter: /__wasm_split\.js$/ }, ({ path }) => {
      const source = readFileSync(path, "utf8");
      const contents = source
        .replace(/const src = fetch\(.*\);/g, "$&\n    src.catch(() => {});")
        .replace(/\{ (\w+, )+ \}/g, (names) => `{ ${names.match(/\w+/g).sort().join(", ")} }`);
      if (contents === source) throw new Error("the loader of the parts is not written as page.mjs knows it");
      return { contents, loader: "js" };
    }),
};

/** Makes `dist` of the same, and of the parts that are fetched later. */
async function host(folder, dist) {
  const esbuild = await import("esbuild");
  const { addWorker, WORKER } = await import("./worker.mjs");
  rmSync(dist, { recursive: true, force: true });
  mkdirSync(dist, { recursive: true });
  const named = (name, content) => {
    const end = extname(name);
    const digest = createHash("sha256").update(content).digest("hex").slice(0, 16);
    const full = `${basename(name, end)}-${digest}${end}`;
    writeFileSync(join(dist, full), content);
    return full;
  };
  // The glue and what loads the later parts import each other: together they are one file. The
  // glue lists that loader once for each part.
  let bundled = await bundle({
    entryPoints: [join(folder, "evenkeel.js")],
    plugins: [heard],
    logOverride: { "duplicate-object-key": "silent" },
  });
  const chunks = chunksOf(folder);
  // A chunk is named after who needs it first: size.mjs counts it there.
  const first = (chunk) => ["beside", "lesson", "linked"].find((part) => chunks.get(part).includes(chunk));
  const linked = [];
  for (const part of readdirSync(folder).filter((name) => LATER.test(name))) {
    if (!bundled.includes(part)) throw new Error(`the program does not load ${part}`);
    const chunk = basename(part, ".wasm");
    const name = part.replace("chunk_", `chunk_${first(chunk)}_`);
    const file = named(name, readFileSync(join(folder, part)));
    bundled = bundled.replaceAll(part, file);
    if (chunk === "split_linked" || chunks.get("linked").includes(chunk)) linked.push(file);
  }
  const glue = named("evenkeel.js", bundled);
  const wasm = named("evenkeel.wasm", readFileSync(join(folder, "evenkeel_bg.wasm")));
  const style = (name, paths) => named(name, styleOf(paths, esbuild));
  let shared;
  const styles = (paths) => {
    shared = style("style.css", paths);
    return `<link rel="stylesheet" href="${shared}" />`;
  };
  const classic = (paths) => `<script defer src="${named("aid.js", classicOf(paths, esbuild))}"></script>`;
  const placed = (path) => {
    if (extname(path) === ".css") return style(basename(path), [path]);
    const content = readFileSync(path);
    return named(path, extname(path) === ".js" ? esbuild.transformSync(content, { minify: true, target: "es2022" }).code : content);
  };
  const write = (name, html) => writeFileSync(join(dist, name), compact(html));
  const html = page({ program: fetched(glue, wasm), styles, placed, classic })
    .replace("<html ", `<html data-worker="${WORKER}" data-linked="${linked.join(" ")}" `)
    .replace("</title>", '$&<link rel="manifest" href="manifest.json" />');
  write("index.html", html);
  for (const path of LETTERS) write(basename(path), letter(path, { shared, placed }));
  writeFileSync(join(dist, "manifest.json"), manifest({ placed }));
  addWorker(dist);
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const [command, folder, target] = process.argv.slice(2);
  if (command === "host") {
    await host(folder, target);
  } else {
    assemble(folder);
    await serve({ folder, port: Number(target) });
  }
}
