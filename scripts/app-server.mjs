// The little server behind `npm start`: files of the built app, to this computer alone.
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import http from 'node:http';
import path from 'node:path';

export const HOST = '127.0.0.1';
export const DEFAULT_PORT = 4617;
/** By this header a second start knows that the port is held by the same program. */
export const OWN_HEADER = 'x-overdrive-bench';

/** Nothing but the app's own files may run, be loaded or be asked for. `wasm-unsafe-eval`: the hash of the log is computed by WebAssembly. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
};

/**
 * @param {string} folder the built app
 * @param {number} port
 */
export function createAppServer(folder, port) {
  const hosts = new Set([`${HOST}:${port}`, `localhost:${port}`]);
  return http.createServer(async (request, response) => {
    response.setHeader(OWN_HEADER, '1');
    response.setHeader('content-security-policy', CONTENT_SECURITY_POLICY);
    response.setHeader('x-content-type-options', 'nosniff');
    response.setHeader('referrer-policy', 'no-referrer');
    response.setHeader('cross-origin-opener-policy', 'same-origin');
    response.setHeader('cross-origin-resource-policy', 'same-origin');
    const refuse = (status, text) => {
      response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8' });
      response.end(request.method === 'HEAD' ? undefined : `${text}\n`);
    };
    // Another name for this computer would be another site asking (DNS rebinding).
    if (!hosts.has(request.headers.host ?? ''))
      return refuse(421, 'Ask for this page by its printed address.');
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.setHeader('allow', 'GET, HEAD');
      return refuse(405, 'Only reading is possible here.');
    }
    const file = fileOf(folder, request.url ?? '/');
    const found = file === null ? null : await stat(file).catch(() => null);
    if (file === null || !found?.isFile()) return refuse(404, 'There is no such file.');
    const hashed = /-[\w-]{8}\.\w+$/u.test(file);
    response.writeHead(200, {
      'content-type': types[path.extname(file)] ?? 'application/octet-stream',
      'content-length': found.size,
      'cache-control': hashed ? 'max-age=31536000, immutable' : 'no-cache',
    });
    if (request.method === 'HEAD') return response.end();
    createReadStream(file)
      .on('error', () => response.destroy())
      .pipe(response);
  });
}

/** The file that an address names, or null where it leads out of the folder. */
function fileOf(folder, url) {
  let name;
  try {
    name = decodeURIComponent(url.split(/[?#]/u)[0] ?? '/');
  } catch {
    return null;
  }
  if (name.includes('\0') || name.split(/[\\/]/u).includes('..')) return null;
  const file = path.join(folder, name.endsWith('/') ? `${name}index.html` : name);
  return file.startsWith(folder + path.sep) ? file : null;
}

/**
 * Whether the program itself answers on this port.
 * @returns {Promise<boolean>}
 */
export function runsAlready(port) {
  return new Promise((resolve) => {
    const request = http.request(
      { host: HOST, port, method: 'HEAD', path: '/', timeout: 1500 },
      (response) => {
        response.resume();
        resolve(response.headers[OWN_HEADER] !== undefined);
      },
    );
    // A port that takes the call and says nothing is somebody else's.
    request.on('timeout', () => request.destroy());
    request.on('error', () => resolve(false));
    request.on('close', () => resolve(false));
    request.end();
  });
}
