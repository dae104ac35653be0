// Runs in the page, so it can use nothing from outside itself.

/**
 * Everything about the page's geometry that is not as it should be, one line each. To see what lies
 * over a target it scrolls there, which takes its time: not if `still`.
 */
export async function misfits(still = false) {
  const problems = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) problems.push(`scrolls sideways: ${root.scrollWidth} px in ${root.clientWidth}`);
  const shows = (node) => node.checkVisibility({ visibilityProperty: true }) && !node.closest(".unseen");
  const call = (node) => `${node.localName} "${(node.getAttribute("aria-label") ?? node.innerText ?? node.id).replace(/\s+/g, " ").slice(0, 40)}"`;
  // A link among the words of a sentence is as high as its line.
  const inText = (node) => node.localName === "a" && getComputedStyle(node).display === "inline" && node.parentElement.innerText.trim() !== node.innerText.trim();
  const targets = [...document.querySelectorAll("button, select, input, textarea, summary, a[href]")].filter((node) => shows(node) && !inText(node));
  for (const node of targets) {
    // A choice is hit anywhere on its label.
    const { width, height } = (node.closest("label.clause") ?? node).getBoundingClientRect();
    if (width < 43.99 || height < 43.99) problems.push(`too small to hit: ${call(node)} is ${width.toFixed(1)} × ${height.toFixed(1)}`);
  }
  // Under a target's middle there must be nothing else.
  for (const node of still ? [] : targets) {
    const from = scrollY;
    node.scrollIntoView({ block: "center", behavior: "instant" });
    // What comes and goes with scrolling needs a few frames to see it.
    for (let frames = scrollY === from ? 0 : 3; frames > 0; frames -= 1) await new Promise(requestAnimationFrame);
    const { x, y, width, height } = node.getBoundingClientRect();
    const top = document.elementFromPoint(x + width / 2, y + height / 2);
    if (!top || !(node.contains(top) || top.contains(node))) problems.push(`covered: ${call(node)} by ${top && call(top)}`);
  }
  scrollTo({ top: 0, behavior: "instant" });
  for (const node of [...document.querySelectorAll("math")].filter(shows)) {
    const box = node.parentElement;
    if (box.scrollWidth > box.clientWidth + 1) problems.push(`clipped: an equation needs ${box.scrollWidth} px, has ${box.clientWidth}`);
  }
  const texts = document.querySelectorAll("button, h1, h2, h3, dt, dd, th, td, p, label, legend, output, li, summary");
  for (const node of [...texts].filter(shows)) {
    const inline = getComputedStyle(node).display === "inline";
    if (!inline && node.scrollWidth > node.clientWidth + 1) problems.push(`clipped: ${call(node)} needs ${node.scrollWidth} px, has ${node.clientWidth}`);
    const { left, right } = node.getBoundingClientRect();
    const scrolls = node.closest(".scroll, .block");
    if (!scrolls && (left < -0.5 || right > root.clientWidth + 0.5)) problems.push(`off the screen: ${call(node)} from ${left} to ${right}`);
  }
  return problems;
}
