// The only markup that may be put on the page: the elements and attributes that the application's
// own pieces consist of, none of which runs anything or fetches anything. Where a browser enforces
// Trusted Types, it asks here before any text becomes markup, and throws at what is refused; the
// page's policy allows no other way. A check holds the two lists against the source
// (tests/browser/doors.mjs).
(function () {
  "use strict";
  var elements =
    "a|b|bdi|canvas|caption|circle|details|div|dt|em|figcaption|figure|g|h1|h2|h4|header|i|li|line|math|mfrac|mo|mrow|msqrt|mtext|ol|p|path|" +
    "polygon|polyline|rect|section|span|strong|sub|summary|sup|svg|table|tbody|td|text|th|thead|tr|ul";
  var attributes =
    "aria-hidden|aria-label|class|cx|cy|d|data-sign|display|fill|height|id|name|opacity|points|r|rel|role|rowspan|scope|stretchy|stroke|" +
    "stroke-width|tabindex|target|text-anchor|transform|viewBox|width|x|x1|x2|y|y1|y2";
  // What a link may lead to is no script.
  var link = 'href="(?:(?:about|blob|file|https?):[^"]*|[^":&]*)"';
  var piece = new RegExp("</?(?:" + elements + ")(?: (?:" + link + "|(?:" + attributes + ")=(?:\"[^\"]*\"|'[^']*')|open))*/?>", "g");

  if (window.trustedTypes) {
    window.trustedTypes.createPolicy("default", {
      // Nothing else begins with this sign: in text it is escaped.
      createHTML: function (markup) {
        return markup.replace(piece, "").indexOf("<") < 0 ? markup : null;
      },
      // The worker that keeps the page's files.
      createScriptURL: function (address) {
        return address === "sw.js" ? address : null;
      },
    });
  }
})();
