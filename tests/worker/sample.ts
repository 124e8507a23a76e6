import { readFileSync } from 'node:fs';
import { readRig, readSpec } from '#formats/check.ts';
import type { Result } from '#formats/problem.ts';
import type { RecordFonts } from '#record/fonts.ts';
import type { LogFile } from '#worker/messages.ts';
import { fontsOnDisk } from '../record/fonts-on-disk.ts';

const root = new URL('../../sample-runs/', import.meta.url);
const text = (path: string): string => readFileSync(new URL(path, root), 'utf8');
function sure<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

export const spec = (name: string) => sure(readSpec(text(`specs/${name}`), name));
export const rig = (name: string) => sure(readRig(text(`rigs/${name}`), name));
export const logBytes = (name: string): Uint8Array<ArrayBuffer> =>
  new Uint8Array(readFileSync(new URL(`logs/${name}`, root)));
export const logFile = (name: string): LogFile => ({
  key: name,
  blob: new Blob([logBytes(name)]),
  name,
});
export const textFile = (name: string, content: string): LogFile => ({
  key: `${name}-${content.length}`,
  blob: new Blob([content]),
  name,
});

export const fonts = (): RecordFonts => fontsOnDisk;
