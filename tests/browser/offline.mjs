// Once loaded, the page needs no network: by itself, without the copy that installed.mjs checks.

import { Bench } from "./bench.mjs";
import { equal, ok } from "./expect.mjs";
import { landed } from "./landing.mjs";
import { facts } from "./reading.mjs";

/** Holds back or refuses what `pattern` names until the returned function is called. */
async function without(page, pattern, { refused = false } = {}) {
  let release;
  let free = false;
  const held = new Promise((resolve) => {
    release = () => {
      free = true;
      resolve();
    };
  });
  await page.route(pattern, async (route) => {
    if (refused && !free) return route.abort();
    await held;
    await route.continue();
  });
  return release;
}

/** Where everything of the page stands. */
const places = (page) =>
  page.evaluate(() => [...document.querySelectorAll("section, button, #panel")].map((node) => {
    const { x, y, width, height } = node.getBoundingClientRect();
    return [node.className || node.id || node.innerText, x, y, width, height].join(" ");
  }));

/** Counts how often something that is kept is looked for; runs before the page's own scripts. */
function countLooks() {
  window.looked = 0;
  const look = Storage.prototype.getItem;
  Storage.prototype.getItem = function (key) {
    window.looked += 1;
    return look.call(this, key);
  };
}

export default {
  "everything goes on without a network": async ({ open }) => {
    const bench = await open({ worker: false });
    const { page } = bench;
    // With the first addition the page fetches the lesson ahead of its use.
    const lesson = page.waitForResponse(/split_lesson/);
    await bench.add("acid", "0.1");
    await lesson;
    await landed(page);
    await bench.undo();
    await page.context().setOffline(true);
    ok(await page.evaluate(() => !navigator.onLine), "the network is still there");
    const start = facts(await bench.read());
    await bench.exhaust("acid", "2.0");
    await bench.undo();
    equal(facts(await bench.read()), start, "a pour and its undo");
    await bench.press("As mixed");
    for (const panel of ["Limits", "Set up", "Working", "Practice", "Why"]) await bench.panel(panel);
    await bench.panel("Set up");
    for (const pair of await bench.pairs()) {
      await bench.choosePair(pair);
      const { texts } = await bench.read();
      ok(/^\d+\.\d\d$/.test(texts.ph), `${pair}: pH ${texts.ph}`);
    }
    await page.emulateMedia({ colorScheme: "dark" });
    const { colors } = await bench.picture();
    ok(colors > 5, "the canvas is blank in the other theme");
  },

  "the lesson does not arrive, and then does": async ({ open }) => {
    const expected = [/^failed: .*(split_lesson|chunk_)/, /Failed to load resource/, /TypeError: Failed to fetch/];
    const bench = await open({ worker: false, expected });
    const { page } = bench;
    await page.context().setOffline(true);
    await bench.panel("Practice");
    const told = page.locator("#panel").getByRole("alert");
    await told.waitFor();
    ok(/has not arrived/.test(await told.innerText()), await told.innerText());
    await bench.add("acid", "2.0");
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ on the bench meanwhile");
    await page.getByRole("button", { name: "Try again" }).click();
    await told.waitFor();
    await page.context().setOffline(false);
    await page.getByRole("button", { name: "Try again" }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: /^Question/ }).waitFor();
    await page.waitForFunction(() => document.activeElement.closest("#panel"));
  },

  "the panels beside the bench do not arrive, and then do": async ({ visit, site }) => {
    const expected = [/^failed: .*split_beside/, /Failed to load resource/, /TypeError: Failed to fetch/];
    for (const [width, height] of [[1280, 800], [360, 740]]) {
      const page = await visit({ width, height, worker: false, expected });
      const release = await without(page, /split_beside/, { refused: true });
      await page.goto(site.byNumber);
      const bench = await Bench.on(page, { panels: false });
      // An addition needs nothing of them but its words.
      await bench.add("acid", "2.0");
      const { texts } = await bench.read();
      equal([texts.baseAmount, texts.ph], ["8.0 mmol", "4.70"], "the bench without its panels");
      const told = page.locator("#panel").getByRole("alert");
      ok(/has not arrived/.test(await told.innerText()), await told.innerText());
      release();
      await page.locator("#panel").getByRole("button", { name: "Try again" }).press("Enter");
      await page.getByRole("heading", { name: /^You added 2\.0 mmol/ }).waitFor();
      await page.waitForFunction(() => document.activeElement.matches("#panel .why"));
    }
  },

  "what is asked for before the panels are there comes with them, and nothing moves": async ({ visit, site }) => {
    const page = await visit({ worker: false });
    const release = await without(page, /split_beside/);
    await page.goto(site.byNumber);
    const bench = await Bench.on(page, { panels: false });
    const before = await places(page);
    await page.getByRole("button", { name: /^Set up:/ }).click();
    await page.waitForFunction(() => document.activeElement.id === "arriving");
    release();
    await page.waitForFunction(() => document.activeElement.id === "pair");
    await bench.panel("Why");
    await page.locator("#now-on-curve .now-point").waitFor();
    equal(await places(page), before, "where everything stands once the curve is there");
  },

  "a part that nobody waits for any more is not built": async ({ open }) => {
    const bench = await open({ worker: false, before: [countLooks] });
    const { page } = bench;
    let release;
    const held = new Promise((resolve) => { release = resolve; });
    await page.route(/split_lesson/, async (route) => {
      await held;
      await route.continue();
    });
    await bench.panel("Practice");
    await page.locator("#arriving").waitFor();
    await bench.panel("Why");
    release();
    await bench.panel("Practice");
    await page.getByRole("heading", { name: /^Question/ }).waitFor();
    // Practice looks for kept results as soon as it is made: once for who is there, and not for
    // who was, though that was asked for first.
    equal(await page.evaluate(() => window.looked), 1, "times that it was made");
  },

  "nothing of the lesson is fetched before somebody turns to it": async ({ open }) => {
    const bench = await open();
    const fetched = () => bench.page.evaluate(() => performance.getEntriesByType("resource").map((r) => r.name).filter((name) => /split_lesson/.test(name)).length);
    for (const panel of ["Limits", "Set up", "Why"]) await bench.panel(panel);
    await bench.press("As mixed");
    equal(await fetched(), 0, "fetched by looking around");
    await bench.panel("Working");
    await bench.page.locator("#panel .step").first().waitFor();
    equal(await fetched(), 1, "fetched by opening Working");
    const teachers = () => bench.page.evaluate(() => performance.getEntriesByType("resource").filter((r) => /split_teacher/.test(r.name)).length);
    for (const panel of ["Practice", "Curve"]) await bench.panel(panel);
    equal(await teachers(), 0, "of the teacher's side, fetched for a learner");
    await bench.panel("Lesson");
    await bench.page.locator("#lesson-link").waitFor();
    equal(await teachers(), 1, "of the teacher's side, fetched by opening Lesson");
  },
};
