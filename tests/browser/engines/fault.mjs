// A program that fails, and text that must not become markup, in every engine. Neither engine takes
// a function to run before the page's scripts, so the traps stand in a copy of the page.

import { cpSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { REFUSED, tried } from "../doors.mjs";
import { equal, ok, until } from "../expect.mjs";
import { serve } from "../server.mjs";
import { setTraps } from "../traps.mjs";
import { Learner } from "./learner.mjs";

const COPY = "target/fault";
/** What an engine says of the failure, and of a part that the page it leaves was still fetching. */
const SAID = /unreachable|NetworkError|Load failed/i;
const LESSON = "?v=1&pair=ethanoic.1";

/** Serves a copy of the page in `folder` with traps in it. */
async function trapped(folder) {
  rmSync(COPY, { recursive: true, force: true });
  cpSync(folder, COPY, { recursive: true });
  writeFileSync(`${COPY}/traps.js`, `(${setTraps})();`);
  const html = readFileSync(`${COPY}/index.html`, "utf8");
  writeFileSync(`${COPY}/index.html`, html.replace("<title>", '<script src="traps.js"></script><title>'));
  return serve({ folder: COPY });
}

/** Presses a button of the message: a page that has stopped has no frames to wait for. */
async function press(engine, name) {
  await engine.evaluate((wanted) => {
    [...document.querySelectorAll("#stopped button")].find((button) => button.innerText === wanted).click();
  }, name);
}

export default {
  "a program that fails says so, and leads on": async ({ engine, folder, shot }) => {
    const site = await trapped(folder);
    const address = `${site.byNumber}/${LESSON}`;
    for (const [where, button, there] of [["click", "Open it again", address], ["frame", "Start afresh without the lesson", `${site.byNumber}/`]]) {
      await engine.goto(address);
      const learner = await Learner.on(engine);
      equal((await engine.complaints()).filter((line) => !SAID.test(line)), [], "complaints before it fails");
      await engine.evaluate((w) => window.arm(w), where);
      // By script: the message comes in the middle of it, or with a frame before it.
      await engine.evaluate(() => document.querySelector("[aria-label^='Add 0.5']")?.click());
      await engine.find({ role: "heading", name: "This page has stopped" });
      await until(() => engine.evaluate(() => document.activeElement.getAttribute("role")), (role) => role === "alert", "the focus is on the message");
      await engine.evaluate(() => window.tenFrames());
      equal(await engine.evaluate(() => [window.sprung, document.body.children.length]), [1, 1], "traps, what is on the page");
      await shot("stopped");
      const said = await engine.complaints();
      ok(said.some((line) => /unreachable/i.test(line)) && said.every((line) => SAID.test(line)), `complaints: ${said}`);
      await engine.evaluate(() => { window.isLeft = true; });
      await press(engine, button);
      await until(() => engine.evaluate(() => !window.isLeft && location.href).catch(() => false), (now) => now === there, `${button} leads to ${there}`);
      await learner.add("acid", "0.5");
      ok((await learner.read()).base.mmol < 10, "an addition does nothing");
    }
    // What the engine itself said of the failures may arrive late.
    const late = (await engine.complaints()).filter((line) => !SAID.test(line));
    equal(late, [], "other complaints");
    await site.close();
  },

  "no text becomes markup that is not ours": async ({ engine, folder }) => {
    const site = await serve({ folder });
    await engine.goto(site.byNumber);
    await Learner.on(engine);
    ok(await engine.evaluate(() => "trustedTypes" in window), "this engine has no Trusted Types");
    equal(await engine.evaluate(`async (texts) => (${tried})(texts)`, REFUSED), [], "open ways");
    const said = await engine.complaints();
    ok(said.length > 0, "nobody hears of a broken rule");
    await site.close();
  },
};
