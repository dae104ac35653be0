// What a window has asked for and not yet been given. A browser gives up on that when its page is
// left, and says so: "net::ERR_ABORTED", "Failed to fetch". So a page is left once all has landed.

import { until } from "./expect.mjs";

/** Whether a request still counts: what a frame that is gone has asked for, nobody waits for. */
const counts = (request) => /^http/.test(request.url()) && (request.isNavigationRequest() || !request.frame().isDetached());

const flights = new WeakMap();

/**
 * A turn of the page, in which a program that has just started asks for its parts. By a message: a
 * page that has stopped has no frames and no timers.
 */
const turn = (page) => page.evaluate(() => new Promise((done) => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = done;
  port2.postMessage(0);
}));

/** Waits until nothing that `page`, a window, has asked for is on its way any more. */
export async function landed(page) {
  const flying = flights.get(page);
  const addresses = () => [...flying].filter(counts).map((request) => request.url());
  const none = (left) => left.length === 0;
  await until(addresses, none, "all that the page asked for");
  // One that goes elsewhere by itself, or is closed, has no turn to give.
  await turn(page).catch(() => {});
  await until(addresses, none, "all that the page asked for");
}

/** Makes the window `page` wait for what is on its way to it before it goes elsewhere or is closed. */
export function leaveOnceLanded(page) {
  const flying = new Set();
  flights.set(page, flying);
  page.on("request", (request) => flying.add(request));
  for (const end of ["requestfinished", "requestfailed"]) page.on(end, (request) => flying.delete(request));
  for (const verb of ["goto", "reload", "goBack", "close"]) {
    const leave = page[verb].bind(page);
    page[verb] = async (...given) => {
      await landed(page);
      return leave(...given);
    };
  }
}
