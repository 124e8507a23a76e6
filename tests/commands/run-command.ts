import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll } from 'vitest';

export interface Ended {
  code: number | null;
  stdout: string;
  stderr: string;
}
export interface Surroundings {
  stdin?: string | Uint8Array;
  env?: Record<string, string>;
  cwd?: string;
  /** Another checkout's command. */
  bin?: string;
}

const bin = path.resolve('bin', 'overdrive-bench.mjs');

/** Starts the command as a process of its own, as a user does. */
export function start(argv: readonly string[], { env, cwd, bin: other }: Surroundings = {}): ChildProcess {
  return spawn(process.execPath, [other ?? bin, ...argv], {
    env: { ...process.env, NO_COLOR: '1', ...env },
    ...(cwd === undefined ? {} : { cwd }),
  });
}

/** What it had to say when it ended. */
export function ended(child: ChildProcess): Promise<Ended> {
  let stdout = '';
  let stderr = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => (stdout += text));
  child.stderr?.setEncoding('utf8').on('data', (text: string) => (stderr += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
}

/** Runs the command to its end. */
export async function run(argv: readonly string[], around: Surroundings = {}): Promise<Ended> {
  const child = start(argv, around);
  const end = ended(child);
  // A command that refuses its arguments does not read its input.
  child.stdin?.on('error', () => undefined);
  child.stdin?.end(around.stdin ?? '');
  return end;
}

/** A folder of this test file's own, gone afterwards. */
export function ownFolder(): string {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'command-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export const sample = (name: string): string => path.resolve('sample-runs', 'logs', `${name}.csv`);
export const specOf = (name: string): string => path.resolve('sample-runs', 'specs', `${name}.json`);
export const rigOf = (name: string): string => path.resolve('sample-runs', 'rigs', `${name}.json`);

/** A short run that engages at 410 psi: enough for every path that does not ask for hours. */
export function shortRun(rows = 900): string {
  const lines = ['time_s,pressure (psi),oil (°C)'];
  for (let t = 0; t < rows; t++) {
    const engaged = t >= 30 && t < rows - 30;
    lines.push(
      `${t},${engaged ? (410 + (((t * 7) % 5) - 2) / 10).toFixed(1) : '0.0'},${(60 + ((t * 3) % 7) / 10).toFixed(1)}`,
    );
  }
  return `${lines.join('\n')}\n`;
}
