// Programs that the checks start, and how they end them.

import { spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";

const running = new Set();
process.on("exit", () => running.forEach(end));
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => process.exit(1));

/**
 * Starts a program with a process group of its own. Each line that it writes, also to its fourth
 * stream, goes to `heard`; `gone` resolves with a word about how it ended.
 */
export function start(program, args, { env = {}, heard = () => {} } = {}) {
  const child = spawn(program, args, { env: { ...process.env, ...env }, stdio: ["ignore", "pipe", "pipe", "pipe"], detached: true });
  running.add(child);
  child.gone = new Promise((resolve) => {
    child.once("error", ({ message }) => resolve(`${program} does not start: ${message}`));
    child.once("exit", (code, signal) => resolve(`${program} has ended (${signal ?? code})`));
  }).finally(() => running.delete(child));
  for (const input of child.stdio.slice(1)) createInterface({ input }).on("line", heard);
  return child;
}

function end(child) {
  try {
    process.kill(-child.pid, "SIGKILL");
  } catch {
    // It has ended by itself.
  }
}

/** Ends a program with all that it has started. */
export async function stop(child) {
  if (!child) return;
  end(child);
  await child.gone;
}

/** A folder for one run. */
export async function folder() {
  const path = await mkdtemp(join(tmpdir(), "evenkeel-"));
  return { path, remove: () => rm(path, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 }) };
}
