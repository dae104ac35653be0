// What a screen reader is given to say, message by message.

import { shown } from "./frames.mjs";

/**
 * Runs in the page: from now on `heard` has a line for each change of a live region, also of one that
 * comes later. What changes in one go is one message.
 */
export function listen() {
  globalThis.heard = [];
  const LIVE = "output, [role=status], [role=alert], [role=log], [aria-live]";
  const live = (node) => (node.nodeType === Node.ELEMENT_NODE ? node : node.parentElement)?.closest(LIVE);
  new MutationObserver((changes) => {
    const regions = new Set();
    for (const { type, target, addedNodes } of changes) {
      // A region that is hidden says nothing; what it has to say is said once it shows.
      if (type === "attributes") for (const region of [target.closest(LIVE), ...target.querySelectorAll(LIVE)]) regions.add(region);
      if (type !== "attributes") regions.add(live(target));
      // An alert that comes with its words is said at once; other regions have to be there before.
      for (const node of addedNodes) if (node.nodeType === Node.ELEMENT_NODE) for (const alert of [node, ...node.querySelectorAll("[role=alert]")]) if (alert.matches("[role=alert]")) regions.add(alert);
    }
    for (const region of regions) {
      if (!region?.isConnected || region.getAttribute("aria-live") === "off" || !region.checkVisibility()) continue;
      if (region.textContent.trim()) heard.push(region.textContent);
    }
  }).observe(document.body, { childList: true, characterData: true, subtree: true, attributes: true, attributeFilter: ["hidden"] });
}

/** What was said since `listen`, or since this was last asked. */
export async function heard(page) {
  await page.evaluate(shown);
  return page.evaluate(() => globalThis.heard.splice(0));
}
