// What a browser keeps for the page's origin, all of it.

/** Everything kept: cookies, the two storages by key, databases, copies of files by address. */
export async function kept(page) {
  const cookies = (await page.context().cookies()).map(({ name }) => name);
  const stored = await page.evaluate(async () => {
    const copies = await Promise.all((await caches.keys()).sort().map(async (name) => {
      const copy = await caches.open(name);
      return [name, (await copy.keys()).map(({ url }) => url).sort()];
    }));
    return {
      local: Object.keys(localStorage),
      session: Object.keys(sessionStorage),
      databases: (await indexedDB.databases()).map(({ name }) => name),
      copies: Object.fromEntries(copies),
    };
  });
  return { cookies, ...stored };
}

/** Whether the page's worker has kept the page's files and will answer for it. */
export async function copied(page) {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
}
