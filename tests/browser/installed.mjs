// The copy of the page's own files: any link opens without a network, and a new build takes the
// place of the old one whole.

import { cpSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { addWorker } from "../../.dev/worker.mjs";
import { Bench } from "./bench.mjs";
import { equal, ok, until } from "./expect.mjs";
import { copied, kept } from "./kept.mjs";
import { landed } from "./landing.mjs";
import { serve } from "./server.mjs";

const FOLDER = "target/installed";

/** Puts the build at `from` where a host serves it, in place of what was there. */
function deploy(from, name = "served") {
  const to = join(FOLDER, name);
  rmSync(to, { recursive: true, force: true });
  mkdirSync(FOLDER, { recursive: true });
  cpSync(from, to, { recursive: true });
  return to;
}

/** Another build: its lesson and its glue have other names, and its page says so. */
function nextBuild(folder) {
  const next = deploy(folder, "next");
  const named = (pattern) => readdirSync(next).find((name) => pattern.test(name));
  const renamed = (name) => name.replace(/-[0-9a-f]{16}\./, "-00000000000000bb.");
  const change = (name, edit) => writeFileSync(join(next, name), edit(readFileSync(join(next, name), "utf8")));
  const [lesson, glue] = [named(/^split_lesson-/), named(/^evenkeel-.*\.js$/)];
  change(glue, (text) => text.replaceAll(lesson, renamed(lesson)));
  change("index.html", (text) => text.replaceAll(glue, renamed(glue)).replace("<html ", '<html data-build="next" '));
  for (const name of [lesson, glue]) renameSync(join(next, name), join(next, renamed(name)));
  addWorker(next);
  return next;
}

/** A browser asks for a page's icon when it likes, also for one that it was given before. */
const ICON = /\/icon-[0-9a-f]+\.svg/;

const buildOf = (page) => page.evaluate(() => document.documentElement.dataset.build ?? "first");

/** The files that a folder holds, as the addresses under which they are kept. */
function addresses(folder, base) {
  // The lesson's file is what a teacher takes away, and too much for every visitor to keep.
  const names = readdirSync(folder).filter((name) => !["sw.js", "lesson-file.html"].includes(name));
  return names.map((name) => base + (name === "index.html" ? "" : name)).sort();
}

/** Goes on without a network to a link that was never followed, and uses all parts of the page. */
async function worksWithoutNetwork(page, base) {
  await landed(page);
  await page.context().setOffline(true);
  await page.goto(`${base}?v=1&x=y`);
  const bench = await Bench.on(page);
  await bench.add("acid", "2.0");
  equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
  await bench.panel("Practice");
  await page.getByRole("heading", { name: /^Question/ }).waitFor();
  await page.goto(`${base}privacy.html`);
  await page.getByRole("heading", { name: "What is sent" }).waitFor();
}

/** Counts how often another worker takes over the page; runs before the page's own scripts. */
function countTakeovers() {
  window.takeovers = 0;
  navigator.serviceWorker.addEventListener("controllerchange", () => (window.takeovers += 1));
}

/** Waits until another worker has taken over the page. */
const taken = (page) => page.waitForFunction(() => window.takeovers > 0);

/** The width and height in the head of a PNG. */
function sizeOf(path) {
  const bytes = readFileSync(path);
  equal(bytes.subarray(1, 4).toString(), "PNG", path);
  return `${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`;
}

export default {
  "after one visit any link opens without a network": async ({ open, site }) => {
    const { page } = await open();
    await copied(page);
    await worksWithoutNetwork(page, `${site.byNumber}/`);
  },

  "in a folder of its host, and nothing of the host's is touched": async ({ visit, folder }) => {
    const host = await serve({ folder, under: "/courses/chemistry", pages: { "/courses/chemistry/notes": "<!doctype html><title>Notes</title><link rel=icon href=data:,>" } });
    const base = `${host.byNumber}/courses/chemistry/`;
    const page = await visit({ origins: [host.byNumber], expected: [/ERR_INTERNET_DISCONNECTED/] });
    await page.goto(base);
    await copied(page);
    const { copies } = await kept(page);
    equal(Object.values(copies), [addresses(folder, base)], "files kept");
    await worksWithoutNetwork(page, base);
    // Another page in the same folder is the host's: it is neither kept nor replaced by ours.
    ok(await page.goto(`${base}notes`).then(() => false, () => true), "a page of the host was answered without a network");
    await page.context().setOffline(false);
    await page.goto(`${base}notes`);
    equal(await page.title(), "Notes", "the host's own page");
    await page.close();
    await host.close();
  },

  "nothing is fetched twice, and the copy is made once the page has started": async ({ visit, folder }) => {
    const host = await serve({ folder });
    const page = await visit({ origins: [host.byNumber] });
    await page.goto(`${host.byNumber}/`);
    await copied(page);
    const twice = host.asked.filter((path, i) => host.asked.indexOf(path) !== i && !ICON.test(path));
    equal(twice, [], "asked for more than once");
    const [worker, wasm] = [/^\/sw\.js$/, /^\/evenkeel-.*\.wasm$/].map((name) => host.asked.findIndex((path) => name.test(path)));
    ok(wasm >= 0 && worker > wasm, `the order of requests is ${host.asked}`);
    await page.close();
    await host.close();
  },

  "in a frame there is no copy": async ({ visit, folder }) => {
    const widget = await serve({ folder });
    const frame = (source) => `<!doctype html><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,"><iframe src="${source}" title="Evenkeel" width="800" height="700"></iframe>`;
    const outside = await serve({ pages: { "/": frame(`${widget.byName}/`) } });
    const beside = await serve({ folder, pages: { "/course": frame("/") } });
    for (const [host, address] of [[widget, `${outside.byNumber}/`], [beside, `${beside.byName}/course`]]) {
      const page = await visit({ origins: [outside.byNumber, widget.byName, beside.byName] });
      await page.goto(address);
      const bench = await Bench.on(page.frames()[1]);
      await bench.page.waitForFunction(() => document.readyState === "complete" && document.documentElement.dataset.boot === "started");
      await bench.add("acid", "2.0");
      await bench.panel("Practice");
      await bench.page.getByRole("heading", { name: /^Question/ }).waitFor();
      ok(!host.asked.includes("/sw.js"), `the worker was asked for in a frame of ${address}`);
      await page.close();
    }
    // The same page by itself does ask for it.
    const page = await visit({ origins: [widget.byName] });
    await page.goto(`${widget.byName}/`);
    await copied(page);
    ok(widget.asked.includes("/sw.js"), "the worker was not asked for by the page itself");
    await page.close();
    for (const host of [widget, outside, beside]) await host.close();
  },

  "a browser without workers, or that refuses one": async ({ open }) => {
    const refuse = () => (ServiceWorkerContainer.prototype.register = () => Promise.reject(new DOMException("no", "SecurityError")));
    for (const options of [{ worker: false }, { before: [refuse] }]) {
      const bench = await open(options);
      await bench.add("acid", "2.0");
      equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
      equal((await kept(bench.page)).copies, {}, "copies");
    }
  },

  "a new build is used at the next visit, whole": async ({ visit, folder }) => {
    const served = deploy(folder);
    const host = await serve({ folder: served });
    const base = `${host.byNumber}/`;
    const page = await visit({ origins: [host.byNumber], before: [countTakeovers] });
    await page.goto(base);
    await copied(page);
    const others = ["somebody else's", `evenkeel ${base}other/ 0`];
    await page.evaluate(async (names) => {
      for (const name of names) await (await caches.open(name)).put("/note", new Response("mine"));
    }, others);
    const before = Object.keys((await kept(page)).copies);

    deploy(nextBuild(folder));
    await page.goto(`${base}?visit=1`);
    equal(await buildOf(page), "first", "the build of the visit that finds a new one");
    await taken(page);
    // The old page goes on with its own files, though the host no longer has them.
    const bench = await Bench.on(page);
    const second = await page.context().newPage();
    await second.goto(`${base}?visit=2`);
    await Bench.on(second);
    equal(await buildOf(second), "next", "the build of the next visit");
    const old = (await kept(page)).copies;
    ok(before.every((name) => name in old), `while an old page is open, its copy is gone: ${Object.keys(old)}`);
    await bench.panel("Practice");
    await page.getByRole("heading", { name: /^Question/ }).waitFor();
    await second.close();

    await page.goto(`${base}?visit=3`);
    await worksWithoutNetwork(page, base);
    const left = (name) => others.includes(name) || !before.includes(name);
    const { copies } = await until(() => kept(page), (now) => Object.keys(now.copies).every(left), "the old copy gone");
    equal(Object.keys(copies).filter((name) => others.includes(name)).length, 2, "copies of others that stay");
    equal(Object.entries(copies).find(([name]) => !others.includes(name))[1], addresses(served, base), "files of the new build");
    await page.close();
    await host.close();
  },

  "half a build is not taken": async ({ visit, folder }) => {
    const served = deploy(folder);
    const host = await serve({ folder: served });
    const page = await visit({ origins: [host.byNumber], before: [countTakeovers] });
    await page.goto(`${host.byNumber}/`);
    await copied(page);
    const next = nextBuild(folder);
    // The host has the new worker and all new files but the page itself.
    for (const name of readdirSync(next).filter((file) => file !== "index.html")) cpSync(join(next, name), join(served, name));
    const given = host.asked.length;
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      await registration.update();
      const worker = registration.installing;
      if (worker) await new Promise((done) => worker.addEventListener("statechange", () => ["redundant", "activated"].includes(worker.state) && done()));
    });
    ok(host.asked.slice(given).includes("/"), "the new build was not looked at");
    await page.goto(`${host.byNumber}/?again`);
    await Bench.on(page);
    equal(await buildOf(page), "first", "the build in use");
    // Once the host has it all, it is taken.
    cpSync(join(next, "index.html"), join(served, "index.html"));
    await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
    await taken(page);
    await page.goto(`${host.byNumber}/?at-last`);
    equal(await buildOf(page), "next", "the build in use");
    await page.close();
    await host.close();
  },

  "what a browser is told for installing it": async ({ open, folder }) => {
    const { page } = await open();
    await copied(page);
    const browser = await page.context().newCDPSession(page);
    const { errors, data } = await browser.send("Page.getAppManifest");
    equal(errors, [], "what the browser has against the manifest");
    const { installabilityErrors } = await browser.send("Page.getInstallabilityErrors");
    // A window of these checks is a private one, in which a browser installs nothing.
    equal(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== "in-incognito"), [], "what the browser has against installing");
    const { icons, background_color: ground, theme_color: theme, ...told } = JSON.parse(data);
    for (const [key, wanted] of Object.entries({ name: "Evenkeel", short_name: "Evenkeel", scope: "./", start_url: "./", display: "standalone" })) equal(told[key], wanted, key);
    ok(told.id && !/^\w+:|^\//.test(told.id), `the id ${told.id} names a host or its root`);
    const paper = readFileSync("style/tokens.css", "utf8").match(/--paper: (#\w+)/)[1];
    equal([ground, theme], [paper, paper], "colors");
    equal(icons.map(({ sizes, purpose = "any" }) => `${sizes} ${purpose}`), ["192x192 any", "512x512 any", "512x512 maskable"], "icons");
    for (const { src, sizes, type } of icons) equal([sizeOf(join(folder, src)), type], [sizes, "image/png"], src);
  },
};
