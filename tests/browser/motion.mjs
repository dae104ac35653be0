// What moves, what stands still, and that the facts are the same either way.

import { equal, ok, until } from "./expect.mjs";
import { facts } from "./reading.mjs";

/** Counts the page's requests for a frame. */
function countFrames() {
  globalThis.framesAsked = 0;
  const ask = requestAnimationFrame.bind(globalThis);
  globalThis.requestAnimationFrame = (callback) => {
    globalThis.framesAsked += 1;
    return ask(callback);
  };
}

/**
 * Runs in the page: waits for `ticks` timer ticks in a row without a request for a frame; a
 * page that always asks never has them. Gives up after `most` ticks.
 */
async function quiet({ ticks, most }) {
  let run = 0;
  for (let i = 0; i < most; i += 1) {
    const before = framesAsked;
    await new Promise((done) => setTimeout(done, 16));
    run = framesAsked === before ? run + 1 : 0;
    if (run >= ticks) return true;
  }
  return false;
}

/** The same story on both benches. */
async function story(bench) {
  await bench.add("acid", "2.0", 2);
  await bench.add("alkali", "0.5");
  return facts(await bench.read());
}

export default {
  "idle, the canvas sleeps between exchanges": async ({ open }) => {
    const bench = await open({ before: [countFrames] });
    await bench.add("acid", "2.0");
    ok(await bench.page.evaluate(quiet, { ticks: 30, most: 1500 }), "the page asks for frames without end");
    ok((await bench.page.evaluate(() => framesAsked)) > 10, "the addition was not animated");
  },

  "idle, the exchange goes on": async ({ open }) => {
    const bench = await open();
    const passed = async () => (await bench.read()).exchange;
    const first = await passed();
    const then = await until(passed, (now) => now.given >= first.given + 2, "two more exchanges");
    equal(then.given, then.taken, "given and taken");
    equal((await bench.read()).reactions, 0, "reactions so far, which idle exchange is not");
  },

  "replay and step show the last addition and change nothing": async ({ open }) => {
    const bench = await open({ before: [countFrames] });
    ok(await bench.button("Replay").isDisabled(), "there is something to replay before any addition");
    ok(await bench.button("Step").isDisabled(), "there is something to step through before any addition");
    const told = await story(bench);
    const asleep = () => bench.page.evaluate(quiet, { ticks: 20, most: 1500 });
    ok(await asleep(), "the addition never settles");
    const pictures = new Set();
    await bench.button("Replay").click();
    await until(
      async () => pictures.add((await bench.picture()).hash).size,
      (size) => size > 5,
      "frames of the replay",
    );
    ok(await asleep(), "the replay never settles");
    equal(facts(await bench.read()), told, "the facts after a replay");

    // Beat by beat: each stands still until the next is asked for.
    const beats = new Set();
    const step = () => bench.page.locator("#give-and-take").innerText();
    for (let press = 1; press <= 3; press += 1) {
      await bench.press("Step");
      ok((await step()).startsWith(`Step ${press} of 4: `), `the caption of step ${press} is ${await step()}`);
      const { hash } = await bench.picture();
      await bench.page.evaluate(() => new Promise((done) => setTimeout(done, 300)));
      equal((await bench.picture()).hash, hash, `the picture a while after step ${press}`);
      beats.add(hash);
    }
    equal(beats.size, 3, "different pictures in three steps");
    await bench.press("Step");
    ok((await step()).startsWith("Step 4 of 4: "), `the caption of step 4 is ${await step()}`);
    equal(facts(await bench.read()), told, "the facts after the last step");
    await until(step, (text) => text.includes("took it"), "the caption goes once time goes on");
    await bench.add("acid", "0.1");
    const more = (await bench.read()).texts;
    equal(more.baseAmount, "6.4 mmol", "A⁻ when adding after a step");
  },

  "what is painted by parts looks as if it had been painted whole": async ({ open }) => {
    const bench = await open({ query: "?v=1&pair=own-acid&pka=1.0", before: [countFrames] });
    const rest = async (what) => ok(await bench.page.evaluate(quiet, { ticks: 5, most: 1500 }), `${what} never settles`);
    const same = async (what) => {
      await rest(what);
      const become = async (media) => {
        await bench.page.emulateMedia(media);
        await bench.settle();
        await rest(`${what}, ${JSON.stringify(media)}`);
        return bench.pixels();
      };
      // From here on nothing moves. The controls are others, so the canvas may get another size.
      const parts = await become({ reducedMotion: "reduce" });
      const apart = async (media) => bench.apart(parts, await become(media));
      ok((await apart({ colorScheme: "dark" })) > 0, "other colors are the same picture");
      const whole = await apart({ colorScheme: "light" });
      equal(whole, 0, `levels between the picture after ${what} and the same painted whole, as other colors ask`);
      await become({ reducedMotion: "no-preference" });
    };
    await bench.add("acid", "2.0", 2);
    await same("two additions");
    await bench.add("alkali", "2.0", 9);
    await same("more than the pair takes");
    await bench.undo();
    await same("Undo");
    await bench.press("As mixed");
    await same("the other view");
    await bench.add("acid", "2.0", 12);
    await same("twelve additions there");
  },

  "a change of view ends a step": async ({ open }) => {
    const bench = await open({ before: [countFrames] });
    await bench.add("alkali", "2.0");
    ok(await bench.page.evaluate(quiet, { ticks: 20, most: 1500 }), "the addition never settles");
    await bench.press("Step");
    const stepping = () => bench.page.locator("#give-and-take").innerText().then((text) => text.startsWith("Step"));
    ok(await stepping(), "no caption");
    await bench.press("As mixed");
    ok(!(await stepping()), "the caption of a step that is over");
    ok(await bench.page.evaluate(quiet, { ticks: 20, most: 1500 }), "the change of view never settles");
    const mixed = await bench.picture();
    await bench.press("Sorted");
    ok(await bench.page.evaluate(quiet, { ticks: 20, most: 1500 }), "the way back never settles");
    ok((await bench.picture()).hash !== mixed.hash, "both views look the same");
  },

  "start again counts from nought": async ({ open }) => {
    const bench = await open();
    await bench.add("acid", "2.0");
    await until(() => bench.read(), ({ exchange }) => exchange.given > 0, "an exchange");
    await bench.startAgain();
    const { reactions, exchange } = await until(() => bench.read(), ({ exchange }) => exchange.given === 0, "the exchange at nought");
    equal([reactions, exchange.taken], [0, 0], "taken up so far, and in exchange");
  },

  "with reduced motion: stills before and after, and the same facts": async ({ open }) => {
    const [still, moving] = [await open({ reduced: true, before: [countFrames] }), await open()];
    equal(await still.button("Replay").count(), 0, "Replay with reduced motion");
    ok(await still.button("Before").isDisabled(), "there is a before when nothing was added");
    equal(await story(still), await story(moving), "the facts with reduced motion and without");
    const after = await still.picture();
    equal((await still.picture()).hash, after.hash, "two looks at a still");
    const told = facts(await still.read());
    await still.press("Before");
    equal(await still.button("Before").getAttribute("aria-pressed"), "true", "Before is chosen");
    const before = await still.picture();
    ok(before.hash !== after.hash, "Before shows the same as After");
    equal(facts(await still.read()), told, "the facts while Before shows");
    await still.press("After");
    equal(await still.button("After").getAttribute("aria-pressed"), "true", "After is chosen");
    ok((await still.picture()).hash !== before.hash, "After shows the same as Before");
    ok(await still.page.evaluate(quiet, { ticks: 60, most: 600 }), "something moves in spite of reduced motion");
  },

  "with reduced motion nothing travels": async ({ open }) => {
    const bench = await open({ reduced: true });
    const seen = new Set();
    for (let addition = 1; addition <= 3; addition += 1) {
      await bench.add("acid", "2.0");
      for (let look = 0; look < 5; look += 1) {
        seen.add((await bench.picture()).hash);
        await bench.settle();
      }
    }
    equal(seen.size, 3, "pictures seen in three additions");
    const moves = await bench.page.evaluate(() => document.getAnimations().length);
    equal(moves, 0, "running transitions");
  },
};
