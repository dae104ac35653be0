// A course page around the widget: the sample in host/ or a plain one, what it hears, and what it
// asks for.

import { readFileSync } from "node:fs";
import { Bench } from "./bench.mjs";
import { equal, ok, until } from "./expect.mjs";
import { Lesson, sameSeries } from "./lesson.mjs";
import { serve } from "./server.mjs";

export const SAMPLE = "tests/browser/host";
/** The sample's frame, and where it stands in the world of examples. */
export const FRAME = /<iframe src="([^"]*)"/;
export const ELSEWHERE = "https://evenkeel.example";

/** A title and a prompt; made with the base64 and zlib of Python. */
export const WORDS = "#t=1.fe3c9f1f.QmFrZXJ5IGJ1ZmZlcnMKV2hpY2ggcmVzZXJ2b2lyIG1lZXRzIHRoZSBhY2lkPw";

/** Runs in every window: keeps all messages that arrive in it. */
export function listen() {
  window.heard = [];
  addEventListener("message", ({ data, origin }) => heard.push({ data, origin }));
}

export const escaped = (text) => text.replaceAll("&", "&amp;");

/** The sample page around a frame at `source`, with more `attributes` of the frame. */
function sample(source, { attributes = "" } = {}) {
  const html = readFileSync(`${SAMPLE}/index.html`, "utf8");
  ok(html.match(FRAME)[1].startsWith(ELSEWHERE), "the sample's frame is not that of the example");
  return html.replace(FRAME, () => `<iframe ${attributes} src="${escaped(source)}"`).replaceAll(ELSEWHERE, new URL(source).origin);
}

/** The query of the lesson that the sample shows. */
export const LESSON = readFileSync(`${SAMPLE}/index.html`, "utf8").match(FRAME)[1].slice(ELSEWHERE.length + 1).replaceAll("&amp;", "&");

/** Opens a course page on another origin: the sample, or `html` made from the frame's address. */
export async function course({ visit, site, folder }, options = {}) {
  const { query = LESSON, file = "", html = sample, shared = false, under = "" } = options;
  const widget = shared || under ? await serve({ folder, shared, under }) : site;
  const source = `${widget.byName}${under}/${file}${query}`;
  const outside = await serve({ folder: SAMPLE, pages: { "/": html(source, options) } });
  const page = await visit({ before: [listen, sameSeries], ...options, origins: [outside.byNumber, widget.byName] });
  await page.goto(`${outside.byNumber}/`);
  const close = async () => {
    await page.close();
    await outside.close();
    if (widget !== site) await widget.close();
  };
  return { page, source, frame: page.frames()[1], close };
}

/** The bench in a frame, once it hears the page around it: what is asked before it speaks is lost. */
export async function benchIn(page, frame) {
  const bench = await Bench.on(frame);
  await until(() => heard(page), (all) => all.length > 0, "the frame's first message");
  Object.defineProperty(frame, "mouse", { value: page.mouse, configurable: true });
  return bench;
}

/** All messages so far, or those of a type. */
export const heard = async (page, type) => {
  const all = (await page.evaluate(() => heard)).map(({ data }) => data);
  return type ? all.filter((data) => data.type === type) : all;
};
export const states = (page) => heard(page, "evenkeel:state");

/** Sends something to the frame as its parent. */
export const send = (page, message) => page.evaluate((sent) => frames[0].postMessage(sent, "*"), message);
export const ask = (page, command, parts = {}) => send(page, { type: "evenkeel:do", v: 1, command, ...parts });

/** What the page around the frame can lose: its place, its focus, its way back. */
export const place = (page) => page.evaluate(() => ({ scroll: scrollY, focus: document.activeElement.id || document.activeElement.localName, steps: history.length }));

const number = (value) => typeof value === "number" && Number.isFinite(value) && value >= 0;
const whole = (value) => number(value) && Number.isInteger(value);
const flag = (value) => typeof value === "boolean";
const oneOf = (...values) => (value) => values.includes(value);
const ONE = oneOf(1);

/** Every message that there is, with all its parts. Nothing else may be in one. */
export const SCHEMA = {
  "evenkeel:ready": { v: ONE, links: oneOf("1") },
  "evenkeel:state": {
    v: ONE, pH: number, pHWater: number, acidForm: number, baseForm: number, freeH: number, freeOH: number,
    volume: number, addedAcid: number, addedAlkali: number, acidFormUsedUp: flag, baseFormUsedUp: flag,
  },
  "evenkeel:result": {
    v: ONE, number: whole, of: (value) => value === null || whole(value), form: oneOf("mix", "ka"), level: oneOf("example", "steps", "whole"),
    marks: whole, most: whole, last: flag,
  },
  "evenkeel:refused": { v: ONE, reason: oneOf("version", "command", "value", "held", "full", "nothing", "fixed", "too-many") },
  "widget:height": { v: ONE, height: whole },
};

/** What is wrong with a message. */
export function odd(message) {
  if (message.subject === "lti.frameResize") return Object.keys(message).join() === "subject,height" && whole(message.height) ? [] : [`not a height: ${JSON.stringify(message)}`];
  const parts = SCHEMA[message.type];
  if (!parts) return [`no such message: ${JSON.stringify(message)}`];
  const wrong = Object.entries(parts).filter(([name, fits]) => !fits(message[name]));
  const more = Object.keys(message).filter((name) => name !== "type" && !(name in parts));
  return [...wrong.map(([name]) => name), ...more].map((name) => `${message.type}: ${name} is ${JSON.stringify(message[name])}`);
}

/** Ends the open question by wrong answers, with a name among them. */
export async function fail(lesson) {
  const kinds = lesson.panel.locator(".kinds button");
  for (let i = 0; i < 2 && (await kinds.first().isVisible()); i += 1) await kinds.nth(3 + i).click();
  for (let i = 0; i < 3 && (await lesson.button("Check").isVisible()); i += 1) {
    const lines = await lesson.panel.locator(".entry:visible input").all();
    for (const [place, line] of lines.entries()) await line.fill(place === 0 && lines.length > 1 ? "Anna Example" : "1.11");
    await (i === 0 ? lines.at(-1).press("Enter") : lesson.check());
    await lesson.panel.locator(".says:not(:empty)").first().waitFor();
  }
  if (await lesson.button("Show the layout").isVisible()) await lesson.press("Show the layout");
}

/** That a lesson with a title, a prompt and two questions works in `frame`, where nothing can be kept. */
export async function lessonWorks(page, frame) {
  const bench = await benchIn(page, frame);
  ok(await frame.getByText("Which reservoir meets the acid?").count(), "the prompt is not there");
  ok(await frame.getByText("Bakery buffers").first().isVisible(), "the title is not there");
  await bench.add("acid", "2.0");
  equal((await bench.read()).texts.baseAmount, "8.0 mmol", "A⁻ after an addition");
  const lesson = await Lesson.practice(bench);
  ok(/^Question 1 of 2/.test(await lesson.panel.getByRole("heading", { name: /^Question/ }).innerText()), "the questions are not the lesson's");
  await fail(lesson);
  await until(() => heard(page, "evenkeel:result"), (all) => all.length === 1, "the first result");
  await lesson.press("Explain");
  await lesson.panel.getByRole("radio").first().check();
  await lesson.check();
  await lesson.panel.locator(".stands:not(:empty)").waitFor();
  await lesson.press("How you stand");
  await lesson.panel.getByLabel("Keep this on this device").click();
  return lesson;
}

/** A course page in one line, with the frame as wide and high as wanted. */
export const plain = ({ attributes = 'width="900" height="700"', above = 0, more = "" } = {}) => (source) =>
  `<!doctype html><meta charset="utf-8"><title>A course page</title><link rel="icon" href="data:,"><body style="margin: 0"><div style="height: ${above}px">` +
  `<a href="#x" id="before">Before</a></div><iframe style="border: 0; display: block" title="Evenkeel" ${attributes} src="${escaped(source)}"></iframe><a href="#x" id="behind">Behind</a>${more}`;
