// How an engine sets formulas. Each function runs in the page.

/** What of the formulas in the panel is not set as mathematics is. */
export function formulas() {
  const problems = [];
  const all = [...document.querySelectorAll("#panel math")].filter((math) => math.checkVisibility());
  // The boxes of lines of text, which are as high as the letters need, whatever an engine makes of MathML.
  const texts = (node) => [...node.querySelectorAll("span")].map((span) => span.getBoundingClientRect());
  const touch = (over, under, what) => {
    const [bottom, top] = [Math.max(...texts(over).map((t) => t.bottom)), Math.min(...texts(under).map((t) => t.top))];
    const free = 0.25 * parseFloat(getComputedStyle(under).fontSize);
    if (bottom - top > free) problems.push(`${what} run into each other by ${bottom - top} px: ${over.textContent} and ${under.textContent}`);
  };
  for (const math of all) {
    const next = math.nextElementSibling;
    if (next?.localName === "math") touch(math, next, "lines");
    if (math.parentElement.scrollHeight > math.parentElement.clientHeight + 1) problems.push(`${math.textContent} is cut`);
  }
  const fractions = all.flatMap((math) => [...math.querySelectorAll("mfrac")]);
  for (const fraction of fractions) {
    const [over, under] = fraction.children;
    touch(over, under, "numerator and denominator");
    const middle = (part) => {
      const boxes = texts(part);
      return (Math.min(...boxes.map((b) => b.left)) + Math.max(...boxes.map((b) => b.right))) / 2;
    };
    if (Math.abs(middle(over) - middle(under)) > 3) problems.push(`${fraction.textContent}: one part is not over the other`);
  }
  // In this notation scripts are text: raised ones stand above the line, lowered ones below it.
  for (const script of all.flatMap((math) => [...math.querySelectorAll("sup, sub")])) {
    const centre = (node) => (node.top + node.bottom) / 2;
    const up = centre(script.parentElement.getBoundingClientRect()) - centre(script.getBoundingClientRect());
    if (script.localName === "sup" ? up < 1 : up > -1) problems.push(`${script.parentElement.textContent}: ${script.localName} is ${up} px above the line`);
  }
  return { count: all.length, fractions: fractions.length, problems };
}

/** What is amiss with the equation in Why, which fits on one line. */
export function equation() {
  const block = document.querySelector(".why .block");
  const boxes = [...block.querySelectorAll("span, mo")].map((node) => node.getBoundingClientRect());
  const [top, bottom] = [Math.max(...boxes.map((b) => b.top)), Math.min(...boxes.map((b) => b.bottom))];
  const [left, right] = [Math.min(...boxes.map((b) => b.left)), Math.max(...boxes.map((b) => b.right))];
  const whole = block.getBoundingClientRect();
  const problems = [];
  if (top > bottom) problems.push("the equation in Why is on several lines");
  if (Math.abs(left + right - whole.left - whole.right) > 16) problems.push(`the equation in Why is not in the middle: from ${left} to ${right} in ${whole.left} to ${whole.right}`);
  if (block.scrollHeight > block.clientHeight + 1) problems.push(`the equation in Why needs ${block.scrollHeight} px, has ${block.clientHeight}`);
  return problems;
}
