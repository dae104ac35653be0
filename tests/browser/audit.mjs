// What a machine can find wrong with a page for its readers: axe-core's rules, and what does not fit.

import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { misfits } from "./geometry.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** axe-core's violations (rules of WCAG 2 and its own best practices), one line each. */
async function violations(page, options = {}) {
  // A page may have come anew since.
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe);
  const found = await page.evaluate(async (options) => {
    const { violations } = await axe.run(document, { resultTypes: ["violations"], iframes: false, ...options });
    return violations.flatMap(({ id, help, nodes }) => nodes.map(({ target, failureSummary }) => ({ id, help, target, failureSummary })));
  }, options);
  return found.map(({ id, help, target, failureSummary }) => `${id} (${help}): ${target.join(" ")} ${failureSummary.replace(/\s+/g, " ").slice(0, 200)}`);
}

/**
 * Every rule in the light theme, those of colors in the dark one too; and everything must fit. In a
 * frame the page around it has the first heading, and the dark theme is left out: axe does not know
 * that a frame of another scheme than its host's has a ground of its own.
 */
export async function audit(page) {
  const isFrame = "parentFrame" in page;
  const options = isFrame ? { rules: { "page-has-heading-one": { enabled: false } } } : {};
  const found = [...(await violations(page, options)), ...(await page.evaluate(misfits, true))];
  if (isFrame) return found;
  await page.emulateMedia({ colorScheme: "dark" });
  const dark = await violations(page, { runOnly: ["color-contrast", "link-in-text-block"] });
  await page.emulateMedia({ colorScheme: "light" });
  return [...found, ...dark.map((line) => `dark: ${line}`)];
}

/**
 * Spaces as a reader may set them (WCAG 2.2, 1.4.12): lines 1.5 times, paragraphs twice, letters
 * 0.12 times and words 0.16 times the size of the text. Runs in the page.
 */
export function spaced(on) {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(on ? "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }" : "");
  document.adoptedStyleSheets = [sheet];
}
