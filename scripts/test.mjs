// The gate: everything that has to hold before a change goes in. Each failure names what mends it; the last line sums up.
//   npm test                         all of it
//   npm test -- lint format          these steps alone (names below)
//   npm run unit -- tests/log        the tests that need no browser, some of them
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { canInstall, findBrowser, installBrowser } from './find-browser.mjs';
import { root } from './built-program.mjs';

process.chdir(root);
// The same everywhere: no test may hang on the zone or the language of the machine (some set others on purpose).
const env = { ...process.env, TZ: 'UTC', LC_ALL: 'C' };
const node = process.execPath;
const tool = (name) => path.join('node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);
const run = (command, parameters, more = {}) =>
  spawnSync(command, parameters, {
    stdio: 'inherit',
    env: { ...env, ...more },
    shell: command.endsWith('.cmd'),
  }).status === 0;

const checks = {
  types: {
    does: () => run(tool('tsc'), ['-p', 'tsconfig.json']),
    mend: 'Mend the types named above; "npm run types" looks again.',
  },
  'pure-types': {
    does: () => run(tool('tsc'), ['-p', 'tsconfig.pure.json']),
    mend: 'A pure room uses something of the page, of Node or of the clock. Hand it in as an argument.',
  },
  lint: {
    does: () => run(tool('oxlint'), ['--type-aware']),
    mend: '"npm run lint -- --fix" mends some of it. An import that is refused: src/README.md has the table, scripts/make-lint-config.mjs makes the rules.',
  },
  format: {
    does: () =>
      run(tool('prettier'), [
        '--check',
        '--log-level',
        'warn',
        '--cache',
        '--cache-strategy',
        'content',
        '.',
      ]),
    mend: 'npm run format',
  },
  unused: {
    does: () => run(tool('knip'), []),
    mend: 'Remove what nothing uses, or name the way in to it under "knip" in package.json.',
  },
  samples: { does: () => run(node, ['sample-runs/generate.mjs', '--check']), mend: 'npm run samples' },
  program: {
    does: () => run(node, ['scripts/build-program.mjs']),
    mend: 'Mend what the build names above; "npm run build" builds again.',
  },
  app: {
    does: () => run(node, ['scripts/build-app.mjs']),
    mend: 'Mend what the build names above; "npm run build" builds again.',
  },
};
const projects = ['node', 'browser', 'e2e'];
const testMend =
  'One file again: npx vitest run --project node tests/ROOM/FILE (browser, e2e: the same with that project).';

const asked = process.argv.slice(2);
const steps = [...Object.keys(checks), ...projects];
const chosen = asked.length === 0 ? steps : asked.filter((name) => steps.includes(name));
/** Whatever names no step is handed to the test runner. */
const filters = asked.filter((name) => !steps.includes(name));
if (chosen.length === 0) chosen.push(...steps);

const failures = [];
let passed = 0;
let failed = 0;
let skipped = 0;

for (const [name, { does, mend }] of Object.entries(checks)) {
  if (!chosen.includes(name)) continue;
  const began = Date.now();
  const well = does();
  console.log(`${well ? 'ok    ' : 'FAILED'} ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
  if (well) passed++;
  else {
    failed++;
    failures.push({ name, mend });
  }
}

const tested = projects.filter((name) => chosen.includes(name));
if (tested.length > 0) test();

for (const { name, mend } of failures) console.log(`\n${name}: ${mend}`);
if (skipped > 0)
  console.log(
    `\n${skipped} ${skipped === 1 ? 'test was' : 'tests were'} skipped for want of something on this machine.`,
  );
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 ? 1 : 0;

function test() {
  const more = {};
  if (tested.some((name) => name !== 'node')) {
    const browser =
      findBrowser({ start: true }) ??
      (canInstall() && installBrowser() ? findBrowser({ start: true }) : null);
    if (browser === null) {
      failed++;
      failures.push({
        name: 'browser',
        mend: 'No Chrome, Chromium or Edge was found, and none could be installed here. Install one, or set CHROME_PATH to it. (Without it: npm run unit)',
      });
      return;
    }
    more.CHROME_PATH = browser;
  }
  const folder = mkdtempSync(path.join(os.tmpdir(), 'overdrive-bench-test-'));
  const report = path.join(folder, 'report.json');
  try {
    const well = run(
      tool('vitest'),
      [
        'run',
        ...tested.flatMap((name) => ['--project', name]),
        '--reporter=default',
        '--reporter=json',
        `--outputFile.json=${report}`,
        '--passWithNoTests',
        ...filters,
      ],
      more,
    );
    const found = existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : null;
    passed += found?.numPassedTests ?? 0;
    failed += found?.numFailedTests ?? 0;
    skipped += (found?.numPendingTests ?? 0) + (found?.numTodoTests ?? 0);
    // A file that could not even be loaded has no failed test, and neither has a run that broke off.
    const brokenFiles = (found?.testResults ?? []).filter(
      (file) => file.status === 'failed' && file.assertionResults.every((each) => each.status !== 'failed'),
    ).length;
    failed += brokenFiles;
    if (!well && (found?.numFailedTests ?? 0) + brokenFiles === 0) failed++;
    if (!well) failures.push({ name: 'tests', mend: testMend });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
