// Programs that the checks start, and how they end them.

import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";

const running = new Set();
process.on("exit", () => running.forEach((child) => end(child)));

/** Starts a program with a process group of its own; each line that it writes goes to `heard`. */
export function start(program, args, { env = {}, heard = () => {}, stdio = ["ignore", "pipe", "pipe"] } = {}) {
  const child = spawn(program, args, { env: { ...process.env, ...env }, stdio, detached: true });
  running.add(child);
  child.gone = Promise.race([once(child, "exit"), once(child, "error")]).then(([what]) => {
    running.delete(child);
    return what;
  });
  for (const stream of [child.stdout, child.stderr]) {
    if (stream) createInterface({ input: stream }).on("line", heard);
  }
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
