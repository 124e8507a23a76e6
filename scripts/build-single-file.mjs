// Builds the app as one HTML file that is opened from the disk: dist/overdrive-bench.html.
import { mkdirSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const singleFile = path.join(root, 'dist', 'overdrive-bench.html');

/** @param {string} file where it goes, whole or not at all */
export async function buildSingleFile(file = singleFile) {
  const { build } = await import('vite');
  const making = `${file}-making-${process.pid}`;
  mkdirSync(path.dirname(file), { recursive: true });
  // A test runner says "test" here, and would get the slow build that React has for developing.
  const { NODE_ENV } = process.env;
  process.env.NODE_ENV = 'production';
  try {
    await build({
      root,
      configFile: path.join(root, 'vite.single-file.config.ts'),
      logLevel: 'error',
      build: { outDir: making, emptyOutDir: true },
    });
    renameSync(path.join(making, 'index.html'), file);
  } finally {
    if (NODE_ENV === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = NODE_ENV;
    rmSync(making, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  process.chdir(root);
  await buildSingleFile();
  process.stdout.write(`Built: ${path.relative(process.cwd(), singleFile)}\n`);
}
