// Makes the program smaller where wasm-opt does not.
//
//   trim.mjs exports FOLDER   before wasm-opt, which then drops what only those exports reach
//   trim.mjs order FILE       after it: names after which wasm-opt can put like functions beside
//                             each other, where brotli makes more of them
//   trim.mjs names FOLDER     at the end: glue without the functions that the program no longer
//                             imports, and no names with digests between the two

import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** The sections of a module: numbers and contents. */
function sectionsOf(module) {
  const sections = [];
  for (let at = 8; at < module.length; ) {
    const id = module[at];
    const [size, start] = number(module, at + 1);
    sections.push({ id, content: module.subarray(start, start + size) });
    at = start + size;
  }
  return sections;
}

const moduleOf = (sections) =>
  Buffer.concat([
    Buffer.from([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]),
    ...sections.flatMap(({ id, content }) => [Buffer.from([id]), written(content.length), content]),
  ]);

/** The number (LEB128) at `at`, and where the next thing starts. */
function number(bytes, at) {
  let value = 0;
  for (let shift = 0; ; shift += 7) {
    const byte = bytes[at++];
    value += (byte & 127) * 2 ** shift;
    if (byte < 128) return [value, at];
  }
}

function written(value) {
  const bytes = [];
  for (; value > 127; value = Math.floor(value / 128)) bytes.push((value % 128) | 128);
  return Buffer.from([...bytes, value]);
}

const named = (text) => Buffer.concat([written(Buffer.byteLength(text)), Buffer.from(text)]);

function name(bytes, at) {
  const [size, start] = number(bytes, at);
  return [bytes.toString("utf8", start, start + size), start + size];
}

const IMPORTS = 2;
const EXPORTS = 7;
const CODE = 10;

/** A section of `count` things, each read by `next(bytes, at)`, which returns one and where it ends. */
function things(bytes, next) {
  let [count, at] = number(bytes, 0);
  const all = [];
  for (; count > 0; count -= 1) {
    let thing;
    [thing, at] = next(bytes, at);
    all.push(thing);
  }
  return all;
}

const exported = (bytes, at) => {
  const [title, after] = name(bytes, at);
  const [, end] = number(bytes, after + 1);
  return [{ title, what: bytes.subarray(after, end) }, end];
};

const imported = (bytes, at) => {
  const [from, middle] = name(bytes, at);
  const [title, after] = name(bytes, middle);
  if (bytes[after] !== 0) throw new Error(`the program imports ${title}, which is no function`);
  const [, end] = number(bytes, after + 1);
  return [{ from, title, what: bytes.subarray(after, end) }, end];
};

/** The kind of an import: 0 is a function. */
const anyImport = (bytes, at) => {
  const [, middle] = name(bytes, at);
  const [, after] = name(bytes, middle);
  const kind = bytes[after];
  // A function has a type; a table an element's and limits; a memory limits; a global a type, and
  // whether it changes.
  let end = after + 1 + { 0: 0, 1: 1, 2: 0, 3: 2 }[kind];
  if (kind === 0) [, end] = number(bytes, end);
  if (kind === 1 || kind === 2) {
    const upTo = bytes[end] & 1;
    [, end] = number(bytes, end + 1);
    if (upTo) [, end] = number(bytes, end);
  }
  return [kind, end];
};

/** The module with what `change` makes of the things in one section. */
const changed = (module, section, next, change, bytesOf) =>
  moduleOf(
    sectionsOf(module).map(({ id, content }) => {
      if (id !== section) return { id, content };
      const all = change(things(content, next));
      return { id, content: Buffer.concat([written(all.length), ...all.map(bytesOf)]) };
    }),
  );

/** Classes of a library's streams, which wasm-bindgen exports whether they are used or not. */
const STREAMS =
  /^export class (IntoUnderlying\w+) \{$.*?^\}$\nif \(Symbol\.dispose\) \1\b.*?;$|^const IntoUnderlying\w+ = .*?;$/gms;

/** What the glue and the loader of the parts take from the program. */
const uses = ({ glue, loader }) => ({
  glue: new Set([...glue.matchAll(/\bwasm\.(\w+)/g)].map(([, title]) => title)),
  loader: new Set(loader.match(/\w+/g)),
});

function exports({ module, glue, loader }) {
  glue = glue.replace(STREAMS, "");
  if (glue.includes("IntoUnderlying")) throw new Error("the glue's streams are not written as trim.mjs knows them");
  const used = uses({ glue, loader });
  const keep = ({ title }) => used.glue.has(title) || used.loader.has(title);
  const bytesOf = ({ title, what }) => Buffer.concat([named(title), what]);
  return { glue, module: changed(module, EXPORTS, exported, (all) => all.filter(keep), bytesOf) };
}

/** The glue's object of functions: its head, its members, its tail. */
const FUNCTIONS = /const (import\d+) = \{\n {8}__proto__: null,\n(.*?,)\n {4}\};/s;
const MEMBER = /^ {8}(\w+): (function.*?^ {8}\}(?:, arguments\); \})?),$/gms;
const FROM = "./evenkeel_bg.js";

function names({ module, glue, loader }) {
  const used = uses({ glue, loader });
  const short = new Map();
  const listed = ({ title, what }) => {
    short.set(title, used.loader.has(title) ? title : `_${short.size}`);
    return Buffer.concat([named(short.get(title)), what]);
  };
  module = changed(module, EXPORTS, exported, (all) => all, listed);
  glue = glue.replace(/\bwasm\.(\w+)/g, (_, title) => {
    if (!short.has(title)) throw new Error(`the program exports no ${title}`);
    return `wasm.${short.get(title)}`;
  });

  const [whole, variable, members] = glue.match(FUNCTIONS) ?? [];
  if (!whole) throw new Error("the glue's functions are not written as trim.mjs knows them");
  const written = new Map([...members.matchAll(MEMBER)].map(([, title, text]) => [title, text]));
  // A list instead: its numbers are the names.
  const list = [];
  const own = ({ from, title, what }) => {
    if (from !== FROM) return Buffer.concat([named(from), named(title), what]);
    if (!written.has(title)) throw new Error(`the glue has no ${title}`);
    return Buffer.concat([named("_"), named(String(list.push(written.get(title)) - 1)), what]);
  };
  module = changed(module, IMPORTS, imported, (all) => all, own);
  glue = glue.replace(whole, () => `const ${variable} = [\n${list.join(",\n")}\n    ];`);
  glue = glue.replace(`"${FROM}": ${variable}`, () => `"_": ${variable}`);
  return { module, glue };
}

/** How long the runs of bytes are by which functions are compared, and how many of each count. */
const RUN = 4;
const MARKS = 96;

/** A few numbers that two functions share about as often as they share runs of bytes (MinHash). */
function marksOf(body) {
  const marks = new Uint32Array(MARKS).fill(0xffffffff);
  for (let at = 0; at + RUN <= body.length; at += 1) {
    let hash = 2166136261;
    for (let i = 0; i < RUN; i += 1) hash = Math.imul(hash ^ body[at + i], 16777619);
    hash ^= hash >>> 15;
    for (let i = 0; i < MARKS; i += 1) {
      const mixed = (Math.imul(hash, 2246822519) + Math.imul(i, 0x9e3779b9)) >>> 0;
      const mark = (mixed ^ (mixed >>> 13)) >>> 0;
      if (mark < marks[i]) marks[i] = mark;
    }
  }
  return marks;
}

/** How like two functions are. */
function likeness(a, b) {
  let shared = 0;
  for (let i = 0; i < MARKS; i += 1) shared += a.marks[i] === b.marks[i] ? 1 : 0;
  return shared - Math.abs(Math.log(a.size / b.size)) / 20;
}

/** The functions from the first on, each followed by the one that is most like it. */
function chained(functions) {
  const left = [...functions];
  const chain = left.splice(0, 1);
  while (left.length > 0) {
    const last = chain.at(-1);
    let [best, most] = [0, -Infinity];
    left.forEach((other, i) => {
      const like = likeness(last, other);
      if (like > most) [best, most] = [i, like];
    });
    chain.push(...left.splice(best, 1));
  }
  return chain;
}

function order(module) {
  const sections = sectionsOf(module).filter(({ id }) => id !== 0);
  const content = (id) => sections.find((section) => section.id === id)?.content ?? Buffer.from([0]);
  const first = things(content(IMPORTS), anyImport).filter((kind) => kind === 0).length;
  const bodies = things(content(CODE), (bytes, at) => {
    const [size, start] = number(bytes, at);
    return [bytes.subarray(start, start + size), start + size];
  });
  const functions = bodies.map((body, i) => ({ place: first + i, size: body.length, marks: marksOf(body) }));
  const places = [...Array(first).keys(), ...chained(functions).map(({ place }) => place)];
  const title = (rank) => named(String(rank).padStart(6, "0"));
  const map = places.map((place, rank) => [place, title(rank)]).sort((a, b) => a[0] - b[0]);
  const list = Buffer.concat([written(map.length), ...map.flatMap(([place, text]) => [written(place), text])]);
  const names = Buffer.concat([named("name"), Buffer.from([1]), written(list.length), list]);
  return moduleOf([...sections, { id: 0, content: names }]);
}

const [step, path] = process.argv.slice(2);
if (step === "order") {
  writeFileSync(path, order(readFileSync(path)));
} else {
  const at = (file) => join(path, file);
  const loader = existsSync(at("__wasm_split.js")) ? readFileSync(at("__wasm_split.js"), "utf8") : "";
  const given = { module: readFileSync(at("evenkeel_bg.wasm")), glue: readFileSync(at("evenkeel.js"), "utf8"), loader };
  const made = { exports, names }[step](given);
  writeFileSync(at("evenkeel_bg.wasm"), made.module);
  writeFileSync(at("evenkeel.js"), made.glue);
}
