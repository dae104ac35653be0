// The reader's own colors, as Windows' contrast themes set them: the browser takes grounds and colors
// away, so everything must still be seen, and every state.

import { PNG } from "pngjs";
import { ratio } from "./contrast.mjs";
import { equal, none, ok, until } from "./expect.mjs";
import { Lesson, sameSeries, stages } from "./lesson.mjs";

const SCREENS = [{ width: 1280, height: 800 }, { width: 360, height: 740, dark: true }];

/** Runs in the page: a system color as it is now. */
function system(name) {
  const probe = document.createElement("i");
  probe.style.color = name;
  document.body.append(probe);
  const { color } = getComputedStyle(probe);
  probe.remove();
  return color;
}

const hex = (color) => {
  const [r, g, b] = color.match(/\d+/g).map(Number);
  return `#${[r, g, b].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
};

/** The named styles of the first element that `selector` finds. */
function style(page, selector, names, pseudo) {
  return page.locator(selector).first().evaluate((node, [names, pseudo]) => {
    const computed = getComputedStyle(node, pseudo);
    return Object.fromEntries(names.map((name) => [name, computed[name]]));
  }, [names, pseudo]);
}

async function opened(open, screen, query) {
  const bench = await open({ ...screen, forced: true, before: [sameSeries], query });
  const ground = hex(await bench.page.evaluate(system, "Canvas"));
  const stands = (color) => ratio(hex(color), ground) >= 3;
  return { bench, page: bench.page, ground, stands };
}

/** The colors of the particle view's pixels on `ground`, each with its share, the frequent ones first. */
function pixels(page, ground) {
  return page.evaluate((ground) => {
    const canvas = document.querySelector("canvas[role=img]");
    const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext("2d", { willReadFrequently: true });
    copy.fillStyle = ground;
    copy.fillRect(0, 0, canvas.width, canvas.height);
    for (const layer of document.querySelectorAll(".canvas-box canvas")) copy.drawImage(layer, 0, 0);
    const { data } = copy.getImageData(0, 0, canvas.width, canvas.height);
    const counts = new Map();
    for (let i = 0; i < data.length; i += 4) {
      const color = `rgb(${data[i]}, ${data[i + 1]}, ${data[i + 2]})`;
      counts.set(color, (counts.get(color) ?? 0) + 1);
    }
    return [...counts].map(([color, count]) => ({ color, share: count / (data.length / 4) })).sort((a, b) => b.share - a.share);
  }, ground);
}

/** Where words stand on the page. Runs in the page. */
function words() {
  const shows = (node) => node.checkVisibility({ visibilityProperty: true }) && !node.closest(".unseen, math");
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  while (walker.nextNode()) {
    const node = walker.currentNode;
    if (!node.data.trim() || !shows(node.parentElement)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const { x, y, width, height } = range.getClientRects()[0] ?? {};
    if (width >= 4 && height >= 8) found.push({ text: node.data.trim().slice(0, 30), x, y: y + scrollY, width, height });
  }
  return found;
}

/** Words of which nothing is to be seen on a screenshot: one color where they stand. */
async function unseen(page) {
  const [all, shot] = [await page.evaluate(words), PNG.sync.read(await page.screenshot({ fullPage: true }))];
  return all.flatMap(({ text, x, y, width, height }) => {
    const counts = new Map();
    for (let row = Math.ceil(y); row < y + height - 1 && row < shot.height; row += 1) {
      for (let column = Math.ceil(x); column < x + width - 1 && column < shot.width; column += 1) {
        const at = 4 * (row * shot.width + column);
        const color = `#${shot.data.toString("hex", at, at + 3)}`;
        counts.set(color, (counts.get(color) ?? 0) + 1);
      }
    }
    const [[ground, most], ...others] = [...counts].sort(([, a], [, b]) => b - a);
    const ink = others.filter(([color]) => ratio(color, ground) >= 3).reduce((sum, [, count]) => sum + count, 0);
    return ink < 0.01 * (ink + most) ? [`“${text}” is not to be seen`] : [];
  });
}

export default {
  "the pictures: particles, pH line, curve": async ({ open }) => {
    for (const screen of SCREENS) {
      const { bench, page, ground, stands } = await opened(open, screen);
      const problems = [];
      const seen = (color, what) => { if (!stands(color)) problems.push(`${screen.width}: ${what} in ${color} on ${ground}`); };
      const text = await page.evaluate(system, "CanvasText");
      // Bodies, levels and walls in the text's color; the acid form's inside keeps its own.
      const colors = await pixels(page, ground);
      const share = (color) => colors.find((c) => c.color === color)?.share ?? 0;
      ok(share(text) > 0.02, `${screen.width}: ${(100 * share(text)).toFixed(1)} % of the particle view is in the text's color`);
      equal(hex(colors[0].color), ground, `${screen.width}: the ground of the particle view`);
      await bench.exhaust("acid", "2.0");
      const after = await pixels(page, ground);
      ok(JSON.stringify(after) !== JSON.stringify(colors), "what is free is not painted");

      for (const selector of [".ph-line .axis", ".ph-line .range", ".ph-line .pka"]) {
        const { borderTopColor, borderTopWidth, borderLeftColor, borderLeftWidth } = await style(page, selector, ["borderTopColor", "borderTopWidth", "borderLeftColor", "borderLeftWidth"]);
        const [color, width] = parseFloat(borderTopWidth) > 0 ? [borderTopColor, borderTopWidth] : [borderLeftColor, borderLeftWidth];
        seen(color, selector);
        if (!(parseFloat(width) >= 1)) problems.push(`${selector} is ${width} wide`);
      }
      const now = await style(page, ".ph-line .now path", ["fill"]);
      const water = await style(page, ".ph-line .water path", ["fill", "stroke"]);
      seen(now.fill, "the pH marker");
      seen(water.stroke, "water's marker");
      ok(now.fill !== water.fill, "the markers of the buffer and of water look the same");

      await bench.panel("Curve");
      for (const token of ["--ink", "--water"]) seen((await style(page, `.chart-box polyline[stroke="var(${token})"]`, ["stroke"])).stroke, `the curve in ${token}`);
      ok((await style(page, '.chart-box polyline[stroke="var(--water)"]', ["strokeDasharray"])).strokeDasharray !== "none", "water's curve is not dashed");
      seen((await style(page, '.chart-box [fill="var(--range)"]', ["stroke"])).stroke, "the useful range on the curve");
      seen((await style(page, "#now-on-curve circle.now-point", ["stroke"])).stroke, "the point on the curve");
      for (const [body, property] of [["acid-body", "stroke"], ["base-body", "stroke"], ["proton", "fill"], ["hydroxide", "stroke"]]) {
        seen((await style(page, `.glyph .${body}`, [property]))[property], `the glyph ${body}`);
      }
      none(problems);
      await page.screenshot({ path: `target/screens/forced-${screen.width}.png`, fullPage: true });
    }
  },

  "the states: focus, pressed, out of use, open, invalid, main": async ({ open }) => {
    for (const screen of SCREENS) {
      const { bench, page, stands } = await opened(open, screen);
      await bench.dose("acid", "0.5").focus();
      await page.keyboard.press("Tab");
      const ring = await page.evaluate(() => (({ outlineStyle, outlineWidth, outlineColor }) => ({ outlineStyle, outlineWidth, outlineColor }))(getComputedStyle(document.activeElement)));
      ok(ring.outlineStyle !== "none" && parseFloat(ring.outlineWidth) >= 2 && stands(ring.outlineColor), `the focus ring: ${JSON.stringify(ring)}`);

      const looks = ["color", "backgroundColor", "textDecorationLine", "borderTopStyle"];
      const pressed = await style(page, '.views .key[aria-pressed="true"]', looks);
      const not = await style(page, '.views .key[aria-pressed="false"]', looks);
      ok(pressed.backgroundColor !== not.backgroundColor && pressed.textDecorationLine !== not.textDecorationLine, `a pressed key looks like another: ${JSON.stringify(pressed)}`);
      ok(ratio(hex(pressed.color), hex(pressed.backgroundColor)) >= 4.5, `a pressed key's text: ${JSON.stringify(pressed)}`);
      const out = await style(page, '.back .key[aria-disabled="true"]', looks);
      ok(out.borderTopStyle === "dashed" && out.color !== not.color, `a key out of use looks like another: ${JSON.stringify(out)}`);

      const tab = ["borderBottomStyle", "borderBottomColor"];
      const [current, other] = [await style(page, '.tabs [aria-current="true"]', tab), await style(page, '.tabs [aria-current="false"]', tab)];
      ok(current.borderBottomStyle === "double" && stands(current.borderBottomColor) && !stands(other.borderBottomColor), `the open panel's tab: ${JSON.stringify([current, other])}`);

      await bench.panel("Set up");
      const field = bench.field(/^Propanoic acid/, /^Concentration/);
      await field.fill("lots");
      await bench.settle();
      const edge = ["borderTopStyle", "borderTopWidth", "borderTopColor"];
      const wrong = await style(page, '[aria-invalid="true"]', edge);
      const right = await style(page, '[aria-invalid="false"]', edge);
      ok(wrong.borderTopStyle === "dashed" && wrong.borderTopStyle !== right.borderTopStyle && stands(wrong.borderTopColor) && stands(right.borderTopColor), `a wrong field looks like another: ${JSON.stringify(wrong)}`);
      ok(parseFloat((await style(page, ".form .warning:not(:empty)", ["borderLeftWidth"])).borderLeftWidth) >= 3, "a warning has no mark");

      const lesson = await Lesson.practice(bench);
      await lesson.choose("Work out pH from two concentrations", "Whole question");
      await lesson.panel.locator(".kinds .key").first().click();
      await bench.settle();
      const kinds = lesson.panel.locator(".kinds .key");
      if (await kinds.first().isVisible()) await kinds.nth(1).click();
      await lesson.panel.locator(".entry:visible input").first().fill("1.11");
      await lesson.check();
      ok((await style(page, '.practice [aria-invalid="true"]', edge)).borderTopStyle === "dashed", "a wrong line looks like another");
      ok(stands((await style(page, ".practice .key.main:visible", ["borderTopColor"])).borderTopColor), "the main key has no edge");
    }
  },

  "every word": async ({ open }) => {
    // On a phone all is on one page, and nothing scrolls within it.
    const { bench, page } = await opened(open, { width: 360, height: 740, dark: true });
    const problems = [];
    await stages(bench, async (stage) => problems.push(...(await unseen(page)).map((line) => `${stage}: ${line}`)));
    none(problems);
    await page.screenshot({ path: "target/screens/forced-words.png", fullPage: true });
  },

  "chosen while the page is open": async ({ open }) => {
    const bench = await open({ reduced: true });
    await bench.settle();
    const before = (await bench.picture()).hash;
    await bench.page.emulateMedia({ forcedColors: "active" });
    await until(async () => (await bench.picture()).hash, (now) => now !== before, "the particles give up the page's colors");
    await bench.settle();
    const text = await bench.page.evaluate(system, "CanvasText");
    const ground = hex(await bench.page.evaluate(system, "Canvas"));
    ok((await pixels(bench.page, ground)).some(({ color, share }) => color === text && share > 0.02), "the particles are not in the reader's colors");
  },

  "the code for cameras stays black on white": async ({ open }) => {
    const { bench, page } = await opened(open, SCREENS[1]);
    await bench.panel("Lesson");
    await page.locator(".code svg").waitFor();
    equal([(await style(page, ".code path:not(.light)", ["fill"])).fill, (await style(page, ".code .light", ["fill"])).fill], ["rgb(0, 0, 0)", "rgb(255, 255, 255)"], "the code's colors");
  },
};
