// The lesson's link as a code for cameras: read from a picture of the screen, it is the link.

import { seen } from "./camera.mjs";
import { equal, ok } from "./expect.mjs";
import { openAll } from "./lesson.mjs";

/** The longest link that has a code: bytes of version 15 at level M (ISO/IEC 18004, from memory). */
const MOST = 412;

const PROMPTS = [
  "Which reservoir meets the acid, and which the alkali?",
  "Push it until it fails: how far is that?",
  "What would water alone have done?",
  "Work out the pH before you look.",
];

async function lesson(open, options) {
  const bench = await open(options);
  await bench.panel("Lesson");
  const panel = bench.page.locator("#panel .lesson");
  await openAll(panel);
  const link = () => panel.locator("#lesson-link").inputValue();
  return { page: bench.page, panel, link, settle: () => bench.settle() };
}

/** A link of a few characters. */
async function short({ panel, settle }) {
  await panel.getByLabel("Light or dark").selectOption({ label: "light" });
  await settle();
}

/** A title and five prompts, of which the last makes the link as long as may be. */
async function long({ panel, link, settle }) {
  await panel.getByLabel("Title").fill("Bakery buffers");
  for (const [place, prompt] of PROMPTS.entries()) await panel.getByLabel(`Prompt ${place + 1}`).fill(prompt);
  const last = panel.getByLabel("Prompt 5");
  // Three characters of a prompt are four of the link.
  await last.fill("?");
  await settle();
  const room = Math.floor(((MOST - (await link()).length) * 3) / 4);
  await last.fill("How do you know? ".repeat(20).slice(0, room).trimEnd().padEnd(room, "?"));
  await settle();
  const { length } = await link();
  ok(length > MOST - 4 && length <= MOST, `the long link has ${length} characters`);
}

/** What a camera would read from what `page` shows, or prints. */
async function shown(page, name) {
  await page.locator(".code svg").evaluate((svg) => svg.scrollIntoView({ block: "center", behavior: "instant" }));
  return seen(await page.screenshot({ path: `target/screens/code-${name}.png` }));
}

const LINKS = { short, long };
const SCREENS = { wide: { width: 1280, height: 800 }, phone: { width: 360, height: 740, touch: true } };

function check(kind, screen, dark) {
  const name = `${kind}-${screen}-${dark ? "dark" : "light"}`;
  return [
    `a ${kind} link, ${screen}, ${dark ? "dark" : "light"}`,
    async ({ open }) => {
      const set = await lesson(open, { ...SCREENS[screen], dark });
      await LINKS[kind](set);
      equal(await shown(set.page, name), await set.link(), "the link in the code");
      await set.page.emulateMedia({ media: "print" });
      ok(await set.panel.locator(".code svg").isVisible(), "the printed page has no code");
      equal(await shown(set.page, `${name}-print`), await set.link(), "the link in the printed code");
    },
  ];
}

export default {
  ...Object.fromEntries(Object.keys(LINKS).flatMap((kind) => Object.keys(SCREENS).flatMap((screen) => [check(kind, screen, false), check(kind, screen, true)]))),

  "one character too many, and it says so": async ({ open }) => {
    const set = await lesson(open);
    await long(set);
    const last = set.panel.getByLabel("Prompt 5");
    await last.fill(`${await last.inputValue()}so?`);
    await set.settle();
    equal(await set.panel.locator(".code svg").count(), 0, "codes");
    ok(await set.panel.getByText("Too long for a code").isVisible(), "nothing says why there is no code");
  },
};
