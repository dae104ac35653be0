// Reads the whole bench off the page at one moment, as a person would, into numbers.

/** Runs in the page: the text of everything that shows a fact, with real sub- and superscripts. */
function readTexts() {
  const raise = { "+": "⁺", "−": "⁻", "-": "⁻" };
  const written = (node) => {
    if (node.nodeType === Node.TEXT_NODE) return node.data;
    const parts = [...node.childNodes].map(written);
    const sup = (text) => [...text].map((c) => raise[c] ?? "⁰¹²³⁴⁵⁶⁷⁸⁹"[c] ?? c).join("");
    const sub = (text) => [...text].map((c) => "₀₁₂₃₄₅₆₇₈₉"[c] ?? c).join("");
    switch (node.localName) {
      case "sup": return sup(parts.join(""));
      case "sub": return sub(parts.join(""));
      case "msup": return parts[0] + sup(parts[1]);
      case "msub": return parts[0] + sub(parts[1]);
      case "msubsup": return parts[0] + sub(parts[1]) + sup(parts[2]);
      case "mo": return ` ${parts.join("")} `;
      case "br": return " ";
      default: return parts.join("");
    }
  };
  const text = (node) => node && written(node).replace(/\s+/g, " ").trim();
  const at = (selector) => text(document.querySelector(selector));
  const middle = (node) => {
    const { left, top, width, height } = node.getBoundingClientRect();
    return [left + width / 2, top + height / 2];
  };
  const svg = document.querySelector("#now-on-curve")?.closest("svg");
  // The larger point is the buffer's; water's is the next.
  const radius = (circle) => circle.getBoundingClientRect().width;
  const circles = [...(svg?.querySelectorAll("#now-on-curve circle") ?? [])].sort((a, b) => radius(b) - radius(a));
  const labels = (anchor) => [...svg.querySelectorAll(`text[text-anchor=${anchor}]`)].map((t) => [...middle(t), t.textContent]);
  const lines = (color) => [...svg.querySelectorAll(`polyline[stroke="var(${color})"]`)];
  // Corners of a line in pixels of the screen, whatever scale it was drawn at.
  const corners = (line) => [...line.points].map((p) => [p.matrixTransform(line.getScreenCTM()).x, p.matrixTransform(line.getScreenCTM()).y]);
  return {
    ph: at("#ph"),
    start: at("#ph-start"),
    pka: at("#pka"),
    water: at("#ph-water"),
    acidAmount: at("#acid-amount"),
    baseAmount: at("#base-amount"),
    acidCount: at("#acid-count"),
    baseCount: at("#base-count"),
    headings: [...document.querySelectorAll(".pan-heads h2")].map(text),
    reactions: at("#reactions"),
    passed: at("#give-and-take"),
    equation: at("#equation") ?? at(".equation"),
    legend: at("#legend"),
    status: at("#status"),
    canvas: document.querySelector("canvas[role=img]")?.getAttribute("aria-label"),
    markers: ["now", "water"].map((m) => parseFloat(document.querySelector(`.ph-line .marker.${m}`)?.style.left)),
    why: {
      headline: at(".why .headline"),
      equation: at(".why math"),
      rows: [...document.querySelectorAll(".why tbody tr")].map((row) => [...row.children].map(text)),
      text: at(".why"),
    },
    chart: circles.length > 1 && {
      now: middle(circles[0]),
      water: middle(circles[1]),
      side: labels("end"),
      below: labels("middle"),
      across: lines("--line").map(corners).filter(([[, y0], [, y1]]) => Math.abs(y1 - y0) < 0.5).map(([[, y]]) => y),
      line: corners(lines("--ink").sort((a, b) => b.points.length - a.points.length)[0]),
    },
  };
}

/** A number as the page writes it: true minus, narrow spaces, powers of ten in superscript. */
export function number(text) {
  const plain = text.replace(/[\s\u202f]/g, "").replace("−", "-").replace(",", ".");
  const [, mantissa, power] = plain.match(/^([-+]?[\d.]+)(?:×10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?$/) ?? [];
  if (mantissa === undefined) return NaN;
  const digits = [...(power ?? "⁰")].map((c) => (c === "⁻" ? "-" : "⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(c))).join("");
  return Number(mantissa) * 10 ** Number(digits);
}

const IN_MMOL = { mol: 1000, mmol: 1, µmol: 1e-3 };

/** "10.0 mmol" → its value in mmol, and half a unit of its last digit. */
export function amount(text) {
  const [, value, unit] = text?.match(/^(.*?)\s*(µmol|mmol|mol)$/) ?? [];
  if (!unit) return { mmol: NaN, half: NaN, unit: "?" };
  const decimals = value.split(/[.,]/)[1]?.length ?? 0;
  return { mmol: number(value) * IN_MMOL[unit], half: 0.5 * 10 ** -decimals * IN_MMOL[unit], unit };
}

/** Straight line through the outermost two of `points` ([pixel, value]). */
function scale(points) {
  const [[p0, v0], [p1, v1]] = [points[0], points.at(-1)];
  return (pixel) => v0 + ((pixel - p0) * (v1 - v0)) / (p1 - p0);
}

/** Amounts along the bottom have no sign: acid is left of the zero, alkali right of it. */
function signed(below) {
  const points = below.map(([x, , text]) => [x, number(text)]);
  const zero = points.find(([, value]) => value === 0);
  return points.map(([x, value]) => [x, zero && x < zero[0] ? -value : value]);
}

/** The pH of each line across the chart is the label beside it. */
function beside(across, side) {
  const near = (y) => side.reduce((best, label) => (Math.abs(label[1] - y) < Math.abs(best[1] - y) ? label : best));
  return across.map((y) => [y, number(near(y)[2])]);
}

function readChart(chart, unit) {
  if (!chart) return undefined;
  const ph = scale(beside(chart.across, chart.side));
  const added = scale(signed(chart.below));
  const point = ([x, y]) => ({ added: added(x) * IN_MMOL[unit], ph: ph(y) });
  return { now: point(chart.now), water: point(chart.water), pixel: chart.now, line: chart.line };
}

function readLegend(text) {
  const one = text?.match(/One particle is ([^.]*?(?:\.\d+)?\s*(?:µmol|mmol|mol))\./)?.[1];
  const free = text?.match(/Free (H⁺|OH⁻): (.*?)\. (?:Water|[A-Z])/);
  const drawn = free?.[2].match(/^(.*mol), (.*) particles?$/);
  const few = free?.[2].match(/about 1 for every (.*) (\S+)$/);
  return {
    unit: amount(one),
    ion: free?.[1],
    drawn: drawn && { ...amount(drawn[1]), count: number(drawn[2]) },
    few: few && { each: number(few[1]), form: few[2] },
    lessThanOne: /less than one particle/.test(free?.[2] ?? ""),
  };
}

/** Everything that the page says about its bench now. */
export async function readBench(page) {
  const texts = await page.evaluate(readTexts);
  const acid = amount(texts.acidAmount);
  const [, given, taken] = texts.passed?.match(/gave H⁺: (\d+) · .* took (?:it|one): (\d+)/) ?? [];
  return {
    texts,
    ph: number(texts.ph),
    start: number(texts.start),
    pka: number(texts.pka),
    water: number(texts.water),
    acid: { ...acid, count: number(texts.acidCount?.replace(/ particles?$/, "") ?? "") },
    base: { ...amount(texts.baseAmount), count: number(texts.baseCount?.replace(/ particles?$/, "") ?? "") },
    reactions: number(texts.reactions ?? ""),
    exchange: { given: Number(given), taken: Number(taken) },
    equation: texts.equation,
    legend: readLegend(texts.legend),
    markers: texts.markers.map((percent) => (percent / 100) * 14),
    why: texts.why,
    curve: readChart(texts.chart, acid.unit),
  };
}

/** What counts as the same bench: every fact but the idle exchange. */
export function facts({ texts }) {
  const { passed, status, chart, ...rest } = texts;
  return rest;
}
