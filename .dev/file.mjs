// file.mjs FOLDER FILE: makes FILE, the whole page in one HTML file, of what wasm-bindgen wrote into
// FOLDER for the web. It opens from a disk, in a frame without an origin, and without a network.
//
// Wasm and glue are compressed together and written as text, which src/web/boot-file.js reads. The
// style is not, so that the first paint has it while the rest is on its way.

import * as esbuild from "esbuild";
import lzma from "lzma";
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { classicOf, compact, page, styleOf } from "./page.mjs";

/** The digits of the text, from 0 to 90: src/web/boot-file.js tells why these. */
const DIGITS = Array.from({ length: 94 }, (_, i) => String.fromCharCode(33 + i)).filter((c) => !"<&\\".includes(c));
/** Some programs break longer lines. A line end is no digit, so any kind will do. */
const LINE = 900;
/** How hard the compressor tries, of 9. */
const HARDEST = 9;

/** Adler-32 (RFC 1950): the compressed stream itself does not tell when it is damaged. */
function checksum(bytes) {
  let [a, b] = [1, 0];
  for (const byte of bytes) {
    a = (a + byte) % 65521;
    b = (b + a) % 65521;
  }
  return b * 65536 + a;
}

/** `bytes` as text: 13 bits, the lowest first, are two digits, the higher first. */
function pack(bytes) {
  let [text, held, bits] = ["", 0, 0];
  const write = (value) => {
    text += DIGITS[Math.floor(value / 91)] + DIGITS[value % 91];
  };
  for (const byte of bytes) {
    held |= byte << bits;
    bits += 8;
    if (bits >= 13) {
      write(held & 8191);
      held >>>= 13;
      bits -= 13;
    }
  }
  if (bits > 0) write(held);
  return text.replace(new RegExp(`.{${LINE}}`, "g"), "$&\n");
}

/** What an inline script or style is allowed by. The browser hashes exactly what stands between the tags. */
const hash = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/**
 * Nothing is fetched from anywhere. Every script and style is known when this is made, so none is
 * allowed but by its digest, those in the stream included; WebAssembly cannot be bound to one.
 */
const policy = (scripts, styles) =>
  `default-src 'none'; script-src ${scripts.map(hash).join(" ")} 'wasm-unsafe-eval'; style-src ${styles.map(hash).join(" ")}; ` +
  "img-src data: blob:; connect-src 'none'; base-uri 'none'; form-action 'none'; " +
  "require-trusted-types-for 'script'; trusted-types default program";

/** What the page says where it cannot start; no other file can be what is missing. */
const CANNOT_START = [
  /needs WebAssembly,[^.]*did not arrive\.\s+Try again[^.]*browser\./,
  "needs WebAssembly, which this browser does not have or has switched off, or this file is damaged. " +
    "Open it in a current browser, or get the file again.",
];

/** What it says when its program has failed: its lesson is in itself, or in a course. */
const STOPPED = [
  /A lesson that you opened by\s+a link[^.]*still there\./,
  "Your lesson is still here. If you opened it in a course, what your course has of your results is kept: " +
    "close this page and open it from the course again.",
];

/** The wasm-bindgen module and the course adapter as one plain script. */
function glueOf(folder) {
  const entry = `import ${JSON.stringify(join(process.cwd(), "src/web/course.js"))};
import start from "./evenkeel.js";
window.startEvenkeel = start;`;
  return esbuild.buildSync({
    stdin: { contents: entry, resolveDir: folder },
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2022",
    write: false,
    // The file's own address is never a place to fetch from.
    define: { "import.meta.url": '""' },
  }).outputFiles[0].text;
}

/** `text` with `pattern` replaced, which must be there. */
function put(text, pattern, replacement) {
  if (!pattern.test(text)) throw new Error(`index.html has no ${pattern}`);
  return text.replace(pattern, () => replacement);
}

function make(folder, target) {
  const scripts = [];
  let style;
  let html = page({
    program: '<meta name="evenkeel-lesson" content=""><meta name="evenkeel-course" content="">',
    styles: (paths) => `<style>${(style = styleOf(paths, esbuild))}</style>`,
    placed: (path) => `data:image/svg+xml;base64,${readFileSync(path, "base64")}`,
    // What a teacher prints is not in it.
    paper: () => "",
    classic: (paths) => {
      scripts.push(classicOf(paths, esbuild));
      return "";
    },
    script: (_, path) => {
      scripts.push(readFileSync(path.replace("boot.js", "boot-file.js"), "utf8"));
      return "";
    },
  });
  const glue = glueOf(folder);
  const parts = [readFileSync(join(folder, "evenkeel_bg.wasm")), Buffer.from(glue)];
  const stream = Buffer.concat(parts);
  const packed = Uint8Array.from(lzma.compress([...stream], HARDEST));
  html = put(html, /(?<=Content-Security-Policy" content=")[^"]*/, policy([...scripts, glue], [style]));
  html = compact(put(put(html, ...CANNOT_START), ...STOPPED));
  if (!html.includes(`<style>${style}</style>`)) throw new Error("the style is not what its digest was made of");
  const sizes = `data-bytes="${packed.length}" data-parts="${parts.map((part) => part.length).join(" ")}" data-checksum="${checksum(stream)}"`;
  // Scripts stay as written, below what they speak of; above the stream, so that a file that was cut
  // short still says so.
  const end = [
    ...scripts.map((script) => `<script>${script}</script>`),
    `<script type="text/plain" id="packed" ${sizes}>\n${pack(packed)}\n</script>\n`,
  ];
  writeFileSync(target, put(html, /(?=<\/body>)/, end.join("\n")));
}

make(...process.argv.slice(2));
