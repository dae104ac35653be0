// Firefox, driven by Marionette, the remote protocol that is built into it and that its WebDriver
// server (geckodriver, which Debian does not have) speaks: WebDriver's commands as JSON over a socket.

import { existsSync, readFileSync } from "node:fs";
import { mkdir, writeFile } from "node:fs/promises";
import { createConnection } from "node:net";
import { join } from "node:path";
import { until } from "../expect.mjs";
import { Engine, idOf } from "./engine.mjs";
import { folder, start, stop } from "./process.mjs";

/** Only the page, so that a window can be as narrow as a phone. */
const BARE = "#navigator-toolbox { display: none !important; } :root { min-width: 0 !important; min-height: 0 !important; }";

const preferences = ({ dark, nowhere }) => ({
  "marionette.port": 0,
  "toolkit.legacyUserProfileCustomizations.stylesheets": true,
  "ui.systemUsesDarkTheme": dark ? 1 : 0,
  // Whatever a page says on its console, and errors that nobody catches, on its standard output.
  "devtools.console.stdout.content": true,
  "devtools.console.stdout.chrome": false,
  "browser.dom.window.dump.enabled": true,
  // As everybody has it: a file may read no other file.
  "security.fileuri.strict_origin_policy": true,
  // No network but this machine's own, which no proxy is asked for.
  "network.proxy.type": 1,
  "network.proxy.http": nowhere.host,
  "network.proxy.http_port": nowhere.port,
  "network.proxy.ssl": nowhere.host,
  "network.proxy.ssl_port": nowhere.port,
  "services.settings.server": "data:,#dummy/v1",
  "app.normandy.enabled": false,
  "datareporting.policy.dataSubmissionEnabled": false,
  "toolkit.telemetry.reportingpolicy.firstRun": false,
  "browser.shell.checkDefaultBrowser": false,
  "browser.aboutwelcome.enabled": false,
  "browser.startup.page": 0,
  "app.update.disabledForTesting": true,
});

/** Marionette's names of WebDriver's commands, where they differ by more than the first letter. */
const NAMES = { navigateTo: "Navigate", executeSync: "ExecuteScript", executeAsync: "ExecuteAsyncScript" };
const named = (command) => `WebDriver:${NAMES[command] ?? command[0].toUpperCase() + command.slice(1)}`;

/** Of the browser's own parts, not of a page: they have a prefix and say the rest on further lines. */
const ITS_OWN = /^JavaScript error: (resource|chrome|moz-extension):|^console\.\w+: \w+: $/;

export class Firefox extends Engine {
  static title = "Firefox";
  buffer = Buffer.alloc(0);
  waiting = new Map();
  count = 0;

  async start(nowhere) {
    this.profile = await folder();
    const { path } = this.profile;
    const lines = Object.entries(preferences({ dark: this.dark, nowhere })).map(([key, value]) => `user_pref(${JSON.stringify(key)}, ${JSON.stringify(value)});`);
    await writeFile(join(path, "user.js"), lines.join("\n"));
    await mkdir(join(path, "chrome"));
    await writeFile(join(path, "chrome/userChrome.css"), BARE);
    const program = process.env.EVENKEEL_FIREFOX ?? "firefox-esr";
    this.child = start(program, ["--headless", "--no-remote", "--marionette", "--profile", path], { heard: (line) => this.hear(line) });
    this.child.gone.then((why) => this.break(why));
    const told = join(path, "MarionetteActivePort");
    await until(() => (this.broken ? this.broken : existsSync(told) && readFileSync(told, "utf8")), Boolean, `${program} --marionette tells its port`, 60_000);
    if (this.broken) throw new Error(this.broken);
    this.socket = createConnection(Number(readFileSync(told, "utf8")), "127.0.0.1");
    this.socket.on("data", (data) => this.receive(data));
    this.socket.on("error", (error) => this.break(`Marionette: ${error.message}`));
    await this.begin({});
  }

  hear(line) {
    const match = /^console\.(error|warn|assert)|^JavaScript error/.test(line);
    if (match && !ITS_OWN.test(line)) this.heard.push(line);
  }

  break(why) {
    this.broken = why;
    for (const { refuse } of this.waiting.values()) refuse(new Error(why));
    this.waiting.clear();
  }

  /** A message is its length in bytes, a colon, and JSON: [1, number, error, result]. */
  receive(data) {
    this.buffer = Buffer.concat([this.buffer, data]);
    for (;;) {
      const colon = this.buffer.indexOf(":");
      const end = colon + 1 + Number(this.buffer.subarray(0, Math.max(colon, 0)));
      if (colon < 0 || this.buffer.length < end) return;
      const message = JSON.parse(this.buffer.subarray(colon + 1, end));
      this.buffer = this.buffer.subarray(end);
      // The first one is a greeting.
      if (!Array.isArray(message)) continue;
      const [, number, error, result] = message;
      const { take, refuse } = this.waiting.get(number);
      this.waiting.delete(number);
      if (error) refuse(new Error(`${error.error}: ${error.message}`));
      else take(result);
    }
  }

  async command(name, given) {
    if (this.broken) throw new Error(this.broken);
    const parameters = name === "switchToFrame" ? { id: null, element: given.frame && idOf(given.frame) } : name === "takeScreenshot" ? { full: false } : given;
    const number = (this.count += 1);
    const answer = new Promise((take, refuse) => this.waiting.set(number, { take, refuse }));
    const text = JSON.stringify([0, number, named(name), parameters]);
    this.socket.write(`${Buffer.byteLength(text)}:${text}`);
    const result = await answer;
    return result && typeof result === "object" && "value" in result ? result.value : result;
  }

  async stop() {
    this.socket?.destroy();
    await stop(this.child);
    await this.profile?.remove();
  }
}
