// A figure on its way to the table: every measuring program prints one line of JSON for each, and
// table.mjs reads them.

/**
 * Prints a figure. `key` is a letter of table.mjs; `aim` is null where there is none, and `better`
 * says on which side of it a figure is met.
 */
export function tell({ key, what, value, unit, aim = null, better = "less", note = "" }) {
  console.log(JSON.stringify({ key, what, value, unit, aim, better, note }));
}

/** Prints what was measured with: {name: version}. */
export function tellVersions(versions) {
  console.log(JSON.stringify({ versions }));
}

/** The middle one of several values. */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}
