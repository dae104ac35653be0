// Starts the page's WebAssembly. A build names both files after their content, so their names are
// read from the links that it writes into the head.

/** Loads and starts the application; rejects where the browser or the network cannot. */
async function start() {
  const glue = document.querySelector('link[rel="modulepreload"]').href;
  const wasm = document.querySelector('link[type="application/wasm"]').href;
  const { default: init } = await import(glue);
  await init({ module_or_path: wasm });
}

start().then(
  () => {
    document.documentElement.dataset.boot = "started";
    const loading = document.getElementById("loading");
    if (loading) loading.hidden = true;
  },
  (error) => {
    console.error(error);
    window.cannotStart();
  },
);
