// What a run says at its end.

/** As much of one failure as a person reads: lines. */
const MOST = 15;

/** Prints each failure's name and text, and the count; returns the exit code. */
export function report(passed, failures) {
  for (const { name, text } of failures) {
    const lines = text.split("\n");
    const more = lines.length > MOST ? [`… and ${lines.length - MOST} more like these`] : [];
    console.error(["", `✗ ${name}`, ...[...lines.slice(0, MOST), ...more].map((line) => `  ${line}`)].join("\n"));
  }
  console.log(`\n${passed} passed, ${failures.length} failed`);
  return failures.length > 0 ? 1 : 0;
}
