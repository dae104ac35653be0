// The writer of the table of `make bench`: judges right, touches its own place only, refuses gaps; and
// DEVELOPERS.md has a table with every letter. `node --test tests/bench/`.

import { deepEqual, equal, throws } from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { END, judge, KEYS, lettersIn, put, read, START, table } from "./table.mjs";

const row = (changes) => ({ key: "a", what: "something", value: 1, unit: "ms", aim: null, better: "less", note: "", ...changes });
const lines = (rows) => rows.map((one) => JSON.stringify(one)).join("\n");
const whole = Object.keys(KEYS).map((key) => row({ key }));
const around = { date: "1 May 2030", machine: "3 cores" };

test("a figure is judged by its aim", () => {
  equal(judge(row({ value: 5 })), "");
  equal(judge(row({ value: 50, aim: 50 })), "met");
  equal(judge(row({ value: 62.5, aim: 50 })), "**missed** by 12.5 ms (25 %)");
  equal(judge(row({ value: 182718, aim: 153600, unit: "bytes" })), "**missed** by 29,118 bytes (19 %)");
  equal(judge(row({ value: 80, aim: 100, unit: "×", better: "more" })), "**missed** by 20 × (20 %)");
  equal(judge(row({ value: 100, aim: 100, unit: "×", better: "more" })), "met");
  equal(judge(row({ value: 3, aim: 0, unit: "kB" })), "**missed** by 3 kB");
});

test("what is measured is read, and a gap is no table", () => {
  const told = read(`${lines(whole)}\n\n${JSON.stringify({ versions: { Library: "1.2" } })}\n`);
  deepEqual(told.rows, whole);
  deepEqual(told.versions, { Library: "1.2" });
  throws(() => read(lines(whole.slice(1))), /no figure for a \(solving\)/);
  throws(() => read(lines([...whole, whole[0]])), /measured twice/);
  throws(() => read(lines([...whole, row({ what: "else", value: null })])), /not a figure/);
  throws(() => read(lines([...whole, row({ key: "z" })])), /not a figure/);
  throws(() => read(lines([...whole, row({ what: "else", aim: undefined })])), /not a figure/);
  throws(() => read(`${lines(whole)}\nready`), SyntaxError);
});

test("the table has figures by letter, their aims and what was measured with", () => {
  const rows = [row({ key: "b", what: "last" }), row({ what: "a|b", value: 1234.5, aim: 1000, note: "how" })];
  equal(
    table({ rows, versions: { Library: "1.2", Other: "3" } }, around),
    "Measured on 1 May 2030: 3 cores. Library 1.2, Other 3.\n\n" +
      "| | what | figure | aim | | how |\n|---|---|---:|---:|---|---|\n" +
      "| a | a\\|b | 1,230 ms | ≤ 1,000 ms | **missed** by 235 ms (23 %) | how |\n" +
      "| b | last | 1 ms |  |  |  |",
  );
});

test("only the table's place changes", () => {
  const [before, after] = ["# Title\n\n| a | other | 1 ms |\n", "\nMore $& text.\n"];
  const first = put(`${before}${START}\n${END}${after}`, "old $' words");
  equal(first, `${before}${START}\nold $' words\n${END}${after}`);
  const written = table({ rows: whole, versions: {} }, around);
  const second = put(first, written);
  equal(second, `${before}${START}\n${written}\n${END}${after}`);
  deepEqual(lettersIn(second), Object.keys(KEYS));
  deepEqual(lettersIn(first), []);
  throws(() => put(before + after, written), /must have one line/);
  throws(() => put(`${END}\n${START}`, written), /must have one line/);
  throws(() => put(`${START}\n${END}\n${START}\n${END}`, written), /must have one line/);
});

test("DEVELOPERS.md has figures for every letter", () => {
  const file = readFileSync(new URL("../../DEVELOPERS.md", import.meta.url), "utf8");
  deepEqual(lettersIn(file), Object.keys(KEYS));
});
