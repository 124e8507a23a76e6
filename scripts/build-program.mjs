// Builds the command line into one file, dist/cli/overdrive-bench.mjs. Made beside its place and renamed, so that two first starts at
// once each find a whole file. With --if-possible (npm's prepare) a checkout without the build tools is no error: the command
// says what to do on its first use.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { builtProgram, root, stampOf } from './built-program.mjs';

process.chdir(root);
let build;
try {
  ({ build } = await import('vite'));
} catch (error) {
  if (process.argv.includes('--if-possible') && error.code === 'ERR_MODULE_NOT_FOUND') {
    process.stdout.write('The build tools are not installed: the command line is not built.\n');
    process.exit(0);
  }
  process.stderr.write(
    `The build tools are not installed (${error.code ?? error.message}). Run "npm ci" first.\n`,
  );
  process.exit(1);
}
const folder = path.dirname(builtProgram);
const making = path.join(folder, `making-${process.pid}`);
try {
  // Time and digest from before the build: a source that changes meanwhile makes the program stale again.
  const started = new Date();
  const stamp = stampOf();
  mkdirSync(folder, { recursive: true });
  await build({
    root,
    configFile: path.join(root, 'vite.cli.config.ts'),
    configLoader: 'runner',
    logLevel: 'error',
    build: { outDir: making },
  });
  const made = path.join(making, path.basename(builtProgram));
  writeFileSync(made, `${stamp}\n${readFileSync(made, 'utf8')}`);
  utimesSync(made, started, started);
  renameSync(made, builtProgram);
  fillCache();
} catch (error) {
  process.stderr.write(`The command line could not be built: ${error.message}\n`);
  process.exitCode = 1;
} finally {
  rmSync(making, { recursive: true, force: true });
}

/**
 * Judges a sample run, so that the first start of a user already finds the program compiled (load-program.mjs), also where its folder can
 * then no longer be written. Where there are no samples, or it does not run, the first run that judges does the same.
 */
function fillCache() {
  for (const name of readdirSync(folder))
    if (name.startsWith(path.basename(builtProgram)) && name.endsWith('.cache'))
      rmSync(path.join(folder, name), { force: true });
  const loader = new URL('load-program.mjs', import.meta.url).href;
  const judge = `
    const { loadProgram } = await import(${JSON.stringify(loader)});
    await loadProgram(${JSON.stringify(builtProgram)}).main(process.argv.slice(1));`;
  const samples = path.join(root, 'sample-runs');
  const parameters = ['assess', path.join(samples, 'logs', 'five-over-the-band.csv')];
  parameters.push('--spec', path.join(samples, 'specs', 'example-400-420.json'));
  parameters.push('--rig', path.join(samples, 'rigs', 'bench-1.json'));
  spawnSync(process.execPath, ['--input-type=module', '-e', judge, ...parameters], { stdio: 'ignore' });
}
