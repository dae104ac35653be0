// Makes the program fail for real: what it calls of the browser ends in a trap of WebAssembly, which
// goes up through the program's own frames.

/**
 * Runs in the page before its scripts. `arm(where, how)` from then on makes the program's next call
 * out of a handler of `where` fail: a type of event, or "start", "frame", "timer", "interval",
 * "size" or "part", the arrival of a part that is fetched later.
 */
export function setTraps() {
  // Two functions: one whose only instruction is "unreachable", one that only calls itself.
  const bytes = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 3, 2, 0, 0, 7, 9, 2, 1, 97, 0, 0, 1, 98, 0, 1, 10, 10, 2, 3, 0, 0, 11, 4, 0, 16, 1, 11];
  const { a: unreachable, b: endless } = new WebAssembly.Instance(new WebAssembly.Module(Uint8Array.from(bytes))).exports;
  const ways = {
    unreachable,
    endless,
    refused() {
      throw new TypeError("a call that the browser refuses");
    },
  };
  let armed = null;
  let inside = null;
  let parts = -1;
  window.sprung = 0;
  window.arm = (where, how = "unreachable") => {
    armed = { where, how };
    if (where === "part") parts = 0;
  };
  const isHere = () => {
    if (armed.where === "start") return document.documentElement.dataset.boot === undefined;
    return armed.where === "part" ? parts > 0 : armed.where === inside;
  };
  const spring = () => {
    if (!armed || !isHere()) return;
    const { how } = armed;
    armed = null;
    window.sprung += 1;
    ways[how]();
  };
  const trapped = (name, call) => {
    // What a hosted program takes of the browser has numbers for names (.dev/trim.mjs).
    if (typeof call !== "function" || !/^(__wb|\d+$)/.test(name)) return call;
    return function (...given) {
      spring();
      return call.apply(this, given);
    };
  };
  const each = (object, change) => Object.fromEntries(Object.entries(object).map(([name, value]) => [name, change(name, value)]));
  for (const name of ["instantiate", "instantiateStreaming"]) {
    const real = WebAssembly[name];
    WebAssembly[name] = async (source, imports = {}) => {
      const made = await real.call(WebAssembly, source, each(imports, (_, names) => each(names, trapped)));
      if (parts >= 0) parts += 1;
      return made;
    };
  }

  const within = (where, call) =>
    function (...given) {
      const before = inside;
      inside = where;
      try {
        return call.apply(this, given);
      } finally {
        inside = before;
      }
    };
  // A page that has stopped has no frames and timers any more, but the browser goes on.
  const realFrame = window.requestAnimationFrame.bind(window);
  window.realTimeout = window.setTimeout.bind(window);
  window.tenFrames = () => new Promise((done) => {
    let left = 10;
    const next = () => ((left -= 1) > 0 ? realFrame(next) : done());
    next();
  });
  for (const [name, where] of [["requestAnimationFrame", "frame"], ["setTimeout", "timer"], ["setInterval", "interval"]]) {
    const real = window[name];
    window[name] = (call, ...rest) => real.call(window, within(where, call), ...rest);
  }
  const Real = window.ResizeObserver;
  window.ResizeObserver = class extends Real {
    constructor(call) {
      super(within("size", call));
    }
  };
  const { addEventListener: add, removeEventListener: remove } = EventTarget.prototype;
  const wrapped = new WeakMap();
  EventTarget.prototype.addEventListener = function (type, listener, options) {
    if (typeof listener !== "function") return add.call(this, type, listener, options);
    if (!wrapped.has(listener)) wrapped.set(listener, within(type, listener));
    return add.call(this, type, wrapped.get(listener), options);
  };
  EventTarget.prototype.removeEventListener = function (type, listener, options) {
    return remove.call(this, type, wrapped.get(listener) ?? listener, options);
  };
}
