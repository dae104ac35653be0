// Whether all that the page says about one bench is the same bench.

import { far } from "./expect.mjs";
import { number } from "./reading.mjs";

/** A printed pH is half a hundredth off at most; the rest is for the machine's last bits. */
const PH_PRINTED = 0.005 + 1e-6;

const NAMED = { acid: "HA", base: "A⁻" };

/** Parts of the page against each other. */
export function amongParts(reading) {
  const { acid, base, legend, texts, curve, why } = reading;
  const problems = [];
  const say = (...lines) => problems.push(...lines.flat());
  for (const [name, form] of Object.entries({ acid, base })) {
    const tolerance = legend.unit.mmol + form.half + 1e-9;
    say(far(form.count * legend.unit.mmol, form.mmol, tolerance, `${name} form: particles × unit, mmol`));
  }
  if (legend.drawn) {
    const tolerance = legend.unit.mmol + legend.drawn.half + 1e-9;
    say(far(legend.drawn.count * legend.unit.mmol, legend.drawn.mmol, tolerance, `free ${legend.ion}: particles × unit, mmol`));
  }
  const [, inAcid, inBase] = texts.canvas?.match(/^Particles: (.*?) of .*? and ([\d\s\u202f]+) of /) ?? [];
  say(far(number(inAcid ?? ""), acid.count, 0, "acid form as the canvas is described"));
  say(far(number(inBase ?? ""), base.count, 0, "base form as the canvas is described"));
  say(far(reading.markers[0], clamped(reading.ph), PH_PRINTED + 0.001, "marker of this buffer on the pH line"));
  say(far(reading.markers[1], clamped(reading.water), PH_PRINTED + 0.001, "marker of water on the pH line"));
  if (curve) {
    say(far(curve.now.ph, reading.ph, 0.1, "pH of the point on the curve"));
    say(far(curve.water.ph, reading.water, 0.1, "pH of water's point beside the curve"));
    const nearest = Math.min(...curve.line.slice(1).map((to, i) => distance(curve.pixel, curve.line[i], to)));
    say(far(nearest, 0, 4, "pixels from the point to the drawn curve"));
  }
  if (why.rows.length > 0) say(figures(reading));
  return problems;
}

const clamped = (ph) => Math.min(14, Math.max(0, ph));

/** Distance from a point to the piece of a line between two others. */
function distance([x, y], [x0, y0], [x1, y1]) {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const t = Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

/** The table of changes against the readouts, and against itself. */
function figures({ why, texts, ph, water }) {
  const strip = (text) => text.replace(/\s*(µmol|mmol|mol)$/, "");
  const now = [strip(texts.acidAmount), strip(texts.baseAmount), texts.ph, texts.water];
  return why.rows.flatMap(([name, before, after, change], i) => {
    const last = 10 ** -(after.split(/[.,]/)[1]?.length ?? 0);
    const problems = after === now[i] ? [] : [`Why, ${name} after: is ${after}, the bench says ${now[i]}`];
    // What is printed must add up as it is printed; the rest is for the machine's last bits.
    const moved = number(after) - number(before);
    return problems.concat(far(number(change), moved, 0.01 * last, `Why, change in ${name}`));
  });
}

/** Before an addition and after it: the table's "before" is what the bench said then. */
export function withBefore(reading, earlier) {
  const strip = (text) => text.replace(/\s*(µmol|mmol|mol)$/, "");
  const { acidAmount, baseAmount, ph, water } = earlier.texts;
  return [strip(acidAmount), strip(baseAmount), ph, water].flatMap((said, i) => {
    const [name, before] = reading.why.rows[i] ?? [];
    return before === said ? [] : [`Why, ${name} before: is ${before}, the bench said ${said}`];
  });
}

/** The page against `worked`, the same bench worked out independently. */
export function withWorked(reading, worked) {
  const { acid, base, legend } = reading;
  const problems = [];
  const say = (...lines) => problems.push(...lines.flat());
  say(far(reading.ph, worked.ph, PH_PRINTED, "pH"));
  say(far(reading.water, worked.water, PH_PRINTED, "pH of water alone"));
  say(far(acid.mmol, worked.acid, acid.half * 1.0001, "acid form, mmol"));
  say(far(base.mmol, worked.base, base.half * 1.0001, "base form, mmol"));
  const [ion, free, form] =
    worked.freeH >= worked.freeOH ? ["H⁺", worked.freeH, worked.acid] : ["OH⁻", worked.freeOH, worked.base];
  if (legend.ion !== ion) return [...problems, `free ion: the legend tells of ${legend.ion}, it should be ${ion}`];
  if (legend.drawn) {
    say(far(legend.drawn.mmol, free, legend.drawn.half * 1.0001, `free ${ion}, mmol`));
  } else if (free >= 1.5 * legend.unit.mmol) {
    say(`free ${ion}: ${free} mmol are more than a particle, but none is drawn`);
  }
  // "About" is two figures: 5 % off where the first is a 1.
  if (legend.few) say(far(legend.few.each / (form / free), 1, 0.051, `${legend.few.form} for each free ${ion}, share`));
  if (legend.lessThanOne && free >= legend.unit.mmol) say(`free ${ion}: ${free} mmol is not less than one particle`);
  return problems;
}

/** The equation on the bench is one of these; that in Why has the pair's own formulas in the same places. */
export function equationIs(reading, wanted, { acid, base } = NAMED) {
  const texts = [wanted].flat().map((text) => text.replaceAll("{acid}", acid).replaceAll("{base}", base));
  return texts.includes(reading.equation) ? [] : [`equation: is ${reading.equation}, should be ${texts.join(" or ")}`];
}

/** Each line with the moment it belongs to in front. */
export function during(moment, problems) {
  return problems.map((line) => `${moment}: ${line}`);
}
