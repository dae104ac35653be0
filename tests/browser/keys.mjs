// Tab, Enter, Space and arrows, and what has the focus.

/** The element with the focus: role and name for a person, and whether its ring shows. */
export function focused(page) {
  return page.evaluate(() => {
    const node = document.activeElement;
    if (!node || node === document.body) return null;
    const style = getComputedStyle(node);
    const ring = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
    const rect = node.getBoundingClientRect();
    const name = node.getAttribute("aria-label") ?? node.labels?.[0]?.innerText ?? node.innerText;
    return {
      name: name.replace(/\s+/g, " ").trim(),
      tag: node.localName,
      id: node.id,
      ring: ring && style.outlineColor !== "rgba(0, 0, 0, 0)",
      inView: rect.bottom > 0 && rect.top < innerHeight && rect.right > 0 && rect.left < innerWidth,
    };
  });
}

/** Tabs on until `wanted` (a pattern) has the focus. */
export async function tabTo(page, wanted, key = "Tab") {
  const passed = [];
  for (let i = 0; i < 90; i += 1) {
    await page.keyboard.press(key);
    const now = await focused(page);
    if (now && wanted.test(now.name)) return now;
    passed.push(now?.name ?? "(nothing)");
  }
  throw new Error(`${wanted} is not to be reached by ${key}; passed: ${passed.join(" | ")}`);
}

/** All that Tab reaches from the top of the page to its end. */
export async function round(page, key = "Tab") {
  const stops = [];
  for (let i = 0; i < 100; i += 1) {
    await page.keyboard.press(key);
    const now = await focused(page);
    if (now === null && stops.length > 0) return stops;
    if (now) stops.push(now);
  }
  throw new Error(`${key} goes round and round: ${stops.slice(-8).map((s) => s.name).join(" | ")}`);
}
