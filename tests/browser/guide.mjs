// The guided start: six steps, predict and lock, and what is told about the difference.

import { equal, none, ok } from "./expect.mjs";
import { sameSeries } from "./lesson.mjs";

class Guide {
  constructor(bench) {
    this.bench = bench;
    this.card = bench.page.locator(".guide");
  }

  static async on(bench) {
    await bench.page.getByRole("button", { name: /^Show me/ }).click();
    const guide = new Guide(bench);
    await guide.card.waitFor();
    await bench.settle();
    return guide;
  }

  button(name) {
    return this.card.getByRole("button", { name, exact: true });
  }

  async press(name) {
    await this.button(name).click();
    await this.bench.settle();
  }

  place() {
    return this.card.locator(".head .digits").innerText();
  }

  met() {
    return this.card.locator(".met").innerText();
  }

  async predict(...choices) {
    for (const choice of choices) await this.press(choice);
    await this.press("Lock it");
  }
}

/** What of `parts` is out of sight. */
function hidden(parts) {
  return parts.flatMap((selector) => {
    const { top, bottom } = document.querySelector(selector).getBoundingClientRect();
    return top >= 0 && bottom <= innerHeight + 1 ? [] : [`${selector} from ${top} to ${bottom} of ${innerHeight}`];
  });
}

/** Notes what a screen reader is given to say, frame by frame. */
function listen() {
  window.heard = [];
  const status = document.getElementById("status");
  let waiting = false;
  new MutationObserver(() => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      window.heard.push(status.innerText);
    });
  }).observe(status, { childList: true, characterData: true, subtree: true });
}

function journey(width, height, touch) {
  return async ({ open }) => {
    const bench = await open({ width, height, touch, before: [sameSeries] });
    const guide = await Guide.on(bench);
    equal(await guide.place(), "1 of 6", "the first step");
    await bench.press("As mixed");
    equal(await guide.met(), "Done.", "after a change of view");
    await bench.press("Sorted");
    await guide.press("Next");

    none(await bench.page.evaluate(hidden, [".guide", ".additions .sizes"]));
    const before = (await bench.read()).texts;
    await bench.add("acid", "0.5");
    equal((await bench.read()).texts.ph, before.ph, "pH while a prediction is awaited");
    ok(await bench.page.getByText("First choose what you expect, and lock it.").first().isVisible(), "nothing says why");
    ok((await guide.button("Lock it").getAttribute("aria-disabled")) === "true", "an empty prediction can be locked");
    await guide.predict("down", "0.1 to 1");
    const toDo = () => guide.card.locator(".todo").innerText();
    equal(await toDo(), "Locked: down, by 0.1 to 1. Now add a little acid.", "after locking");
    await bench.add("alkali", "0.5");
    equal(await toDo(), "That was alkali. Undo it, then add acid.", "after the wrong reagent");
    await bench.undo();
    await bench.page.evaluate(listen);
    await bench.add("acid", "0.5");
    const after = (await bench.read()).texts;
    const change = (Number(after.ph) - Number(before.ph)).toFixed(2).replace("-", "−");
    const met = await guide.met();
    // A screen reader hears of the addition and of the comparison in one message.
    const messages = await bench.page.evaluate(() => window.heard);
    equal(messages.length, 1, `messages: ${messages}`);
    const [said] = messages;
    ok(said.startsWith(`pH ${after.ph}. You locked: down, by 0.1 to 1.`), said);
    equal(await bench.page.locator(".guide [role=status], .guide [aria-live]").count(), 0, "other voices");
    ok(met.startsWith(`You locked: down, by 0.1 to 1. The pH changed by ${change};`), met);
    ok(met.includes("Less far than you said"), met);
    const water = (Number(after.water) - 7).toFixed(2).replace("-", "−");
    ok(met.includes(`in water alone by ${water}`), `${met} (water ${water})`);
    await bench.add("acid", "2.0");
    equal(await guide.met(), met, "the comparison after one more addition");

    await guide.press("Next");
    equal((await bench.read()).texts.baseAmount, "10.0 mmol", "a fresh flask");
    await guide.predict("not at all");
    await bench.add("alkali", "0.5");
    ok((await guide.met()).includes("Little is not nothing"), await guide.met());
    await guide.press("Back");
    equal([await guide.place(), await guide.met()], ["2 of 6", met], "a step back");
    await guide.press("Next");
    await guide.press("Next");
    equal(await guide.place(), "4 of 6", "on again");
    await bench.add("alkali", "2.0");
    const { ph, water: waterPh, start } = (await bench.read()).texts;
    const [moved, waterMoved] = [[ph, start], [waterPh, "7.00"]].map(([now, then]) => (Number(now) - Number(then)).toFixed(2));
    equal(await guide.met(), `This pH changed by +${moved}, that of water by +${waterMoved}.`, "beside water");
    await guide.press("Next");
    await bench.add("alkali", "2.0", 2);
    equal(await guide.met(), "", "before a reservoir runs out");
    await bench.add("alkali", "2.0");
    equal(await guide.met(), "", "with a little left");
    const last = (await bench.read()).texts.ph;
    await bench.add("alkali", "2.0");
    const gone = (await bench.read()).texts.ph;
    ok(/HA ran out/.test(await guide.met()) && (await guide.met()).endsWith(`the pH went from ${last} to ${gone}.`), await guide.met());
    await guide.press("Next");
    await guide.press("Open Practice");
    await bench.page.getByRole("heading", { name: /^Question 1/ }).waitFor();
    const kinds = bench.page.locator("#panel .kinds button");
    for (let i = 0; i < 2 && (await kinds.first().isVisible()); i += 1) await kinds.nth(3 + i).click();
    await bench.page.getByRole("button", { name: "Show the layout" }).click();
    await bench.settle();
    equal(await guide.met(), "Done.", "after a question");
    await guide.press("Finish");
    ok(!(await guide.card.isVisible()), "the guide is still there");
    await Guide.on(bench);
    equal(await guide.place(), "1 of 6", "begun again");
    await guide.press("Close the guide");
    ok(!(await guide.card.isVisible()), "the guide does not close");
    await bench.page.waitForFunction(() => document.activeElement.id === "guide-start");
  };
}

export default {
  "six steps on a wide screen": journey(1280, 800, false),
  "six steps on a phone": journey(360, 740, true),
  "six steps in a frame's size": journey(800, 600, false),

  "closed in the middle of a prediction, the bench is free": async ({ open }) => {
    const bench = await open();
    const guide = await Guide.on(bench);
    await guide.press("Skip this step");
    equal(await guide.place(), "2 of 6", "a step skipped");
    await guide.press("Close the guide");
    await bench.add("acid", "2.0");
    equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
  },

  "the card moves with the screen and keeps its step": async ({ open }) => {
    const bench = await open({ width: 1280, height: 800 });
    const guide = await Guide.on(bench);
    await guide.press("Skip this step");
    await guide.press("up");
    await bench.page.setViewportSize({ width: 360, height: 740 });
    await bench.page.locator("main .guide").waitFor();
    equal(await guide.place(), "2 of 6", "the step on a phone");
    equal(await guide.button("up").getAttribute("aria-pressed"), "true", "the choice on a phone");
  },
};
