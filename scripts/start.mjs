// `npm start`: builds the app if need be, serves it on this computer alone, prints its address and opens it.
import { spawn } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { createAppServer, DEFAULT_PORT, HOST, runsAlready } from './app-server.mjs';
import { appFolder, buildApp, isStale } from './build-app.mjs';

const say = (text) => process.stdout.write(`${text}\n`);
const complain = (text) => process.stderr.write(`${text}\n`);

const help = `npm start -- [--port NUMBER] [--no-open]

Serves the bench book on http://${HOST}, to this computer alone.
  --port NUMBER   another port than ${DEFAULT_PORT} (or set OVERDRIVE_BENCH_PORT).
                  What the app keeps belongs to the port: on another port the book is another one.
  --no-open       do not open a browser (nor does it where there is no screen)`;

function options() {
  try {
    const { values } = parseArgs({
      options: {
        port: { type: 'string' },
        'no-open': { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
    return values;
  } catch (error) {
    complain(`${error.message}\n\n${help}`);
    process.exit(4);
  }
}

const chosen = options();
if (chosen.help) {
  say(help);
  process.exit(0);
}
const portText = chosen.port ?? process.env['OVERDRIVE_BENCH_PORT'] ?? String(DEFAULT_PORT);
const port = Number(portText);
if (!Number.isInteger(port) || port < 1 || port > 65535) {
  complain(`"${portText}" is not a port: give a whole number from 1 to 65535.`);
  process.exit(4);
}
const address = `http://${HOST}:${port}/`;
process.chdir(path.dirname(path.dirname(fileURLToPath(import.meta.url))));

const server = createAppServer(appFolder, port);
server.on('error', async (error) => {
  if (error.code === 'EADDRINUSE') {
    if (await runsAlready(port)) {
      say(`Already running: ${address}`);
      open();
      process.exit(0);
    }
    complain(
      `Port ${port} is taken by another program. Choose another: npm start -- --port ${port + 1} (or set OVERDRIVE_BENCH_PORT).\n` +
        'What the app keeps belongs to the port: runs kept on one port are not seen on another.',
    );
  } else if (error.code === 'EACCES')
    complain(`Port ${port} may not be used here. Choose one above 1023 with --port.`);
  else complain(`The app could not be served: ${error.message}`);
  process.exit(1);
});
// The port is taken before anything is built: a second start must not rebuild under a running review, nor two build at once.
server.listen(port, HOST, async () => {
  if (isStale()) {
    say('Building the app …');
    try {
      await buildApp();
    } catch (error) {
      complain(`The app could not be built: ${error.message}\nRun "npm ci" and start again.`);
      process.exit(1);
    }
  }
  say(`The bench book is open at ${address}`);
  say('It stays on this computer. Stop it with Ctrl C.');
  open();
});
const stop = () => {
  server.close(() => process.exit(0));
  server.closeAllConnections();
};
process.on('SIGINT', stop);
process.on('SIGTERM', stop);

/** Opens the address where somebody sits before a screen; elsewhere the printed address has to do. */
function open() {
  if (chosen['no-open'] || process.env['CI'] !== undefined) return;
  const { platform } = process;
  if (platform === 'linux' && !process.env['DISPLAY'] && !process.env['WAYLAND_DISPLAY']) return;
  const [command, ...parameters] =
    platform === 'win32'
      ? ['cmd', '/c', 'start', '', address]
      : [platform === 'darwin' ? 'open' : 'xdg-open', address];
  const child = spawn(command, parameters, { stdio: 'ignore', detached: true });
  // No such program: the address was printed.
  child.on('error', () => undefined);
  child.unref();
}
