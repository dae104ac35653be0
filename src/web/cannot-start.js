// Says in words that the page cannot come alive. A classic script in old syntax: it has to run in
// the very browsers that refuse boot.js.
(function () {
  "use strict";

  // Shows #no-wasm in place of #loading.
  window.cannotStart = function () {
    document.documentElement.setAttribute("data-boot", "failed");
    var loading = document.getElementById("loading");
    if (loading) loading.hidden = true;
    var message = document.getElementById("no-wasm");
    if (message) message.hidden = false;
  };

  if (!("noModule" in document.createElement("script"))) {
    window.cannotStart();
    return;
  }

  // boot.js itself missing, or in a syntax that a first-generation module browser does not know.
  window.addEventListener(
    "error",
    function (event) {
      var lost = event.target && event.target.tagName === "SCRIPT";
      if (lost || event.error instanceof SyntaxError) window.cannotStart();
    },
    true
  );
})();
