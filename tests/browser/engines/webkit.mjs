// WebKitGTK, driven by its own WebDriver server, in its own small browser, on a screen that nobody
// sees.

import { mkdir, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { join } from "node:path";
import { once } from "node:events";
import { until } from "../expect.mjs";
import { Engine } from "./engine.mjs";
import { folder, start, stop } from "./process.mjs";

/** What stands around the page takes next to no room, so that a window can be as narrow as a phone. */
const BARE = "* { min-width: 0; min-height: 0; padding: 0; margin: 0; border-width: 0; font-size: 1px; }";

/** WebDriver's commands: method and path below the session's. */
const PATHS = {
  setTimeouts: ["POST", "timeouts"],
  setWindowRect: ["POST", "window/rect"],
  navigateTo: ["POST", "url"],
  executeSync: ["POST", "execute/sync"],
  executeAsync: ["POST", "execute/async"],
  elementClick: ["POST", "element/{id}/click"],
  elementClear: ["POST", "element/{id}/clear"],
  elementSendKeys: ["POST", "element/{id}/value"],
  performActions: ["POST", "actions"],
  switchToFrame: ["POST", "frame"],
  takeScreenshot: ["GET", "screenshot"],
};

async function freePort() {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address();
  server.close();
  await once(server, "close");
  return port;
}

export class WebKit extends Engine {
  static title = "WebKitGTK";

  async start(nowhere) {
    this.settings = await folder();
    await mkdir(join(this.settings.path, "gtk-3.0"));
    await writeFile(join(this.settings.path, "gtk-3.0/gtk.css"), BARE);
    // No larger than a phone: with no window manager the window under the pointer has the focus,
    // and the pointer rests in the middle.
    let display;
    this.screen = start("Xvfb", ["-displayfd", "3", "-screen", "0", "360x740x24", "-nolisten", "tcp"], { heard: (line) => (display ??= /^\d+$/.exec(line)?.[0]) });
    await this.alive(this.screen, () => display, "Xvfb tells its display");
    const port = await freePort();
    this.address = `http://127.0.0.1:${port}`;
    const program = process.env.EVENKEEL_WEBKIT_DRIVER ?? "WebKitWebDriver";
    this.child = start(program, [`--port=${port}`], { env: { DISPLAY: `:${display}`, GDK_BACKEND: "x11", XDG_CONFIG_HOME: this.settings.path } });
    await this.alive(this.child, () => fetch(`${this.address}/status`).then(({ ok }) => ok, () => false), `${program} answers`);
    const args = ["--automation", `--proxy=http://${nowhere.host}:${nowhere.port}`, "--ignore-host=127.0.0.1", "--ignore-host=localhost", ...(this.dark ? ["--dark-mode"] : [])];
    await this.begin({ "webkitgtk:browserOptions": { args } });
  }

  /** Waits for `sign` of life from a program, or for its end. */
  async alive(child, sign, what) {
    let end;
    child.gone.then((why) => (end = why));
    await until(async () => end ?? (await sign()), Boolean, what, 60_000);
    if (end) throw new Error(end);
  }

  async command(name, given) {
    const [method, path] = name === "newSession" ? ["POST", "/session"] : PATHS[name];
    const full = name === "newSession" ? path : `/session/${this.session}/${path.replace("{id}", given.id)}`;
    const body = name === "switchToFrame" ? { id: given.frame } : given;
    const answer = await fetch(this.address + full, { method, body: method === "POST" ? JSON.stringify(body) : undefined });
    const { value } = await answer.json();
    if (!answer.ok) throw new Error(`${value.error}: ${value.message}`);
    return value;
  }

  async stop() {
    await stop(this.child);
    await stop(this.screen);
    await this.settings?.remove();
  }
}
