import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import type { Plugin } from 'vite';

/** The app's mark as pictures, in the sizes that an installed app is asked for. */
export function icons(): Plugin {
  return {
    name: 'icons',
    apply: 'build',
    async generateBundle() {
      const wasm = createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm');
      // A second build in one process finds it begun.
      await initWasm(readFileSync(wasm)).catch(() => undefined);
      const svg = readFileSync('src/app/favicon.svg', 'utf8');
      for (const width of [192, 512]) {
        const source = new Resvg(svg, { fitTo: { mode: 'width', value: width } }).render().asPng();
        this.emitFile({ type: 'asset', fileName: `icon-${width}.png`, source });
      }
    },
  };
}
