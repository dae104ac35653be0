// Starts the page's WebAssembly. A build names both files after their content, so their names are
// read from the links that it writes into the head.

/** Loads and starts the application; rejects where the browser or the network cannot. */
async function start() {
  const glue = document.querySelector('link[rel="modulepreload"]').href;
  const wasm = document.querySelector('link[type="application/wasm"]').href;
  const { default: init } = await import(glue);
  await init({ module_or_path: wasm });
}

/** A lesson's link and a frame take one part more. It is asked for at once, and not only when the
    program finds so. */
function fetchAhead() {
  const { linked } = document.documentElement.dataset;
  if (!linked || (!location.search && !location.hash && window.parent === window)) return;
  for (const href of linked.split(" ")) {
    const link = document.createElement("link");
    document.head.append(Object.assign(link, { rel: "preload", as: "fetch", crossOrigin: "anonymous", href }));
  }
}

/** Lets the browser keep the page's files for use without a network, if the build has a worker for
    that. In a frame the copy would be one more for every host, so only a page of its own has one. */
async function keepCopy() {
  const { worker } = document.documentElement.dataset;
  if (!worker || window.top !== window || !/^http/.test(location.protocol)) return;
  if (document.readyState !== "complete") await new Promise((loaded) => addEventListener("load", loaded));
  // A worker is a program more to start: not while the page draws itself for the first time.
  if (window.requestIdleCallback) await new Promise((idle) => requestIdleCallback(idle, { timeout: 5000 }));
  await navigator.serviceWorker.register(worker);
}

fetchAhead();
start().then(
  () => {
    document.documentElement.dataset.boot = "started";
    const loading = document.getElementById("loading");
    if (loading) loading.hidden = true;
    // A browser may refuse; then there is no copy, and that is all.
    keepCopy().catch(() => {});
  },
  (error) => {
    console.error(error);
    if (!window.programFailed(error)) window.cannotStart();
  },
);
