import { initWasm, Resvg } from '@resvg/resvg-wasm';
import wasm from '@resvg/resvg-wasm/index_bg.wasm?url';
import type { Renderer } from '#record/chart-png.ts';

let ready: Promise<void> | null = null;

/** Draws an SVG text by the renderer that lies beside the app; loaded with the first picture. */
export const renderPicture: Renderer = async ({ svg, fonts, width }) => {
  ready ??= initWasm(fetch(wasm)).catch((error: unknown) => {
    ready = null;
    throw error;
  });
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
