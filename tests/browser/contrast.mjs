// Contrast of every pair of colors, computed from the tokens of style/tokens.css in both themes.
// The least that WCAG 2.2 (AA) asks for: 4.5 : 1 for text, 3 : 1 for large text (1.4.3), for what
// shows a control and its state, and for parts of pictures (1.4.11).

import { readFile } from "node:fs/promises";
import { equal, none, ok } from "./expect.mjs";

const [TEXT, GRAPHIC] = [4.5, 3];
const GROUNDS = ["paper", "panel"];

/**
 * What is set on what: the tokens in front, the grounds behind them, and how much they need. A pair
 * of which one half is only ornament (lines between rows, edges of cards) is in ORNAMENT.
 */
const PAIRS = [
  ["ink", [...GROUNDS, "acid-tint", "base-tint"], TEXT],
  ["muted", GROUNDS, TEXT],
  ["on-ink", ["ink"], TEXT],
  ["hydroxide", [...GROUNDS, "acid-tint", "base-tint"], TEXT],
  ["water", GROUNDS, TEXT],
  ["acid-line", ["panel"], TEXT],
  ["base-text", ["panel"], TEXT],
  // Also as signs in a legend.
  ["base-line", ["panel"], TEXT],
  ["range-edge", ["panel"], TEXT],
  // Signs on particles, as large as their bodies.
  ["base-line", ["base-tint"], GRAPHIC],
  // Edges of controls, the walls of the pans, the track of a panel that scrolls.
  ["edge", GROUNDS, GRAPHIC],
  // The ring lies two pixels outside of its control, on the ground that is there; on the still
  // picture it is around what was changed.
  ["focus", [...GROUNDS, "acid-tint", "base-tint"], GRAPHIC],
  // Bodies, levels, what the curve and the pH line are drawn with.
  ["acid-line", ["acid-tint", "paper"], GRAPHIC],
  ["base-line", ["paper"], GRAPHIC],
  ["ink", ["range"], GRAPHIC],
  ["water", ["range"], GRAPHIC],
  ["base-line", ["range"], GRAPHIC],
  // A proton on its body is outlined in the panel's color where its own is near the body's.
  ["panel", ["ink"], GRAPHIC],
];

/** Nothing is told by these alone: a line in PAIRS says it as well, or words do. */
const ORNAMENT = {
  line: "edges of cards, lines between rows, the grid behind the curve; edges of keys out of use",
  range: "the ground between two edges in range-edge",
  "acid-fill": "the inside of a body outlined in acid-line",
  "acid-tint": "the ground under a level drawn in acid-line",
  "base-tint": "the ground under a level drawn in base-line",
};

/** Constants that are right: the code for cameras is black on white whatever the theme. */
const CONSTANTS = [".code path", ".code .light"];

const SHEETS = ["base", "bench", "panels", "letter"];

/** Properties that set a color in front; those that set a ground are `background…`. */
const FRONT = /^(color|border(-[a-z]+)*|outline(-color)?|fill|stroke|accent-color|box-shadow|text-decoration(-color)?|scrollbar-color)$/;

/** A color's luminance: WCAG 2.2, "relative luminance" (sRGB, IEC 61966-2-1). */
export function luminance(hex) {
  const part = (from) => {
    const c = parseInt(hex.slice(from, from + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5);
}

/** WCAG 2.2, "contrast ratio". */
export function ratio(one, other) {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

const read = (name) => readFile(`style/${name}.css`, "utf8").then((css) => css.replace(/\/\*[\s\S]*?\*\//g, ""));

/** The tokens' colors in each block of tokens.css that has any. */
export async function themes() {
  const css = await read("tokens");
  const blocks = [...css.matchAll(/(:root[^{]*)\{([^{}]*)\}/g)];
  const colors = (body) => Object.fromEntries([...body.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})\b/g)].map(([, name, hex]) => [name, hex]));
  const [light, dark, system] = blocks.map(([, , body]) => colors(body));
  return { light, dark, system };
}

/** Every declaration of a sheet outside of forced colors, with its selector. */
function declarations(css) {
  const plain = css.replace(/@media \(forced-colors: active\) \{(?:[^{}]*\{[^{}]*\})*\s*\}/g, "").replace(/@media print \{(?:[^{}]*\{[^{}]*\})*\s*\}/g, "");
  return [...plain.matchAll(/([^{}]+)\{([^{}]*)\}/g)].flatMap(([, selector, body]) =>
    body.split(";").flatMap((line) => {
      const [property, ...value] = line.split(":");
      return value.length > 0 ? [{ selector: selector.trim(), property: property.trim(), value: value.join(":").trim() }] : [];
    }),
  );
}

const tokens = (value) => [...value.matchAll(/var\(--([\w-]+)/g)].map(([, name]) => name);

/** Whether a pair is among those that are computed, for at least so much. */
export function isListed(front, ground, least) {
  return PAIRS.some(([f, grounds, need]) => f === front && grounds.includes(ground) && need >= least);
}

/** Runs in the page: each text with its color and the ground that it really has, and each control's edge. */
export function rendered() {
  const shows = (node) => node.checkVisibility({ visibilityProperty: true }) && !node.closest(".unseen");
  const ground = (node) => {
    for (let at = node; at; at = at.parentElement) {
      const { backgroundColor } = getComputedStyle(at);
      if (backgroundColor !== "rgba(0, 0, 0, 0)") return backgroundColor;
    }
    return null;
  };
  const pairs = new Map();
  const note = (front, behind, kind, node) => pairs.set([front, behind, kind].join("|"), { front, behind, kind, what: `${node.localName}.${node.className?.baseVal ?? node.className} "${node.textContent.trim().slice(0, 30)}"` });
  for (const node of document.body.querySelectorAll("*")) {
    if (!shows(node) || node.closest("svg, iframe, noscript, script")) continue;
    const style = getComputedStyle(node);
    const out = node.disabled || node.getAttribute("aria-disabled") === "true";
    const speaks = node.matches("input, select") || [...node.childNodes].some((child) => child.nodeType === Node.TEXT_NODE && child.data.trim());
    if (speaks) note(style.color, ground(node), "text", node);
    if (node.matches("button, input, select") && parseFloat(style.borderTopWidth) > 0 && !out) note(style.borderTopColor, ground(node.parentElement), "edge", node);
  }
  return [...pairs.values()];
}

/** What `rendered` found that is not among the pairs. */
export async function unlisted(found, theme) {
  const colors = (await themes())[theme];
  const rgb = (hex) => `rgb(${[1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16)).join(", ")})`;
  const named = (color) => Object.keys(colors).filter((name) => rgb(colors[name]) === color);
  return found.flatMap(({ front, behind, kind, what }) => {
    if (kind === "edge" && front === "rgba(0, 0, 0, 0)") return [];
    const least = kind === "text" ? TEXT : GRAPHIC;
    // A frame without a ground of its own stands on its host's.
    const grounds = behind === null ? ["paper"] : named(behind);
    const known = named(front).some((f) => grounds.some((g) => isListed(f, g, least)));
    return known ? [] : [`${kind} of ${what}: ${front} (${named(front)}) on ${behind} (${grounds}) is no pair of contrast.mjs`];
  });
}

export default {
  "the formula gives what WCAG says of black and white, and of a known gray": async () => {
    equal(ratio("#000000", "#ffffff"), 21, "black on white");
    // #767676 is the lightest gray for text on white.
    ok(ratio("#767676", "#ffffff") >= 4.5 && ratio("#777777", "#ffffff") < 4.5, "where gray on white passes");
  },

  "every pair in both themes": async () => {
    const { light, dark, system } = await themes();
    equal(system, dark, "the dark theme of the system and that of the address");
    equal(Object.keys(dark), Object.keys(light), "the tokens of the two themes");
    // The charge written on a body, dark in both themes.
    const onAcid = (await readFile("src/web/palette.rs", "utf8")).match(/on_acid: "(#[0-9a-f]{6})"/)[1];
    const charge = Object.values({ light, dark }).filter((colors) => ratio(onAcid, colors["acid-fill"]) < TEXT);
    equal(charge, [], "themes in which a charge on the acid form cannot be read");
    const weak = Object.entries({ light, dark }).flatMap(([theme, colors]) =>
      PAIRS.flatMap(([front, grounds, least]) =>
        grounds.flatMap((ground) => {
          const is = ratio(colors[front], colors[ground]);
          return is < least ? [`${theme}: ${front} on ${ground} is ${is.toFixed(2)}, needs ${least}`] : [];
        }),
      ),
    );
    none(weak);
  },

  "every color of the style sheets is one of the pairs": async () => {
    const { light } = await themes();
    const problems = [];
    const used = new Set();
    for (const sheet of SHEETS) {
      const rules = new Map();
      for (const { selector, property, value } of declarations(await read(sheet))) {
        if (property.startsWith("--")) continue;
        const say = (what) => problems.push(`${sheet}.css, ${selector} { ${property}: ${value} }: ${what}`);
        const isFront = FRONT.test(property);
        const isGround = property.startsWith("background");
        if (!isFront && !isGround) continue;
        if (/#[0-9a-f]{3,8}\b|\b(rgb|hsl|oklch)a?\(|\b(black|white|gray|red)\b/i.test(value) && !CONSTANTS.includes(selector)) say("a color that is no token");
        for (const token of tokens(value).filter((name) => name in light)) {
          used.add(token);
          const kind = property === "color" ? TEXT : GRAPHIC;
          const listed = PAIRS.some(([front, , need]) => front === token && need >= kind);
          const asGround = PAIRS.some(([, grounds]) => grounds.includes(token));
          if (isFront && !listed && !(token in ORNAMENT && property !== "color")) say(`${token} is in front in no pair`);
          if (isGround && !asGround && !listed && !(token in ORNAMENT)) say(`${token} is the ground of no pair`);
          const rule = rules.get(selector) ?? {};
          if (property === "color") rule.front = token;
          if (property === "background") rule.ground = token;
          rules.set(selector, rule);
        }
      }
      for (const [selector, { front, ground }] of rules) {
        if (front && ground && !isListed(front, ground, TEXT)) problems.push(`${sheet}.css, ${selector}: ${front} on ${ground} is no pair of text`);
      }
    }
    // What the painters take.
    const painters = await Promise.all(["src/web/palette.rs", "src/web/chart.rs"].map((name) => readFile(name, "utf8")));
    const painted = painters.flatMap((text) => [...text.matchAll(/"(?:var\()?--([\w-]+)/g)].map(([, name]) => name));
    ok(painted.length > 12, `the painters take ${painted}`);
    for (const token of painted) {
      used.add(token);
      if (!PAIRS.some(([front]) => front === token) && !(token in ORNAMENT)) problems.push(`painted: ${token} is in no pair`);
    }
    for (const name of Object.keys(light).filter((name) => !used.has(name))) problems.push(`${name} is used nowhere`);
    none(problems);
  },
};
