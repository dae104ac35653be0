// The particles are told apart by their shapes: the same in one ink, in gray, and for eyes that see
// fewer colors.

import { equal, none, ok } from "./expect.mjs";
import { ratio, themes } from "./contrast.mjs";

/** One ink for everything; their last digit, which no eye sees, tells this check what was painted. */
const INKS = { acid: "#000001", base: "#000002", hydroxide: "#000003", proton: "#000004" };

/** Runs before the page's scripts: one ink on white, and a list of what was painted since the last wipe. */
function oneInk() {
  const sheet = new CSSStyleSheet();
  const dark = ["edge", "muted", "acid-line", "base-text", "water", "range-edge", "focus"].map((name) => `--${name}: #000;`).join("");
  const light = ["paper", "panel", "line", "on-ink", "acid-tint", "base-tint", "range"].map((name) => `--${name}: #fff;`).join("");
  sheet.replaceSync(`:root:root:root { ${dark} ${light} --acid-fill: #000001; --base-line: #000002; --hydroxide: #000003; --ink: #000004; }`);
  document.adoptedStyleSheets = [sheet];
  globalThis.painted = [];
  // What is on canvases beside the page, from which small particles are copied, by themselves or in rows.
  const sheets = new WeakMap();
  const on = (sheet) => sheets.get(sheet) ?? [];
  let arc = null;
  const { prototype } = CanvasRenderingContext2D;
  const then = (name, note) => {
    const own = prototype[name];
    prototype[name] = function (...given) {
      note(this, given);
      return own.apply(this, given);
    };
  };
  // The painter's stage begins two pixels inside; copies and what is wiped go by dots.
  const place = (canvas, x, y) => {
    const scale = canvas.width / canvas.getBoundingClientRect().width;
    return { x: x / scale - 2, y: y / scale - 2 };
  };
  const within = ([left, top, width, height]) => ({ x, y }) => x >= left && x < left + width && y >= top && y < top + height;
  then("clearRect", ({ canvas }, [left, top, width, height]) => {
    if (!canvas.isConnected) {
      const inside = within([left, top, width, height]);
      sheets.set(canvas, on(canvas).filter((p) => !inside(p)));
      return;
    }
    const [from, to] = [place(canvas, left, top), place(canvas, left + width, top + height)];
    const wiped = (p) => p.canvas === canvas && p.x >= from.x && p.x < to.x && p.y >= from.y && p.y < to.y;
    globalThis.painted = painted.filter((p) => !wiped(p));
  });
  then("beginPath", () => (arc = null));
  then("arc", (_, [x, y, radius]) => (arc = { x, y, radius }));
  const note = (context, ink, filled) => {
    if (context.canvas.isConnected) {
      painted.push({ ...arc, ink, filled, canvas: context.canvas });
    } else if (arc) {
      const { x, y } = context.getTransform().transformPoint(arc);
      sheets.set(context.canvas, [...on(context.canvas), { x, y, radius: arc.radius, ink, filled }]);
    }
  };
  // What is a path of its own, as courses are, is no body.
  then("fill", (context, [path]) => path ?? note(context, context.fillStyle, true));
  then("stroke", (context) => note(context, context.strokeStyle, false));
  then("drawImage", ({ canvas }, [sheet, left, top, width, height, toX, toY]) => {
    const copied = on(sheet).filter(within([left, top, width, height])).map((one) => ({ ...one, x: one.x - left + toX, y: one.y - top + toY }));
    if (canvas.isConnected) for (const one of copied) painted.push({ ...one, ...place(canvas, one.x, one.y), canvas });
    else sheets.set(canvas, [...on(canvas), ...copied]);
  });
}

/**
 * Runs in the page: cut-outs of up to `most` bodies of each kind that stand by themselves, as strings of
 * rows of "#" (ink) and "." (ground), all of one size and with the body in the middle.
 */
function cutOuts({ inks, most, box }) {
  const canvas = document.querySelector("canvas[role=img]");
  const scale = canvas.width / canvas.getBoundingClientRect().width;
  const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext("2d", { willReadFrequently: true });
  copy.fillStyle = "#fff";
  copy.fillRect(0, 0, canvas.width, canvas.height);
  for (const layer of document.querySelectorAll(".canvas-box canvas")) copy.drawImage(layer, 0, 0);
  // Lines that are no arcs have no middle.
  const all = painted.filter(({ x }) => x !== undefined);
  const acids = all.filter(({ ink, filled }) => ink === inks.acid && filled);
  // Not those that are seated on a body.
  const seated = (p) => acids.some((a) => Math.hypot(a.x - p.x, a.y - p.y) < a.radius * 1.1);
  const found = {
    acid: acids,
    base: all.filter(({ ink, filled }) => ink === inks.base && !filled),
    hydroxide: all.filter(({ ink, filled, radius }) => ink === inks.hydroxide && !filled && radius > 1),
    proton: all.filter((p) => p.ink === inks.proton && p.filled && !seated(p)),
  };
  const bodies = Object.values(found).flat();
  const alone = (p) => bodies.every((q) => Math.hypot(q.x - p.x, q.y - p.y) < 0.5 || Math.hypot(q.x - p.x, q.y - p.y) > box);
  const cut = ({ x, y, radius }) => {
    // The painter's stage begins two pixels inside.
    const side = Math.round(2 * box * scale);
    const { data } = copy.getImageData(Math.round((x + 2 - box) * scale), Math.round((y + 2 - box) * scale), side, side);
    // No wall and no line of writing beside it.
    const near = (row, column) => Math.hypot(row - side / 2, column - side / 2) < 1.5 * radius * scale;
    const at = (row, column) => (near(row, column) && data[4 * (row * side + column) + 3] > 0 && data[4 * (row * side + column)] < 128 ? "#" : ".");
    return Array.from({ length: side }, (_, row) => Array.from({ length: side }, (_, column) => at(row, column)).join(""));
  };
  return Object.fromEntries(Object.entries(found).map(([kind, those]) => [kind, those.filter(alone).slice(0, most).map(cut)]));
}

/** From how much on two shapes are two. */
const DIFFERENT = 0.3;

/** Of all that is ink in one or the other, how much is not in both. */
function difference(one, other) {
  const [a, b] = [one.join(""), other.join("")];
  const either = [...a].filter((c, i) => c === "#" || b[i] === "#").length;
  return [...a].filter((c, i) => c !== b[i]).length / either;
}

/** Linear RGB as somebody sees it who lacks one kind of cone: Machado, Oliveira and Fernandes 2009, severity 1 (from memory). */
const SIGHTS = {
  protan: [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
  deutan: [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.01182, 0.04294, 0.968881]],
  tritan: [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.3039]],
};

/** A color ("#rrggbb") as it is seen. */
function seen(hex, rows) {
  const linear = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  const out = rows.map((row) => Math.min(1, Math.max(0, row.reduce((sum, share, i) => sum + share * linear[i], 0))));
  const bytes = out.map((c) => Math.round(255 * (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055)));
  return `#${bytes.map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
}

/** Each body's line on the grounds on which it can lie. */
const LINES = [
  ["acid-line", ["panel", "acid-tint"]],
  ["base-line", ["panel", "base-tint"]],
  ["hydroxide", ["panel", "acid-tint", "base-tint"]],
  ["ink", ["panel", "acid-tint", "base-tint"]],
  ["water", ["panel", "acid-tint", "base-tint"]],
];

function inOneInk(width, height) {
  return async ({ open }) => {
    const bench = await open({ width, height, reduced: true, before: [oneInk] });
    const kinds = {};
    await bench.settle();
    // All kinds are cut out at one scale, that of the largest body.
    const box = await bench.page.evaluate((acid) => 1.3 * Math.max(...painted.filter((p) => p.ink === acid).map((p) => p.radius)), INKS.acid);
    ok(box > 4, `the largest body has the size ${box}`);
    const cut = async () => {
      await bench.settle();
      for (const [kind, those] of Object.entries(await bench.page.evaluate(cutOuts, { inks: INKS, most: 4, box }))) if (those.length > 0) kinds[kind] ??= those;
    };
    await cut();
    // Alkali, then acid, until what is free is drawn.
    await bench.add("alkali", "2.0", 7);
    await cut();
    await bench.startAgain();
    await bench.add("acid", "2.0", 7);
    await cut();
    equal(Object.keys(kinds).sort(), ["acid", "base", "hydroxide", "proton"], "kinds of particles seen");
    const names = Object.keys(kinds);
    const problems = names.flatMap((one, i) =>
      names.slice(i + 1).flatMap((other) => {
        const least = Math.min(...kinds[one].flatMap((a) => kinds[other].map((b) => (a.length === b.length ? difference(a, b) : 1))));
        return least < DIFFERENT ? [`${one} and ${other} differ in only ${(100 * least).toFixed(0)} % of their ink:`, ...kinds[one][0], ...kinds[other][0]] : [];
      }),
    );
    none(problems);
    // What tells two kinds apart finds two of a kind alike.
    for (const kind of ["proton", "hydroxide"]) {
      const [first, ...more] = kinds[kind];
      const least = Math.min(...more.map((other) => difference(first, other)));
      ok(least < DIFFERENT, `two of ${kind} differ in ${(100 * least).toFixed(0)} % of their ink`);
    }
    await bench.page.screenshot({ path: `target/screens/one-ink-${width}.png` });
  };
}

export default {
  "in one ink the four particles have four shapes, on a wide screen": inOneInk(1280, 800),
  "in one ink the four particles have four shapes, on a phone": inOneInk(360, 740),

  "their lines stand out for every sight, and in gray": async () => {
    for (const [sight, rows] of Object.entries(SIGHTS)) for (const row of rows) ok(Math.abs(row.reduce((sum, share) => sum + share, 0) - 1) < 1e-4, `${sight}: white is not seen as white`);
    const { light, dark } = await themes();
    const weak = Object.entries({ light, dark }).flatMap(([theme, colors]) =>
      Object.entries(SIGHTS).flatMap(([sight, rows]) =>
        LINES.flatMap(([line, grounds]) =>
          grounds.flatMap((ground) => {
            const is = ratio(seen(colors[line], rows), seen(colors[ground], rows));
            return is < 3 ? [`${theme}, ${sight}: ${line} on ${ground} is ${is.toFixed(2)}`] : [];
          }),
        ),
      ),
    );
    none(weak);
  },
};
