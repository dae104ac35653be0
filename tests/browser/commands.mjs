// Who may ask a frame for something, and whatever may be asked.

import { Bench } from "./bench.mjs";
import { ask, benchIn, course, heard, listen, odd, plain, send, states } from "./course-page.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { serve } from "./server.mjs";

export default {
  "only its parent may ask": async (given) => {
    const command = { type: "evenkeel:do", v: 1, command: "add", reagent: "acid", mol: 0.002 };
    // A frame beside it sends as soon as it can reach it.
    const rogue = `<script>setInterval(() => parent.frames[0].postMessage(${JSON.stringify(command)}, "*"), 20)</script>`;
    const beside = await serve({ pages: { "/": `<!doctype html><title>Rogue</title><link rel="icon" href="data:,">${rogue}` } });
    const more = `<iframe title="Rogue" src="${beside.byNumber}"></iframe>`;
    const visit = (options) => given.visit({ ...options, origins: [...options.origins, beside.byNumber] });
    const { page, frame, close } = await course({ ...given, visit }, { html: plain({ more }) });
    const bench = await benchIn(page, frame);
    await frame.evaluate(() => new Promise((done) => {
      let count = 0;
      addEventListener("message", ({ source }) => source !== parent && ++count === 20 && done());
    }));
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after twenty messages of another frame");
    equal(await heard(page, "evenkeel:refused"), [], "answers to another frame");
    await send(page, command);
    await until(async () => (await bench.read()).texts.baseAmount, (now) => now === "8.0 mmol", "the parent is obeyed");
    await close();
    await beside.close();
  },

  "who opened the page may not ask": async ({ visit, site }) => {
    const outside = await serve({ pages: { "/": '<!doctype html><title>Opener</title><link rel="icon" href="data:,"><button onclick="w = window.open(this.value)">Open</button>' } });
    const page = await visit({ origins: [outside.byNumber, site.byName], before: [listen] });
    await page.goto(outside.byNumber);
    await page.locator("button").evaluate((button, address) => (button.value = address), `${site.byName}/`);
    const [opened] = await Promise.all([page.waitForEvent("popup"), page.getByRole("button").click()]);
    const bench = await Bench.on(opened);
    await page.evaluate(() => w.postMessage({ type: "evenkeel:do", v: 1, command: "add", reagent: "acid", mol: 0.002 }, "*"));
    await opened.waitForFunction(() => heard.length > 0);
    await bench.add("acid", "0.5");
    equal((await bench.read()).texts.baseAmount, "9.5 mmol", "A⁻ after an addition of the learner's");
    equal(await page.evaluate(() => heard), [], "what the opener is told");
    ok(!(await opened.locator("#full-page").count()), "a full page offers itself");
    await outside.close();
  },

  "whatever its parent sends": async (given) => {
    const { page, frame, close } = await course(given, { html: plain() });
    const bench = await benchIn(page, frame);
    // One by one, with what is answered: nothing that is no command is.
    const answered = await page.evaluate(async () => {
      const ring = { type: "evenkeel:do", v: 1, command: "add" };
      ring.reagent = ring;
      const command = (parts) => ({ type: "evenkeel:do", v: 1, ...parts });
      const add = (mol, reagent = "acid") => command({ command: "add", reagent, mol });
      const strange = [
        null, undefined, 0, NaN, "evenkeel:do", 10n, [], [["type", "evenkeel:do"]], new Date(0), new Map([["type", "evenkeel:do"]]),
        { type: "evenkeel:don't" }, { type: ["evenkeel:do"] }, { type: "x".repeat(5e6) }, new ArrayBuffer(9), /x/,
      ];
      const bad = [
        ring, add(NaN), add(Infinity), add(-1), add("0.002"), add(null), add({}), add(1e308), add(0.002, "x".repeat(5e6)), add(0.002, 7),
        command({}), command({ command: "constructor" }), command({ command: "__proto__" }), command({ command: {} }), command({ command: "theme", theme: "<img>" }),
        command({ command: "open", lesson: "//elsewhere.example/?v=1" }), command({ command: "open", lesson: "javascript:alert(1)" }),
        { ...add(0.002), v: 2 }, { ...add(0.002), v: "1" }, { type: "evenkeel:do" },
      ];
      const count = () => heard.filter(({ data }) => data.type === "evenkeel:refused").length;
      for (const data of [...strange, ...bad]) frames[0].postMessage(data, "*");
      // What is sent after them arrives after them.
      frames[0].postMessage(command({ command: "tell" }), "*");
      const before = heard.filter(({ data }) => data.type === "evenkeel:state").length;
      while (heard.filter(({ data }) => data.type === "evenkeel:state").length === before) await new Promise((done) => setTimeout(done, 20));
      return [count(), bad.length];
    });
    equal(answered[0], answered[1], "refusals");
    none((await heard(page)).flatMap(odd));
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after all that");
    await bench.add("acid", "2.0");
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition of the learner's");
    await close();
  },

  "ten thousand commands in a row": async (given) => {
    const { page, frame, close } = await course(given, { html: plain() });
    const bench = await benchIn(page, frame);
    await page.evaluate(() => {
      const command = { type: "evenkeel:do", v: 1, command: "add", reagent: "acid", mol: 0.0001 };
      for (let i = 0; i < 10_000; i += 1) frames[0].postMessage(command, "*");
      frames[0].postMessage({ over: true }, "*");
    });
    await frame.waitForFunction(() => heard.some(({ data }) => data?.over));
    const { addedAcid } = (await states(page)).at(-1);
    const refusals = await heard(page, "evenkeel:refused");
    const done = Math.round(addedAcid / 0.0001);
    ok(done >= 1 && done <= 600, `${done} of them were carried out`);
    ok(refusals.length >= 1 && refusals.length <= 20, `${refusals.length} refusals`);
    ok(refusals.every(({ reason }) => reason === "too-many"), JSON.stringify(refusals));
    // The learner is not held up, and after a rest the parent is heard again.
    await bench.startAgain();
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after starting again");
    await until(async () => {
      await ask(page, "add", { reagent: "acid", mol: 0.002 });
      return (await bench.read()).texts.baseAmount;
    }, (now) => now !== "10.0 mmol", "the parent is heard again");
    await close();
  },

  "a parent of the same origin that sends what throws": async ({ visit, folder }) => {
    const host = await serve({ folder, pages: { "/course": plain()("/") } });
    const page = await visit({ origins: [host.byName], before: [listen] });
    await page.goto(`${host.byName}/course`);
    const frame = page.frames()[1];
    const bench = await benchIn(page, frame);
    await page.evaluate(() => {
      const evil = () => { throw new Error("evil"); };
      const traps = Object.fromEntries(["get", "has", "ownKeys", "getOwnPropertyDescriptor"].map((name) => [name, evil]));
      const late = { type: "evenkeel:do", v: 1, command: "add", reagent: "acid", get mol() { return evil(); } };
      for (const data of [new Proxy({}, traps), { get type() { return evil(); } }, late, { type: "evenkeel:do", get v() { return evil(); } }]) {
        frames[0].dispatchEvent(new frames[0].MessageEvent("message", { data, source: window, origin: location.origin }));
      }
    });
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "A⁻ after all that");
    await ask(page, "add", { reagent: "acid", mol: 0.002 });
    await until(async () => (await bench.read()).texts.baseAmount, (now) => now === "8.0 mmol", "the parent is still heard");
    await host.close();
  },
};
