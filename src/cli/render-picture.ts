import { initWasm, Resvg } from '@resvg/resvg-wasm';
import wasm from '@resvg/resvg-wasm/index_bg.wasm?url&inline';
import type { Renderer } from '#record/chart-png.ts';
import { carriedBytes } from './carried-bytes.ts';

let ready: Promise<void> | null = null;

/** Draws an SVG text by the renderer that the program carries within itself. */
export const renderPicture: Renderer = async ({ svg, fonts, width }) => {
  ready ??= initWasm(carriedBytes(wasm));
  await ready;
  const resvg = new Resvg(svg, {
    fitTo: { mode: 'width', value: width },
    font: { fontBuffers: fonts, loadSystemFonts: false },
    background: '#fff',
  });
  const image = resvg.render();
  const png = image.asPng().slice();
  image.free();
  resvg.free();
  return png;
};
