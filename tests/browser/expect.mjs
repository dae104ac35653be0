// What a check says when something is not so, and how it waits.

/** Fails with every line of `problems`, if there is one. */
export function none(problems) {
  if (problems.length > 0) throw new Error(problems.join("\n"));
}

export function ok(condition, what) {
  if (!condition) throw new Error(what);
}

export function equal(actual, wanted, what) {
  const [a, w] = [JSON.stringify(actual), JSON.stringify(wanted)];
  if (a !== w) throw new Error(`${what}: is ${a}, should be ${w}`);
}

/** A sentence if `actual` is further than `tolerance` from `wanted` (two-sided); else nothing. */
export function far(actual, wanted, tolerance, what) {
  const close = Math.abs(actual - wanted) <= tolerance;
  return close ? [] : [`${what}: is ${actual}, should be ${wanted} ± ${tolerance}`];
}

// Only a page that never gets there takes this long, however busy the computer is: no check passes or
// fails by the clock.
const CAP = 120_000;

/** Asks `probe` again and again until `good` says yes to its answer, and returns that answer. */
export async function until(probe, good, what, cap = CAP) {
  const end = Date.now() + cap;
  for (;;) {
    const answer = await probe();
    if (await good(answer)) return answer;
    if (Date.now() > end) {
      const seen = String(JSON.stringify(answer)).slice(0, 300);
      throw new Error(`${what}: not after ${cap / 1000} s; the last seen was ${seen}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
}
