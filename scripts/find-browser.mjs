// Finds an installed Chrome, Chromium or Edge for the tests. None is ever downloaded by npm.
import { spawnSync } from 'node:child_process';
import { accessSync, constants, readFileSync, statSync } from 'node:fs';
import path from 'node:path';

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
];
const macApps = ['Chromium', 'Google Chrome', 'Microsoft Edge'];
const windowsPlaces = [
  'Chromium\\Application\\chrome.exe',
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];

/** Where one may be, the likeliest first: CHROME_PATH, the search path, the usual folders. */
function* places() {
  const { env, platform } = process;
  if (env['CHROME_PATH']) yield env['CHROME_PATH'];
  if (platform === 'win32') {
    for (const base of ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'])
      if (env[base]) for (const place of windowsPlaces) yield path.join(env[base], place);
    return;
  }
  if (platform === 'darwin')
    for (const base of ['/Applications', path.join(env['HOME'] ?? '', 'Applications')])
      for (const app of macApps) yield `${base}/${app}.app/Contents/MacOS/${app}`;
  const folders = [...(env['PATH'] ?? '').split(path.delimiter), '/usr/bin', '/usr/local/bin', '/snap/bin'];
  for (const name of names) for (const folder of folders) if (folder !== '') yield path.join(folder, name);
}

function isProgram(file) {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}

/** A file of the right name may be a stub that only says how to install one: it is started before it is trusted. */
function starts(file) {
  // On Windows it would open a window instead of printing.
  if (process.platform === 'win32') return true;
  const { status, stdout } = spawnSync(file, ['--version'], { encoding: 'utf8', timeout: 60_000 });
  return status === 0 && /\d+\.\d+/u.test(stdout);
}

/**
 * @param {{ start?: boolean }} options start each candidate before it is trusted
 * @returns {string | null}
 */
export function findBrowser({ start = false } = {}) {
  for (const file of places()) if (isProgram(file) && (!start || starts(file))) return file;
  return null;
}

/** What it is started with: as root the sandbox of Chromium refuses to work. */
export function browserArguments() {
  return process.getuid?.() === 0 ? ['--no-sandbox'] : [];
}

/** Whether one can be installed here without asking: root on Debian (elsewhere the package may be a stub or bear another name). */
export function canInstall() {
  if (process.getuid?.() !== 0) return false;
  try {
    return /^ID=debian$/mu.test(readFileSync('/etc/os-release', 'utf8'));
  } catch {
    return false;
  }
}

export function installBrowser() {
  const options = { stdio: ['ignore', 2, 2], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
  spawnSync('apt-get', ['update', '-q'], options);
  return (
    spawnSync('apt-get', ['install', '-q', '-y', '--no-install-recommends', 'chromium'], options).status === 0
  );
}
