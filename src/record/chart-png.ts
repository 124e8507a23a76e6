import { chart } from '#drawing/chart.ts';
import type { Drawing } from '#drawing/display-list.ts';
import { drawingToSvg } from '#drawing/drawing-to-svg.ts';
import type { ChartSvgInput } from './chart-svg.ts';
import { openFonts, type FontSet } from './font-set.ts';
import type { RecordFonts } from './fonts.ts';
import { phrasesOf, type Language } from './phrases.ts';
import { inRecordUnits } from './shown-units.ts';
import { rasterFamily, rasterFonts } from './raster-fonts.ts';

/** Sizes of a picture in dots an inch: twice the 96 of CSS for screens, and 300 for print. */
export const pictureSizes = { screen: 192, print: 300 } as const;
export type PictureSize = keyof typeof pictureSizes;

/** What the renderer is given, and the width that it is to make. */
export interface PictureOrder {
  svg: string;
  fonts: Uint8Array[];
  /** Pixels. */
  width: number;
}
/** Draws an SVG text as PNG. The same program in WebAssembly everywhere, so that the bytes are the same. */
export type Renderer = (order: PictureOrder) => Promise<Uint8Array>;

const INCH_MM = 25.4;

/** The record's chart as a PNG that knows its size: on paper it comes out in whole millimetres to the unit. */
export function chartPng(input: ChartSvgInput, size: PictureSize, render: Renderer): Promise<Uint8Array> {
  const { assessment, series, fonts, language, earlier, adjustment } = inRecordUnits(input);
  const { phrases, numbers } = phrasesOf(language);
  const set = openFonts(fonts);
  const last = { assessment, series };
  const drawing = chart({
    runs: earlier ? [earlier, last] : [last],
    adjustment: adjustment ?? null,
    words: phrases.chart,
    numbers,
    width: set.width,
  });
  return drawingPng({ drawing, set, fonts, language }, size, render);
}

/** Any drawing as a PNG that knows its size. */
export async function drawingPng(
  {
    drawing,
    set,
    fonts,
    language,
  }: { drawing: Drawing; set: FontSet; fonts: RecordFonts; language: Language },
  size: PictureSize,
  render: Renderer,
): Promise<Uint8Array> {
  const svg = drawingToSvg(drawing, {
    title: '',
    description: '',
    language,
    fontFamily: rasterFamily('latin-400'),
    ground: '#ffffff',
    runs: (text, weight) =>
      set.runs(text, weight).map((run) => ({ text: run.text, family: rasterFamily(run.key) })),
  });
  const dpi = pictureSizes[size];
  const png = await render({
    svg,
    fonts: rasterFonts(fonts),
    width: Math.round((drawing.width / INCH_MM) * dpi),
  });
  return withResolution(png, dpi);
}

/** Behind signature and header (8 and 25 bytes) a chunk with the dots a metre. Source: W3C Portable Network Graphics, 11.3.4.3 pHYs and Annex D (from memory). */
function withResolution(png: Uint8Array, dpi: number): Uint8Array {
  const HEAD = 33;
  const chunk = new DataView(new ArrayBuffer(21));
  const perMetre = Math.round((dpi / INCH_MM) * 1000);
  chunk.setUint32(0, 9);
  // 'pHYs'
  chunk.setUint32(4, 0x70485973);
  chunk.setUint32(8, perMetre);
  chunk.setUint32(12, perMetre);
  chunk.setUint8(16, 1);
  chunk.setUint32(17, crc32(new Uint8Array(chunk.buffer, 4, 13)));
  const result = new Uint8Array(png.length + 21);
  result.set(png.subarray(0, HEAD));
  result.set(new Uint8Array(chunk.buffer), HEAD);
  result.set(png.subarray(HEAD), HEAD + 21);
  return result;
}

/** Check sum of a PNG's chunk. Source: W3C Portable Network Graphics, annex D (from memory). */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}
