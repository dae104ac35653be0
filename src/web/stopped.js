// Says in words that the program has failed, and leads on. A program that panics, runs out of
// memory or calls itself without end is a trap to the browser: whatever it was doing is left
// half-done, so it may not go on. In old syntax, like cannot-start.js.
(function () {
  "use strict";

  var stopped = false;

  // Errors of the page's other scripts, of the browser or of its extensions stop nothing.
  function isOurs(error) {
    var trace = String(error && error.stack);
    var trap = window.WebAssembly && error instanceof window.WebAssembly.RuntimeError;
    return (trap || /wasm-function|\[wasm code\]/.test(trace)) && trace.indexOf("-extension:") < 0;
  }

  function nothing() {
    return 0;
  }

  function stop() {
    var message = document.getElementById("stopped");
    stopped = true;
    document.documentElement.setAttribute("data-boot", "stopped");
    // Nothing wakes the program any more. Timers have numbers, each higher than the one before.
    for (var timer = window.setTimeout(nothing, 0); timer > 0; timer -= 1) window.clearTimeout(timer);
    // The focus goes last: what a click that failed still does would take it away again. In a frame
    // that the learner is not in, it would scroll the page around it.
    if (window.parent === window || document.hasFocus()) {
      window.setTimeout(function () {
        message.firstElementChild.focus();
      }, 0);
    }
    window.requestAnimationFrame = window.setTimeout = window.setInterval = nothing;

    document.body.textContent = "";
    document.body.appendChild(message);
    message.hidden = false;

    var buttons = message.getElementsByTagName("button");
    var bare = location.href.split(/[?#]/)[0];
    buttons[0].onclick = function () {
      location.reload();
    };
    buttons[1].onclick = function () {
      location.href = bare;
    };
    buttons[1].hidden = bare === location.href;
  }

  // Whether the program itself has failed, and not what it takes to start it.
  window.programFailed = function (error) {
    if (!stopped && isOurs(error)) stop();
    return stopped;
  };

  function hear(event) {
    // What was on its way when it stopped may fail once more; nobody needs to read of that.
    if (stopped) event.preventDefault();
    else window.programFailed(event.error || event.reason);
  }
  window.addEventListener("error", hear);
  window.addEventListener("unhandledrejection", hear);
  // The page around a frame is not answered by a program that has failed.
  window.addEventListener("message", function (event) {
    if (stopped) event.stopImmediatePropagation();
  });
})();
