// Says in words that the page cannot come alive. A classic script in old syntax: it has to run in
// the very browsers that refuse the script that starts the page.
(function () {
  "use strict";

  // The application takes this out before it draws itself; if it then fails, it is put back, so
  // that the message still stands below what it speaks of.
  var firstPaint = document.querySelector(".first-paint");

  // Shows #no-wasm in place of #loading.
  window.cannotStart = function () {
    document.documentElement.setAttribute("data-boot", "failed");
    if (firstPaint && !document.documentElement.contains(firstPaint)) {
      var place = document.getElementById("app");
      place.textContent = "";
      place.appendChild(firstPaint);
    }
    var loading = document.getElementById("loading");
    if (loading) loading.hidden = true;
    var message = document.getElementById("no-wasm");
    if (message) message.hidden = false;
  };

  if (!("noModule" in document.createElement("script"))) {
    window.cannotStart();
    return;
  }

  // The script that starts the page is missing, or in a syntax that a first-generation module
  // browser does not know.
  window.addEventListener(
    "error",
    function (event) {
      var lost = event.target && event.target.tagName === "SCRIPT";
      if (lost || event.error instanceof SyntaxError) window.cannotStart();
    },
    true
  );
})();
