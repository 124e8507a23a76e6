// Builds the app into dist/app, whole or not at all: into a folder beside it first, then renamed.
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
export const appFolder = path.join(root, 'dist', 'app');
/** Everything that the app is made from. */
const sources = [
  'index.html',
  'package.json',
  'vite.app.config.ts',
  'vite.icons.ts',
  'vite.sample-runs.ts',
  'src',
  'sample-runs',
];

/** Time of the newest file below. */
function newest(place) {
  const found = statSync(place);
  if (!found.isDirectory()) return found.mtimeMs;
  return Math.max(0, ...readdirSync(place).map((name) => newest(path.join(place, name))));
}

/** Whether the app has to be built: not there yet, or older than what it is made from. */
export function isStale() {
  const built = path.join(appFolder, 'index.html');
  if (!existsSync(built)) return true;
  const at = statSync(built).mtimeMs;
  return sources.some((name) => existsSync(path.join(root, name)) && newest(path.join(root, name)) > at);
}

/** @param {{ quiet?: boolean }} options */
export async function buildApp({ quiet = false } = {}) {
  const { build } = await import('vite');
  const making = path.join(root, 'dist', `app-making-${process.pid}`);
  const old = path.join(root, 'dist', `app-old-${process.pid}`);
  mkdirSync(path.dirname(making), { recursive: true });
  // A test runner says "test" here, and would get the slow build that React has for developing.
  const { NODE_ENV } = process.env;
  process.env.NODE_ENV = 'production';
  try {
    await build({
      root,
      configFile: path.join(root, 'vite.app.config.ts'),
      logLevel: quiet ? 'silent' : 'error',
      build: { outDir: making, emptyOutDir: true },
    });
    if (existsSync(appFolder)) renameSync(appFolder, old);
    renameSync(making, appFolder);
  } finally {
    if (NODE_ENV === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = NODE_ENV;
    rmSync(making, { recursive: true, force: true });
    rmSync(old, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  process.chdir(root);
  await buildApp();
  process.stdout.write(`Built: ${path.relative(process.cwd(), appFolder)}\n`);
}
