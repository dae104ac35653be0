// How you stand: results on the device, only once they are asked for, and until they are cleared.

import { Bench } from "./bench.mjs";
import { equal, ok } from "./expect.mjs";
import { Lesson, SAME_QUESTIONS, TWO_CONCENTRATIONS, sameSeries } from "./lesson.mjs";

export default {
  "nothing is kept until it is asked for, and all can be cleared": async ({ open }) => {
    const bench = await open(SAME_QUESTIONS);
    const { page } = bench;
    const kept = () => page.evaluate(() => Object.entries({ ...localStorage }));
    const lesson = await Lesson.practice(bench);
    await lesson.skip();
    equal(await kept(), [], "kept before anybody asked");
    await lesson.press("How you stand");
    const row = lesson.panel.locator(".standing li", { hasText: TWO_CONCENTRATIONS });
    ok(/not yet|nearly/.test(await row.innerText()), await row.innerText());
    await lesson.panel.getByLabel("Keep this on this device").check();
    await bench.settle();
    const [[key, text], ...more] = await kept();
    equal([key, more.length], ["evenkeel.results", 0], "what is kept");
    ok(/^\{"version":1,"results":\[\[\d+,\d+,\d+\]\]\}$/.test(text), `kept: ${text}`);
    await page.reload();
    await Bench.on(page);
    const again = await Lesson.practice(bench);
    await again.press("How you stand");
    ok(/not yet|nearly/.test(await row.innerText()), "the result is gone after a reload");
    ok(await again.panel.getByLabel("Keep this on this device").isChecked(), "it no longer says that it keeps them");
    // It asks first, and the focus goes along.
    const focused = () => page.evaluate(() => document.activeElement.innerText);
    await again.press("Clear all results");
    equal(await focused(), "No", "the focus while it asks");
    await again.press("No");
    equal([await focused(), (await kept()).length], ["Clear all results", 1], "after a no");
    await again.press("Clear all results");
    await again.press("Yes, clear");
    equal(await kept(), [], "kept after clearing");
    ok(await again.panel.getByText("Nothing is kept on this device.").isVisible(), "nobody says so");
    // With nothing to clear there is nothing to ask.
    await again.button("Clear all results").click({ force: true });
    ok(!(await again.button("Yes, clear").isVisible()), "it asks about nothing");
    ok(/not tried/.test(await row.innerText()), "the result is still there after clearing");
  },

  "a kept record that somebody broke": async ({ open }) => {
    for (const broken of ["", "{", "null", '{"version":9,"results":[]}', '{"version":1,"results":[[999,9,9],[0,0,1]]}', '{"version":1,"results":"x"}']) {
      const plant = `localStorage.setItem("evenkeel.results", ${JSON.stringify(broken)})`;
      const bench = await open(SAME_QUESTIONS);
      await bench.page.evaluate(plant);
      await bench.page.reload();
      await Bench.on(bench.page);
      const lesson = await Lesson.practice(bench);
      await lesson.press("How you stand");
      ok((await lesson.panel.locator(".standing li").count()) > 20, `no list with ${broken}`);
    }
  },

  "a browser that keeps nothing": async ({ open }) => {
    const closed = () => Object.defineProperty(window, "localStorage", { get() { throw new DOMException("closed", "SecurityError"); } });
    const lesson = await Lesson.practice(await open({ before: [sameSeries, closed] }));
    await lesson.skip();
    await lesson.press("How you stand");
    await lesson.panel.getByLabel("Keep this on this device").click();
    await lesson.panel.getByRole("alert").waitFor();
    ok(/does not let the page keep/.test(await lesson.panel.getByRole("alert").innerText()), "it does not say that nothing is kept");
    ok(!(await lesson.panel.getByLabel("Keep this on this device").isChecked()), "it claims to keep");
  },
};
