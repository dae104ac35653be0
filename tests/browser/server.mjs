// Serves a folder on a loopback port, a free one unless it is told which, as a plain host would: right types, the page's own
// policy as a header too, nothing compressed unless it is told to.

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";
import { text } from "node:stream/consumers";
import { brotliCompressSync } from "node:zlib";

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
};

/** Names that hold a digest of the content: such a file never changes. */
const BY_CONTENT = /-[0-9a-f]{16}\.\w+$/;

/** What brotli makes no smaller. */
const SMALL_ALREADY = [".png"];

const running = new Set();

/** Closes whatever still serves, also what a check that failed has left. */
export async function closeAll() {
  for (const host of running) await host.close();
}

/** The policy that a page carries in its head. */
function policyOf(name, html) {
  const meta = html.match(/<meta\s[^>]*http-equiv="?Content-Security-Policy[^>]*>/i);
  const found = meta?.[0].match(/content="([^"]+)"/);
  if (!found) throw new Error(`${name} carries no Content-Security-Policy`);
  return found[1].replaceAll("&#39;", "'").replaceAll("&quot;", '"');
}

/**
 * Serves `folder`, or the texts in `pages` ({path: html}) in front of it, at the path `under`.
 * With `shared`, any origin may read the files, as a frame without an origin of its own needs; with
 * `isolated`, the page shares its process with no other, and browsers give it their finest clock.
 * What is posted goes to `posted`, whose answer is sent back as JSON; with `reports`, so do browsers'
 * reports of broken rules of the policy. What `before` returns for a path is waited for before it is
 * answered. With `compressed`, texts and WebAssembly travel by brotli, and browsers are told how long
 * to keep what.
 */
export async function serve({ folder, pages = {}, shared = false, isolated = false, under = "", port: wanted = 0, posted = null, reports = false, compressed = false, before = () => {} }) {
  const asked = [];
  const brotlis = new Map();
  /** A file compressed, once: at this quality it takes a second. */
  const brotli = (name, body) => {
    if (!brotlis.has(name)) brotlis.set(name, brotliCompressSync(body));
    return brotlis.get(name);
  };
  // Longer addresses than any host takes, to see what the page does with them.
  const server = createServer({ maxHeaderSize: 4 << 20 }, async (request, response) => {
    const path = new URL(request.url, "http://localhost").pathname;
    asked.push(path);
    await before(path);
    if (posted && request.method === "POST") {
      const body = await text(request);
      response.writeHead(200, { "Content-Type": TYPES[".json"] }).end(JSON.stringify(posted(body)));
      return;
    }
    if (path in pages) {
      response.writeHead(200, { "Content-Type": TYPES[".html"] }).end(pages[path]);
      return;
    }
    const below = path.startsWith(`${under}/`) ? path.slice(under.length) : undefined;
    try {
      if (!folder || !below) throw new Error("nothing here");
      const name = normalize(below === "/" ? "/index.html" : decodeURIComponent(below));
      const body = await readFile(join(folder, name));
      const headers = { "Content-Type": TYPES[extname(name)] ?? "application/octet-stream" };
      if (extname(name) === ".html") headers["Content-Security-Policy"] = policyOf(name, body.toString()) + (reports ? "; report-uri /reports" : "");
      if (shared) headers["Access-Control-Allow-Origin"] = "*";
      if (isolated) Object.assign(headers, { "Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Embedder-Policy": "require-corp" });
      if (compressed) headers["Cache-Control"] = BY_CONTENT.test(name) ? "public, max-age=31536000, immutable" : "no-cache";
      if (compressed && !SMALL_ALREADY.includes(extname(name))) headers["Content-Encoding"] = "br";
      response.writeHead(200, headers).end("Content-Encoding" in headers ? brotli(name, body) : body);
    } catch {
      response.writeHead(404, { "Content-Type": "text/plain" }).end("not found");
    }
  });
  await new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(wanted, "127.0.0.1", resolve);
  });
  const { port } = server.address();
  const host = {
    /** By number and by name: two origins for a browser. */
    byNumber: `http://127.0.0.1:${port}`,
    byName: `http://localhost:${port}`,
    /** The path of every request so far, by pages and by their workers. */
    asked,
    close: () => {
      running.delete(host);
      server.closeAllConnections();
      return new Promise((resolve) => server.close(resolve));
    },
  };
  running.add(host);
  return host;
}
