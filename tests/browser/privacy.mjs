// Nothing is sent, and nothing is kept but the page's own files; and the page that says so.

import { createRequire } from "node:module";
import { readdirSync, readFileSync } from "node:fs";
import { Bench } from "./bench.mjs";
import { equal, none, ok } from "./expect.mjs";
import { misfits } from "./geometry.mjs";
import { copied, kept } from "./kept.mjs";
import { serve } from "./server.mjs";
import { openWindow } from "./visit.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What of `all` is more than the files in `folder`, a line each. */
function tooMuch(all, folder, base) {
  const own = readdirSync(folder).map((name) => base + (name === "index.html" ? "" : name));
  const { cookies, local, session, databases, copies } = all;
  const lines = (what, names) => names.map((name) => `${what} ${name}`);
  const files = Object.entries(copies).flatMap(([name, urls]) => (name.startsWith(`evenkeel ${base} `) ? urls.filter((url) => !own.includes(url)) : [name]));
  return [...lines("a cookie", cookies), ...lines("local", local), ...lines("session", session), ...lines("a database", databases), ...lines("a copy of", files)];
}

/** A page that does all that ours must not. */
function badPage(elsewhere) {
  return `<!doctype html><title>Bad</title><link rel="icon" href="data:,"><script type="module">
    document.cookie = "who=1";
    localStorage.setItem("who", "1");
    sessionStorage.setItem("who", "1");
    await new Promise((done) => (indexedDB.open("who").onsuccess = done));
    await (await caches.open("who")).put("/who", new Response("1"));
    await (await caches.open("evenkeel " + new URL("./", location) + " 1")).put("/who", new Response("1"));
    await fetch("${elsewhere}/elsewhere", { mode: "no-cors" }).catch(() => {});
    navigator.sendBeacon("/sent", "1");
    document.title = "Done";
  </script>`;
}

/** Pages to read. */
const LETTERS = ["privacy", "teachers"];

const LOOKS = [[360, 740], [800, 600], [1280, 800]].flatMap(([width, height]) => [false, true].map((dark) => ({ width, height, dark })));

export default {
  "a session keeps the page's own files, and sends nothing": async ({ open, site, folder }) => {
    // The window complains of any request elsewhere and of any that is more than a GET.
    const bench = await open();
    const { page } = bench;
    await copied(page);
    await bench.add("acid", "2.0");
    await bench.panel("Set up");
    await bench.field(/^Propanoic acid/, /^Concentration/).fill("0.2");
    await bench.settle();
    for (const panel of ["Working", "Limits", "Practice"]) await bench.panel(panel);
    await page.getByRole("heading", { name: /^Question/ }).waitFor();
    await page.goto(`${site.byNumber}/privacy.html`);
    const all = await kept(page);
    none(tooMuch(all, folder, `${site.byNumber}/`));
    equal(Object.keys(all.copies).length, 1, "copies of the page");
  },

  "a page that sends and keeps is found out": async ({ browser, folder }) => {
    const elsewhere = await serve({ pages: { "/elsewhere": "" } });
    const host = await serve({ pages: { "/": badPage(elsewhere.byNumber), "/sent": "" } });
    const { context, page, complaints } = await openWindow(browser, [host.byNumber]);
    try {
      await page.goto(`${host.byNumber}/`);
      await page.waitForFunction(() => document.title === "Done");
      const found = tooMuch(await kept(page), folder, `${host.byNumber}/`);
      equal(found, ["a cookie who", "local who", "session who", "a database who", `a copy of ${host.byNumber}/who`, "a copy of who"], "kept");
      for (const sent of [/a request elsewhere: .*\/elsewhere$/, /a POST request: .*\/sent$/]) ok(complaints.some((line) => sent.test(line)), `nothing told ${sent}: ${complaints}`);
    } finally {
      await context.close();
      await host.close();
      await elsewhere.close();
    }
  },

  "the way to the privacy page": async ({ open, site }) => {
    const bench = await open();
    await bench.panel("Limits");
    const link = bench.page.getByRole("link", { name: /^Privacy/ });
    const [opened] = await Promise.all([bench.page.context().waitForEvent("page"), link.click()]);
    await opened.getByRole("heading", { name: "Privacy", exact: true }).waitFor();
    equal(opened.url(), `${site.byNumber}/privacy.html`, "the address of the privacy page");
    equal(await opened.evaluate(() => window.opener), null, "its hold on the bench");
    await opened.getByRole("link", { name: /bench/ }).click();
    await Bench.on(opened);
  },

  "the pages to read fit, read well and have no script": async ({ visit, site, folder }) => {
    const problems = [];
    for (const [look, letter] of LOOKS.flatMap((look) => LETTERS.map((letter) => [look, letter]))) {
      const page = await visit(look);
      await page.goto(`${site.byNumber}/${letter}.html`);
      const name = `${letter}-${look.width}x${look.height}${look.dark ? "-dark" : ""}`;
      problems.push(...(await page.evaluate(misfits)).map((line) => `${name}: ${line}`));
      await page.screenshot({ path: `target/screens/${name}.png`, fullPage: true });
      await page.evaluate(axe);
      const { violations } = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
      problems.push(...violations.map(({ id, nodes }) => `${name}: ${id} ${nodes[0].target} ${nodes[0].failureSummary}`));
    }
    none(problems);
    for (const letter of LETTERS) {
      const html = readFileSync(`${folder}/${letter}.html`, "utf8");
      ok(!/<script|\son\w+=|style=/i.test(html), `there is a script or a style in ${letter}`);
      const policy = html.match(/Content-Security-Policy" content="([^"]*)"/)[1];
      ok(policy.startsWith("default-src 'none';") && !/unsafe|script-src|\*/.test(policy), policy);
    }
  },

  "what the privacy page says is so": async ({ visit, site }) => {
    const page = await visit();
    await page.goto(`${site.byNumber}/privacy.html`);
    const text = await page.locator("main").innerText();
    // The name under which results are kept, and the words on the buttons, as the source has them.
    const source = (path, pattern) => readFileSync(path, "utf8").match(pattern)[1];
    const words = [
      source("src/web/keep.rs", /KEY: &str = "([^"]+)"/),
      source("src/app/words/objective.rs", /KEEP: &str = "([^"]+)"/),
      source("src/app/words/objective.rs", /CLEAR: &str = "([^"]+)"/),
      `${source("src/app/progress.rs", /REMEMBERED: usize = (\d+)/)} results`,
    ];
    none(words.filter((word) => !text.includes(word)).map((word) => `it does not say ${word}`));
    const checks = await page.locator("td > code").allInnerTexts();
    none(checks.filter((name) => !readdirSync("tests/browser").includes(name)).map((name) => `there is no check ${name}`));
  },
};
