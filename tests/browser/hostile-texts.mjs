// What people type, paste and send by accident or on purpose, and what has to be so of a page that
// was given it.

/** Takes a note if it ever runs as a script; a function to run before the page's own. */
export function watchForScripts() {
  globalThis.ran = [];
  globalThis.alert = (what) => ran.push(what);
}

const MARKUP = '<img src=x onerror="alert(1)"><script>alert(2)</script>';

/** Texts by name. `number` says that a bench or an answer may take it, `kept` how it stands in a field if not as it is. */
export const TEXTS = {
  "nothing": "",
  "blanks": " \u00a0\u2003 ",
  "minus zero": { text: "−0", number: true },
  "minus zero with decimals": { text: "-0.0", number: true },
  "the least number": { text: "1e-300", number: true },
  "the greatest number": { text: "1e300", number: true },
  "below all numbers": "-1e999",
  "not a number": "NaN",
  "infinity": "Infinity",
  "ten thousand digits": "9".repeat(10_000),
  "ten thousand digits behind the point": `0.${"3".repeat(10_000)}`,
  "ten thousand letters": "m".repeat(10_000),
  "Arabic": "٣٫٥ مول حمض",
  "Hebrew among numbers": "4.76 שלום 1.0",
  "turned round": "\u202e5.0\u202d",
  "isolates left open": "\u2067\u2066\u2068 0.1",
  "joined emoji": "👩🏽‍🔬🧪🏳️‍🌈",
  "marks upon marks": `0${"\u0301\u0489".repeat(300)}`,
  "null characters": "0\u0000.1\u0000",
  // Half a character is none: the sign for that stands in its place.
  "half a character": { text: "\ud83d0.1", kept: "\ufffd0.1" },
  "markup": MARKUP,
  "a script's address": "javascript:alert(3)",
  "an entity": "&lt;b&gt;&#x202e;&amp;",
};

/** The text of one of them, and whether it may count as a number. */
export const given = (name) => {
  const { text = TEXTS[name], number = false, kept = text } = TEXTS[name];
  return { text, number, kept };
};

/** Names and texts, to be taken into the page. */
export const all = () => Object.keys(TEXTS).map((name) => ({ name, ...given(name) }));

/**
 * Runs in the page: puts `text` into `input` as somebody who pastes it does, gives the page its turn,
 * and returns what is said beside it.
 */
export function paste() {
  globalThis.turn = () => new Promise((done) => setTimeout(done));
  globalThis.paste = async (input, text) => {
    input.focus();
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value").set.call(input, text);
    input.dispatchEvent(new InputEvent("input", { bubbles: true }));
    await turn();
    return document.getElementById(input.getAttribute("aria-describedby"))?.innerText.trim() ?? "";
  };
  /** What no text may do to a page, one line each. */
  globalThis.harm = () => {
    const { scrollWidth, clientWidth } = document.documentElement;
    const elements = document.querySelectorAll("img, #app script, #app [onerror], a[href^='javascript']").length;
    const ph = document.getElementById("ph")?.textContent ?? "";
    return [
      ...(scrollWidth > clientWidth ? [`scrolls sideways: ${scrollWidth} px in ${clientWidth}`] : []),
      ...(elements > 0 ? [`${elements} elements that the page does not make`] : []),
      ...(ran.length > 0 ? [`a script ran: ${ran}`] : []),
      ...(/^−?\d+[.,]\d+$/.test(ph) ? [] : [`pH is “${ph}”`]),
      ...(document.getElementById("app").innerText.match(/NaN|undefined|∞/g) ?? []).filter((hole) => ![...document.querySelectorAll("bdi, [dir=auto]")].some((own) => own.textContent.includes(hole))).map((hole) => `${hole} on the page`),
    ];
  };
}
