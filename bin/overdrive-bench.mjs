#!/usr/bin/env node
// The command in the checkout. `npm ci` builds the program; where that was skipped, or sources are newer, it is built here on first use.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { builtProgram, isStale } from '../scripts/built-program.mjs';
import { loadProgram } from '../scripts/load-program.mjs';

const FAULT = 70;

if (isStale()) {
  // Loaded only here: it takes a tenth of a start.
  const { spawnSync } = await import('node:child_process');
  // Standard output is left to the program: it may be JSON that somebody pipes on.
  const build = fileURLToPath(new URL('../scripts/build-program.mjs', import.meta.url));
  const { status } = spawnSync(process.execPath, [build], { stdio: ['ignore', 2, 2] });
  if (status !== 0) {
    process.stderr.write(
      existsSync(builtProgram)
        ? 'overdrive-bench: the sources changed and the program could not be built again. Mend what is named above, or take the change back.\n'
        : 'overdrive-bench: the program is not built yet and could not be built here. Run "npm ci" in its folder first.\n',
    );
    process.exit(FAULT);
  }
}
const { main } = loadProgram(builtProgram);
process.exitCode = await main(process.argv.slice(2));
