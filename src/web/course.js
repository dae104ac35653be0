// Tells a course system how the learner stands, and keeps their state there: SCORM 2004 or 1.2,
// whichever the system speaks. Part of the lesson's file (.dev/file.mjs puts it in front of the
// program's glue); without the mark that a course package bears it does nothing. It reads no name
// and nothing else about the learner.
//
// Names and limits of the data model are those of SCORM 1.2 (Run-Time Environment, 3.4) and of
// SCORM 2004 4th edition (Run-Time Environment, 4.2).

/** As far as the published examples of finding the interface climb. */
const MOST_HOPS = 500;

/** Times of a session are told in seconds. */
const two = (number) => String(number).padStart(2, "0");
const hours = (s) => `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;

/** Both editions of the standard, the one to prefer first. */
const EDITIONS = [
  {
    object: "API_1484_11",
    calls: { open: "Initialize", get: "GetValue", set: "SetValue", commit: "Commit", close: "Terminate" },
    state: "cmi.suspend_data",
    longest: 64000,
    score: "cmi.score",
    exit: "cmi.exit",
    ended: "normal",
    time: "cmi.session_time",
    duration: (seconds) => `PT${seconds}S`,
    standing: (get) => ({
      done: get("cmi.completion_status") === "completed",
      passed: { passed: true, failed: false }[get("cmi.success_status")] ?? null,
    }),
    stand: ({ done, passed }) => [
      ["cmi.completion_status", done ? "completed" : "incomplete"],
      ...(passed === null ? [] : [["cmi.success_status", passed ? "passed" : "failed"]]),
    ],
    unsaid: [],
    scaled: (score) => [["cmi.score.scaled", String(Math.round(score * 100) / 10000)]],
  },
  {
    object: "API",
    calls: { open: "LMSInitialize", get: "LMSGetValue", set: "LMSSetValue", commit: "LMSCommit", close: "LMSFinish" },
    state: "cmi.suspend_data",
    longest: 4096,
    score: "cmi.core.score",
    exit: "cmi.core.exit",
    ended: "",
    time: "cmi.core.session_time",
    duration: hours,
    // One element says both.
    standing: (get) => {
      const status = get("cmi.core.lesson_status");
      return { done: ["passed", "failed", "completed"].includes(status), passed: { passed: true, failed: false }[status] ?? null };
    },
    stand: ({ done, passed }) => {
      const verdict = passed === null ? "completed" : passed ? "passed" : "failed";
      return [["cmi.core.lesson_status", done || passed ? verdict : "incomplete"]];
    },
    // A lesson that never says how it stands counts as completed once it ends (3.4.4).
    unsaid: [["cmi.core.lesson_status", "incomplete"]],
    scaled: () => [],
  },
];

/** What `ask` answers; `fallback` if it throws, as reading a foreign window does. */
function safely(ask, fallback) {
  try {
    return ask();
  } catch {
    return fallback;
  }
}

/** `first` and the windows that it stands in, the nearest first. */
function* climb(first) {
  let place = first;
  for (let hops = 0; place && hops < MOST_HOPS; hops += 1) {
    yield place;
    const { parent } = place;
    place = parent === place ? null : parent;
  }
}

/** The interface called `name` of a window above this one, or of the one that opened this or the topmost. */
function find(name) {
  const roots = [window.parent === window ? null : window.parent, window.opener, window.top.opener];
  for (const root of roots) {
    for (const place of climb(root)) {
      const found = safely(() => place[name], null);
      if (found) return found;
    }
  }
  return null;
}

/** A session with the first edition whose interface is there and answers; nothing if none does. */
function connect() {
  for (const edition of EDITIONS) {
    const api = find(edition.object);
    const call = (what, ...values) => safely(() => String(api[edition.calls[what]](...values)), "");
    if (api && call("open", "") === "true") return { edition, call };
  }
  return null;
}

const marked = document.querySelector('meta[name="evenkeel-course"]')?.content;
const session = marked ? safely(connect, null) : null;
let open = session !== null;
const { edition, call } = session ?? {};
const get = (name) => call("get", name);
const set = (name, value) => call("set", name, value) === "true";
const opened = Date.now();

/** As it is to be kept: what was done is never taken back, nor what was passed. */
let standing = open ? edition.standing(get) : null;
const before = open ? get(edition.state) : "";

const tellTime = () => set(edition.time, edition.duration(Math.round((Date.now() - opened) / 1000)));

/** Has all that was set kept; the time with it, in case the window never says goodbye. */
function commit() {
  tellTime();
  return call("commit", "") === "true";
}

/** What the lesson needs of a course. */
window.evenkeelCourse = {
  /** Whether a course system listens. */
  get connected() {
    return open;
  },

  /** The state that was reported last, in an earlier session; "" if there is none. */
  resume: () => before,

  /**
   * Takes down how the learner stands: `score` from 0 to 100 or null, `done`, `passed` (true,
   * false, or null where it is not known) and `state`, ASCII. False if the course system did not
   * take all of it; what it takes is kept all the same. A state that is too long for it, 4,096
   * characters in SCORM 1.2, is never cut: the earlier one stays.
   */
  report({ score, done, passed, state }) {
    if (!open) return false;
    // Before the end nobody has failed yet.
    const verdict = passed || done ? passed : null;
    standing = { done: standing.done || done, passed: standing.passed || (verdict ?? standing.passed) };
    const right = [];
    if (score !== null) {
      const fits = score >= 0 && score <= 100;
      right.push(fits);
      if (fits) {
        // The bounds are optional in SCORM 1.2: no answer to them matters.
        set(`${edition.score}.min`, "0");
        set(`${edition.score}.max`, "100");
        const values = [[`${edition.score}.raw`, String(Math.round(score * 100) / 100)], ...edition.scaled(score)];
        right.push(...values.map(([name, value]) => set(name, value)));
      }
    }
    right.push(...edition.stand(standing).map(([name, value]) => set(name, value)));
    const fits = state.length <= edition.longest && /^[ -~]*$/.test(state); // ASCII that can be read.
    right.push(fits && set(edition.state, state));
    set(edition.exit, standing.done ? edition.ended : "suspend");
    right.push(commit());
    return right.every(Boolean);
  },
};

if (open) {
  if (!standing.done) for (const [name, value] of edition.unsaid) set(name, value);
  set(edition.exit, "suspend");
  commit();
  // The last thing that is sure to happen on a phone.
  document.addEventListener("visibilitychange", () => {
    if (open && document.visibilityState === "hidden") commit();
  });
  window.addEventListener("pagehide", () => {
    if (!open) return;
    open = false;
    tellTime();
    call("close", ""); // It keeps all that was set; a commit of its own may be refused by now.
  });
}
