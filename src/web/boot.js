// Starts the page's WebAssembly. A build names both files after their content, so their names are
// read from the links that it writes into the head.

/** Loads and starts the application; rejects where the browser or the network cannot. */
async function start() {
  const glue = document.querySelector('link[rel="modulepreload"]').href;
  const wasm = document.querySelector('link[type="application/wasm"]').href;
  const { default: init } = await import(glue);
  await init({ module_or_path: wasm });
}

// The application takes this out before it draws itself; if it then fails, it is put back, so that
// the message that cannotStart shows still stands below what it speaks of.
const firstPaint = document.querySelector(".first-paint");

start().then(
  () => {
    document.documentElement.dataset.boot = "started";
    const loading = document.getElementById("loading");
    if (loading) loading.hidden = true;
  },
  (error) => {
    console.error(error);
    if (!firstPaint.isConnected) {
      const place = document.getElementById("app");
      place.textContent = "";
      place.appendChild(firstPaint);
    }
    window.cannotStart();
  },
);
