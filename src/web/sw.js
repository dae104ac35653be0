// Keeps a copy of the page's own files in the browser, so that any link to the page opens without
// a network. A build is kept whole or not at all: every file is held against its digest before it
// is kept, so a host that is half-way through an update cannot leave two builds in one copy.
//
// A new build takes over as soon as it is whole: the next page that is opened is of the new build.
// Pages of the old one may still be open and need a file of theirs, so its copy stays until they
// are closed. Files whose names hold a digest may come from any copy, for they cannot be mixed up.
//
// BUILD and FILES are filled in by .dev/worker.mjs: a digest of the build, and the SHA-256 of
// every file by its name.

const SCOPE = self.registration.scope;
/** Copies of this page begin so; others on the same host, another folder's included, are not ours. */
const OURS = `evenkeel ${SCOPE} `;
const COPY = OURS + BUILD;

/** Names that hold a digest of the content. */
const BY_CONTENT = /-[0-9a-f]{16}\.\w+$/;

/** Where a file is asked for: the page under its folder, for some hosts redirect its full name. */
const address = (name) => SCOPE + (name === "index.html" ? "" : name);

async function copies() {
  return (await caches.keys()).filter((name) => name.startsWith(OURS));
}

/** A file in this build's copy, or, where its name is its content, in any. */
async function kept(name) {
  const others = BY_CONTENT.test(name) ? await copies() : [];
  for (const cacheName of [COPY, ...others]) {
    const found = await caches.match(address(name), { cacheName });
    if (found) return found;
  }
  return undefined;
}

async function digest(bytes) {
  return btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))));
}

/** A file of this build, from the nearest place that has it. */
async function obtain(name) {
  const ways = [() => kept(name), () => fetch(address(name), { cache: "force-cache" }), () => fetch(address(name), { cache: "reload" })];
  for (const way of ways) {
    const response = await way();
    if (!response?.ok) continue;
    const bytes = await response.arrayBuffer();
    // Made anew, because an answer that was redirected may not open a page.
    if ((await digest(bytes)) === FILES[name]) return new Response(bytes, { headers: response.headers });
  }
  throw new Error(`${name} is not the file of this build`);
}

/** Keeps the build. What an attempt without success leaves behind is where the next one goes on. */
async function keep() {
  const copy = await caches.open(COPY);
  for (const name of Object.keys(FILES)) await copy.put(address(name), await obtain(name));
  await self.skipWaiting();
}

/** Pages that were opened with this build. */
const current = new Set();
let tidied = false;

/** Deletes the copies of other builds, once no page of theirs is open. */
async function tidy() {
  if (tidied) return;
  const open = await clients.matchAll({ includeUncontrolled: true, type: "window" });
  if (open.some(({ id, url }) => url.startsWith(SCOPE) && !current.has(id))) return;
  tidied = true;
  for (const name of await copies()) if (name !== COPY) await caches.delete(name);
}

async function answer(name, request) {
  // A browser may have taken the copy away, or not let it be read.
  return (await kept(name).catch(() => undefined)) ?? fetch(request);
}

addEventListener("install", (event) => event.waitUntil(keep()));

addEventListener("activate", (event) => event.waitUntil(Promise.all([clients.claim(), tidy()])));

addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  const path = origin + pathname;
  if (request.method !== "GET" || !path.startsWith(SCOPE)) return;
  // What follows the path says what the page shows, not which page it is.
  const name = path.slice(SCOPE.length) || "index.html";
  if (!Object.hasOwn(FILES, name) && !BY_CONTENT.test(name)) return;
  if (request.mode === "navigate") current.add(event.resultingClientId);
  else event.waitUntil(tidy());
  event.respondWith(answer(name, request));
});
