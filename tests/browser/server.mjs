// Serves a folder on a loopback port, a free one unless it is told which, as a plain host would: right types, the page's own
// policy as a header too, nothing compressed.

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";
import { text } from "node:stream/consumers";

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
};

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
 * answered.
 */
export async function serve({ folder, pages = {}, shared = false, isolated = false, under = "", port: wanted = 0, posted = null, reports = false, before = () => {} }) {
  const asked = [];
  const server = createServer(async (request, response) => {
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
      response.writeHead(200, headers).end(body);
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
