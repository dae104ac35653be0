// Writes the table of `make bench`: `node table.mjs FILE` reads lines of JSON, as row.mjs prints
// them, on standard input, judges every figure by its aim and puts the table between two marks of
// FILE. All else in the file stays. Nothing is written unless every letter has a figure.

import { readFileSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { text } from "node:stream/consumers";
import { pathToFileURL } from "node:url";

/** What is measured, by letter. */
export const KEYS = {
  a: "solving",
  b: "curves",
  c: "from tap to the pH on the screen",
  d: "script of a frame",
  e: "bytes",
  f: "Lighthouse",
  g: "memory",
};

export const START = "<!-- `make bench` writes what follows, up to the next such mark -->";
export const END = "<!-- `make bench` wrote what stands above -->";

/** The figures and versions in lines of JSON; throws at a line that is neither, or at a gap. */
export function read(lines) {
  const rows = [];
  const versions = {};
  for (const line of lines.split("\n").filter((line) => line.trim())) {
    const told = JSON.parse(line);
    if (told.versions) {
      Object.assign(versions, told.versions);
      continue;
    }
    const { key, what, value, unit, aim, better, note } = told;
    const isWhole =
      key in KEYS &&
      typeof what === "string" && what !== "" &&
      Number.isFinite(value) &&
      typeof unit === "string" &&
      (aim === null || Number.isFinite(aim)) &&
      ["less", "more"].includes(better) &&
      typeof note === "string";
    if (!isWhole) throw new Error(`not a figure: ${line}`);
    if (rows.some((row) => row.key === key && row.what === what)) throw new Error(`measured twice: ${key}, ${what}`);
    rows.push(told);
  }
  const missing = Object.keys(KEYS).filter((key) => !rows.some((row) => row.key === key));
  if (missing.length > 0) throw new Error(`no figure for ${missing.map((key) => `${key} (${KEYS[key]})`).join(", ")}`);
  return { rows, versions };
}

const number = (value) => value.toLocaleString("en-GB", { maximumSignificantDigits: Number.isInteger(value) ? 21 : 3 });
const quantity = (value, unit) => `${number(value)} ${unit}`.trim();

/** Met, or missed by how much; nothing where there is no aim. */
export function judge({ value, unit, aim, better }) {
  if (aim === null) return "";
  const over = better === "less" ? value - aim : aim - value;
  if (over <= 0) return "met";
  const share = aim === 0 ? "" : ` (${number(Number(((100 * over) / Math.abs(aim)).toPrecision(2)))} %)`;
  return `**missed** by ${quantity(over, unit)}${share}`;
}

/** The table, under a line on when and with what. */
export function table({ rows, versions }, { date, machine }) {
  const cell = (words) => words.replaceAll("|", "\\|");
  const line = (row) => {
    const aim = row.aim === null ? "" : `${row.better === "less" ? "≤" : "≥"} ${quantity(row.aim, row.unit)}`;
    return `| ${[row.key, row.what, quantity(row.value, row.unit), aim, judge(row), row.note].map(cell).join(" | ")} |`;
  };
  const inOrder = Object.keys(KEYS).flatMap((key) => rows.filter((row) => row.key === key));
  const used = Object.entries(versions).map(([name, version]) => `${name} ${version}`);
  return [
    `Measured on ${date}: ${machine}. ${used.join(", ")}.`,
    "",
    "| | what | figure | aim | | how |",
    "|---|---|---:|---:|---|---|",
    ...inOrder.map(line),
  ].join("\n");
}

/** Where the table's place in a file begins and ends. */
function place(file) {
  const [start, end] = [file.indexOf(START), file.indexOf(END)];
  const isOne = start >= 0 && end > start && file.lastIndexOf(START) === start && file.lastIndexOf(END) === end;
  if (!isOne) throw new Error(`the file must have one line “${START}” and after it one line “${END}”`);
  return { start: start + START.length, end };
}

/** `file` with `written` in the table's place. */
export function put(file, written) {
  const { start, end } = place(file);
  return `${file.slice(0, start)}\n${written}\n${file.slice(end)}`;
}

/** The letters that the table in a file has figures for. */
export function lettersIn(file) {
  const { start, end } = place(file);
  const found = [...file.slice(start, end).matchAll(/^\| ([a-z]) \| [^|]+ \| -?[\d.,]+ /gm)];
  return [...new Set(found.map(([, letter]) => letter))];
}

/** The machine, as far as it bears on a figure; whose it is does not. */
function machine() {
  const all = cpus();
  const [model] = readFileSync("/proc/cpuinfo", "utf8").match(/(?<=^model name\s*: ).+/m) ?? ["processor of unknown name"];
  const load = process.env.EVENKEEL_LOAD;
  return `${all.length} cores, ${model}${load ? `, load average ${load} before the run` : ""}`;
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const path = process.argv[2];
  const told = read(await text(process.stdin));
  Object.assign(told.versions, { "Node.js": process.version.slice(1) });
  const date = new Date().toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
  writeFileSync(path, put(readFileSync(path, "utf8"), table(told, { date, machine: machine() })));
}
