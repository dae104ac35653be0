// Closed doors: what the built documents allow, what becomes markup, whose messages are heard, and
// that what somebody typed is shown as they typed it.

import { readdirSync, readFileSync } from "node:fs";
import { Bench } from "./bench.mjs";
import { benchIn, listen } from "./course-page.mjs";
import { EDITIONS, FOLDER, unpacked } from "./course-system.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { prints } from "./lesson.mjs";
import { serve } from "./server.mjs";

/** The policy of a built document: its directives, {name: values}. */
function policy(html) {
  const text = html.match(/http-equiv="Content-Security-Policy" content="([^"]*)"/)?.[1] ?? "";
  return Object.fromEntries(text.split(";").map((part) => part.trim().split(/\s+/)).map(([name, ...values]) => [name, values]));
}

/** What a document with a program may allow its scripts; the file's are known by their digests. */
const OF_SCRIPTS = { "index.html": /^('self'|'wasm-unsafe-eval')$/, "lesson-file.html": /^('sha256-[\w+/]{43}='|'wasm-unsafe-eval')$/ };

/** What is wrong with the policy of the document `name`. */
function open(name, html) {
  const allowed = policy(html);
  const problems = [];
  const is = (directive, ...values) => {
    if (allowed[directive]?.join(" ") !== values.join(" ")) problems.push(`${name}: ${directive} is ${allowed[directive]}`);
  };
  is("default-src", "'none'");
  is("base-uri", "'none'");
  is("form-action", "'none'");
  const everything = Object.values(allowed).flat();
  for (const value of everything) if (/unsafe-inline|'unsafe-eval'|unsafe-hashes|strict-dynamic|^\*|^https?:|^wss?:/.test(value)) problems.push(`${name} allows ${value}`);
  const scripts = OF_SCRIPTS[name];
  if (scripts) {
    problems.push(...(allowed["script-src"] ?? ["no script-src"]).filter((value) => !scripts.test(value)).map((value) => `${name}: script-src has ${value}`));
    is("require-trusted-types-for", "'script'");
    is("trusted-types", ...(name === "index.html" ? ["default"] : ["default", "program"]));
  } else if (allowed["script-src"] || /<script/i.test(html)) problems.push(`${name} has a script`);
  const inline = html.replace(/<script>[^]*?<\/script>/g, "").match(/\son\w+="|\sstyle="|javascript:/i);
  if (inline) problems.push(`${name} has ${inline[0]}`);
  if (html.indexOf("Content-Security-Policy") > html.search(/<(script|link|style)/)) problems.push(`${name}: something comes before its policy`);
  return problems;
}

const documents = (folder) => readdirSync(folder).filter((name) => name.endsWith(".html"));

/** What is on the list of what markup may consist of. */
function allowedMarkup() {
  const source = readFileSync("src/web/allowed-markup.js", "utf8");
  const list = (name) => [...source.match(new RegExp(`var ${name} =([^;]*);`))[1].matchAll(/"([^"]*)"/g)].map((part) => part[1]).join("").split("|");
  return { elements: list("elements"), attributes: list("attributes") };
}

/** Markup that the program itself consists of: its elements and attributes, from its own data. */
function inProgram(folder) {
  const [elements, attributes] = [new Set(), new Set()];
  for (const name of readdirSync(folder).filter((n) => n.endsWith(".wasm"))) {
    const text = readFileSync(`${folder}/${name}`, "latin1");
    // Texts stand end to end there: a name without its end runs into the next text. No element's is so long.
    for (const [, tag] of text.matchAll(/<\/?([a-z][a-z0-9]{1,19}|[abgip])(?=[ >]|\/>)/g)) elements.add(tag);
    for (const [, attribute] of text.matchAll(/ ([a-z][a-zA-Z-]*)=["']/g)) attributes.add(attribute);
  }
  // The one place where a name is put between its brackets later.
  for (const [, tag] of readFileSync("src/lesson/sums/writers.rs", "utf8").matchAll(/element\("(\w+)"/g)) elements.add(tag);
  return { elements: [...elements], attributes: [...attributes] };
}

/** Written into files that are taken away: a course's manifest, a frame to copy, a file's head. */
const TAKEN_AWAY = {
  elements: ["file", "iframe", "item", "manifest", "meta", "metadata", "organization", "organizations", "resource", "resources", "schema", "schemaversion", "title"],
  attributes: [
    "adlcp", "choice", "completionSetByContent", "content", "default", "encoding", "flow", "identifier", "identifierref", "imsss", "objectiveSetByContent",
    "src", "title", "type", "version", "xmlns",
  ],
};

/** What must never become markup, in any way that a page's script could try. */
export const REFUSED = [
  "<img src=x onerror=alert(1)>",
  "<p onclick=\"alert(1)\">text</p>",
  "<script>alert(1)</script>",
  "<svg><script>alert(1)</script></svg>",
  "<a href=\"javascript:alert(1)\">text</a>",
  "<a href=\"java&#115;cript:alert(1)\">text</a>",
  "<a href='javascript:alert(1)'>text</a>",
  "<a href=\"data:text/html,1\">text</a>",
  "<iframe srcdoc=\"1\"></iframe>",
  "<p style=\"color: red\">text</p>",
  "<p class=\"a\"onclick=\"alert(1)\">text</p>",
  "<<p>img src=x onerror=alert(1)>",
  "<p class=\"a\" <img src=x onerror=alert(1)>",
  "<!--><img src=x onerror=alert(1)>-->",
  "<math><mtext><style><img src=x onerror=alert(1)></style></mtext></math>",
  "<form action=\"//elsewhere.example\"><button>text</button></form>",
  "<base href=\"//elsewhere.example/\">",
  "<p\nonclick=alert(1)>text</p>",
];

/** Runs in the page: which of `texts` become markup, and which other ways are open. */
export async function tried(texts) {
  // What a driver evaluates may evaluate; what the page runs by itself may not.
  await new Promise((done) => setTimeout(done));
  const open = [];
  const attempt = (what, act) => {
    try {
      act();
      open.push(what);
    } catch (error) {
      // By name: a driver may run this in a realm of its own.
      if (!/^(Type|Eval)Error$/.test(error.name)) open.push(`${what}: ${error}`);
    }
  };
  const place = () => document.createElement("div");
  for (const text of texts) attempt(text, () => { place().innerHTML = text; });
  const [bad] = texts;
  attempt("outerHTML", () => { const p = document.createElement("p"); place().append(p); p.outerHTML = bad; });
  attempt("insertAdjacentHTML", () => place().insertAdjacentHTML("beforeend", bad));
  attempt("DOMParser", () => new DOMParser().parseFromString(bad, "text/html"));
  attempt("document.write", () => document.write(bad));
  attempt("srcdoc", () => { document.createElement("iframe").srcdoc = bad; });
  attempt("a script's text", () => { document.createElement("script").textContent = "1"; });
  attempt("a script's address", () => { document.createElement("script").src = "boot.js"; });
  attempt("eval", () => (0, window.eval)("1"));
  attempt("another policy", () => trustedTypes.createPolicy("mine", { createHTML: (text) => text }));
  attempt("the same policy again", () => trustedTypes.createPolicy("default", { createHTML: (text) => text }));
  attempt("the file's policy", () => trustedTypes.createPolicy("program", { createScript: (text) => text }));
  return open;
}

const REFUSING = [/securitypolicyviolation|Trusted|trusted|Content Security Policy|EvalError/];

/** Words as somebody types who means harm, or chemistry: below the longest title. */
const TYPED = "<img src=x onerror=hit()>&lt;<b>K";

export default {
  "each document's policy is closed": async ({ folder }) => {
    const names = documents(folder);
    equal(names.sort(), ["index.html", "lesson-file.html", "privacy.html", "teachers.html"], "documents");
    none(names.flatMap((name) => open(name, readFileSync(`${folder}/${name}`, "utf8"))));
    unpacked(folder);
    none(Object.keys(EDITIONS).flatMap((edition) => open("lesson-file.html", readFileSync(`${FOLDER}/${edition}/index.html`, "utf8")).map((line) => `in a package, ${edition}: ${line}`)));
    // The check sees what it should.
    const html = readFileSync(`${folder}/index.html`, "utf8");
    for (const [from, to] of [["script-src 'self'", "script-src 'self' 'unsafe-inline'"], ["; trusted-types default", ""], ["base-uri 'none'", "base-uri 'self'"], ["<h1>", "<h1 onclick=\"1\">"]]) {
      ok(open("index.html", html.replace(from, to)).length > 0, `${to} is not seen`);
    }
  },

  "what the program makes is on the list of markup, and nothing else is": async ({ folder }) => {
    const [listed, made] = [allowedMarkup(), inProgram(folder)];
    // The link's own attribute has a rule of its own; what plotters writes is put together there.
    const known = { elements: [...listed.elements, ...TAKEN_AWAY.elements], attributes: [...listed.attributes, ...TAKEN_AWAY.attributes, "href"] };
    ok(made.elements.includes("msqrt") && made.elements.length > 30 && made.attributes.length > 20, `it makes ${made.elements.length} elements, ${made.attributes.length} attributes`);
    for (const kind of ["elements", "attributes"]) none(made[kind].filter((name) => !known[kind].includes(name)).map((name) => `not on the list of ${kind}: ${name}`));
    const harmful = /^(on.*|style|src|srcdoc|action|formaction|href|xlink.*|script|style|iframe|object|embed|form|base|meta|link|template|foreignobject|use|animate|set)$/i;
    none([...listed.elements, ...listed.attributes].filter((name) => harmful.test(name)));
  },

  "no text becomes markup that is not ours, nor a script": async ({ visit, site, folder }) => {
    for (const address of [`${site.byNumber}/`, `${site.byNumber}/lesson-file.html`]) {
      const page = await visit({ expected: REFUSING });
      await page.goto(address);
      const bench = await Bench.on(page);
      equal(await page.evaluate(tried, REFUSED), [], `${address}: open ways`);
      equal(await page.evaluate(() => {
        const place = document.createElement("div");
        place.innerHTML = "<p class=\"a\">n(H<sup>+</sup>) &lt; 1</p>";
        return place.textContent;
      }), "n(H+) < 1", "markup of ours");
      await bench.add("acid", "0.5");
    }
  },

  "what was typed is shown as it was typed": async ({ open: opened, visit, site }) => {
    const hit = () => { window.hits = 0; window.hit = () => (window.hits += 1); };
    const bench = await opened({ before: [hit] });
    const { page } = bench;
    /** The pieces of the page that show the words, and whether anything came of them. */
    const shown = async (where, selector) => {
      const texts = await page.locator(selector).allTextContents();
      ok(texts.some((text) => text.includes(TYPED)), `${where}: ${texts}`);
      equal(await page.evaluate(() => [window.hits, document.images.length]), [0, 0], `${where}: what came of it`);
    };
    await bench.panel("Lesson");
    await page.locator("#panel .lesson").waitFor();
    await page.evaluate(() => document.querySelectorAll("#panel details").forEach((part) => { part.open = true; }));
    const fields = page.locator("#panel .lesson input[maxlength]");
    await fields.nth(0).fill(TYPED);
    await fields.nth(1).fill(TYPED);
    await bench.settle();
    const link = await page.locator("#lesson-link").inputValue();
    const frame = await page.locator("#lesson-frame").inputValue();
    ok(!frame.includes("<img"), `the frame to copy: ${frame}`);
    ok((await page.locator(".code svg").count()) === 1, "the code for cameras");

    // On paper, laid and not printed: without its end the browser leaves it where it is.
    await page.evaluate(() => { window.print = () => {}; });
    await prints(page);
    for (const name of [/^Print the questions/, /^Print the answers/, /^Print the bench/]) {
      const button = page.getByRole("button", { name });
      if (!(await button.count())) throw new Error(`no button ${name}: ${await page.locator("#panel button").allInnerTexts()}`);
      await button.click();
      await page.locator("body > .paper").waitFor({ state: "attached" });
      await shown(`paper, ${name}`, "body > .paper");
    }

    // The file, from the link: its words stand in it as data.
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: /one file/i }).click()]);
    const html = readFileSync(await download.path(), "utf8");
    ok(!html.includes("<img") && !html.includes(TYPED), "the words are in the file as they are");

    const lesson = await visit({ before: [hit] });
    await lesson.goto(link);
    await Bench.on(lesson);
    const told = await lesson.locator(".told").allTextContents();
    ok(told.some((text) => text.split(TYPED).length === 3), `a lesson that is opened: ${told}`);
    equal(await lesson.evaluate(() => [window.hits, document.images.length]), [0, 0], "what came of it");

    // An answer, and a concentration.
    await bench.panel("Set up");
    await page.locator("#panel fieldset input").first().fill(TYPED);
    await bench.panel("Practice");
    await page.getByRole("heading", { name: /^Question/ }).waitFor();
    for (const place of [1, 2]) {
      const kind = page.locator(`#panel .kinds button:nth-of-type(${place})`);
      if (await kind.isVisible()) await kind.click();
    }
    const entry = page.locator("#panel .entry:visible input").first();
    await entry.fill(TYPED);
    await page.getByRole("button", { name: "Check", exact: true }).click();
    await page.locator(".says:not(:empty)").first().waitFor();
    equal([await entry.inputValue(), ...(await page.evaluate(() => [window.hits, document.images.length]))], [TYPED, 0, 0], "an answer");
    ok(site.byNumber, "served");
  },

  "messages of anyone but the parent": async ({ visit, site, folder }) => {
    // A page that shows the widget, a frame beside it, and one without an origin beside both.
    const beside = await serve({ pages: { "/": '<!doctype html><title>Beside</title><link rel="icon" href="data:,">' } });
    const address = `${site.byName}/`;
    const outside = await serve({
      folder,
      pages: {
        "/course": `<!doctype html><title>Course</title><link rel="icon" href="data:,"><iframe name="widget" src="${address}" width="900" height="700"></iframe>
<iframe name="beside" src="${beside.byNumber}/"></iframe><iframe name="nobody" sandbox="allow-scripts" src="${beside.byNumber}/"></iframe>`,
      },
    });
    const page = await visit({ origins: [outside.byNumber, site.byName, beside.byNumber], before: [listen] });
    await page.goto(`${outside.byNumber}/course`);
    const widget = page.frame({ name: "widget" });
    const bench = await benchIn(page, widget);
    const count = () => widget.evaluate(() => window.arrived ?? 0);
    await widget.evaluate(() => addEventListener("message", () => { window.arrived = (window.arrived ?? 0) + 1; }));
    // A frame that the widget itself shows, as the preview is.
    await widget.evaluate((src) => new Promise((done) => {
      const child = document.createElement("iframe");
      Object.assign(child, { src, name: "child", onload: done });
      document.body.append(child);
    }), address);
    const command = { type: "evenkeel:do", v: 1, command: "add", reagent: "acid", mol: 0.002 };
    const senders = {
      "a frame beside it": () => page.frame({ name: "beside" }).evaluate((c) => parent.frames[0].postMessage(c, "*"), command),
      "a frame without an origin": () => page.frame({ name: "nobody" }).evaluate((c) => parent.frames[0].postMessage(c, "*"), command),
      "a frame in it": () => page.frame({ name: "child" }).evaluate((c) => parent.postMessage(c, "*"), command),
      "itself": () => widget.evaluate((c) => window.postMessage(c, "*"), command),
      "an event that nobody sent": () => widget.evaluate((data) => void dispatchEvent(new MessageEvent("message", { data })), command),
      "an event of another source": () => widget.evaluate((data) => void dispatchEvent(new MessageEvent("message", { data, source: window })), command),
    };
    for (const [who, sends] of Object.entries(senders)) {
      const before = await count();
      await sends();
      await until(count, (now) => now > before, `a message of ${who} arrives`);
      equal((await bench.read()).texts.baseAmount, "10.0 mmol", `A⁻ after a message of ${who}`);
    }
    await page.evaluate((c) => frames[0].postMessage(c, "*"), command);
    await until(async () => (await bench.read()).texts.baseAmount, (now) => now === "8.0 mmol", "the parent is obeyed");

    // A page of its own has no parent: not even its own messages count.
    const alone = await visit();
    await alone.goto(`${site.byNumber}/`);
    const own = await Bench.on(alone);
    await alone.evaluate((c) => new Promise((done) => {
      addEventListener("message", () => done());
      window.postMessage(c, "*");
    }), command);
    equal((await own.read()).texts.baseAmount, "10.0 mmol", "A⁻ after a message to itself");
    await outside.close();
    await beside.close();
  },
};
