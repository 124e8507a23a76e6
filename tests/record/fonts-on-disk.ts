import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fontFiles, fontKeys, type RecordFonts } from '#record/fonts.ts';

const { resolve } = createRequire(import.meta.url);

/** The record's fonts as a command reads them. */
export const fontsOnDisk = Object.fromEntries(
  fontKeys.map((key) => [key, new Uint8Array(readFileSync(resolve(fontFiles[key])))]),
) as unknown as RecordFonts;
