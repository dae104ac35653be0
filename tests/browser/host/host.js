// What a course page can do with Evenkeel in a frame: make the frame as high as its content, show
// what is on the bench and how the questions went, and ask for things. Plain JavaScript, to be
// copied; each of the three parts works without the others.

const frame = document.querySelector("iframe");
const place = (id) => document.getElementById(id);

/** Where the frame's messages come from: a sandboxed frame may be without an origin, and so is a file. */
const sealed = frame.sandbox.length > 0 && !frame.sandbox.contains("allow-same-origin");
const address = new URL(frame.src);
const origin = sealed || address.protocol === "file:" ? "null" : address.origin;

/** Lowest and highest frame, in pixels, whatever it asks for. */
const [LOWEST, HIGHEST] = [80, 20000];

/** Amounts come in mol. */
const mmol = (mol) => `${(mol * 1000).toFixed(1)} mmol`;

/** What each kind of message does here. */
const HEARD = {
  "widget:height": ({ height }) => {
    if (Number.isFinite(height)) frame.height = Math.min(Math.max(Math.ceil(height), LOWEST), HIGHEST);
  },
  "evenkeel:state": (bench) => {
    const gone = [bench.acidFormUsedUp && "HA has run out.", bench.baseFormUsedUp && "A⁻ has run out."].filter(Boolean);
    place("bench").textContent = [
      `pH ${bench.pH.toFixed(2)}, water ${bench.pHWater.toFixed(2)}.`,
      `HA ${mmol(bench.acidForm)}, A⁻ ${mmol(bench.baseForm)} in ${(bench.volume * 1000).toFixed(1)} cm³.`,
      `Added: acid ${mmol(bench.addedAcid)}, alkali ${mmol(bench.addedAlkali)}.`,
      ...gone,
    ].join(" ");
  },
  // Only from a lesson that says so: its link has tell=results.
  "evenkeel:result": ({ number, of, form, level, marks, most, last }) => {
    const line = document.createElement("li");
    line.value = number;
    line.textContent = `${form}, ${level}: ${marks} of ${most} marks${last ? `. That was the last of ${of}.` : ""}`;
    place("results").append(line);
  },
  "evenkeel:refused": ({ reason }) => {
    place("refused").textContent = `Not done: ${reason}.`;
  },
};

// The frame speaks first once it has started, long after this script. A page that listens later than
// that asks it with "tell".
addEventListener("message", ({ source, origin: from, data }) => {
  // Any window may send messages here, so both are asked for: this very frame, and its origin.
  if (source !== frame.contentWindow || from !== origin) return;
  if (data?.v === 1 && Object.hasOwn(HEARD, data.type)) HEARD[data.type](data);
});

/**
 * Asks the frame for something: ask("add", { reagent: "acid", mol: 0.002 }). What has no origin can
 * only be spoken to as "*"; there is nothing secret in a command.
 */
function ask(command, parts = {}) {
  place("refused").textContent = "";
  frame.contentWindow.postMessage({ type: "evenkeel:do", v: 1, command, ...parts }, origin === "null" ? "*" : origin);
}

place("commands").addEventListener("click", ({ target }) => {
  const { command, mol, ...parts } = target.dataset;
  if (command) ask(command, mol ? { ...parts, mol: Number(mol) } : parts);
});
