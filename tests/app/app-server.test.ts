import { spawn } from 'node:child_process';
import { mkdtempSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import http from 'node:http';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CONTENT_SECURITY_POLICY, createAppServer, runsAlready } from '../../scripts/app-server.mjs';

/** A port that nobody listens on at the moment. */
const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const probe = net.createServer();
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
const listening = (server: net.Server, port: number): Promise<void> =>
  new Promise((resolve) => server.listen(port, '127.0.0.1', resolve));

const place = mkdtempSync(path.join(os.tmpdir(), 'app-'));
const folder = path.join(place, 'app');
let port = 0;
let server: http.Server;
beforeAll(async () => {
  mkdirSync(path.join(folder, 'assets'), { recursive: true });
  writeFileSync(path.join(folder, 'index.html'), '<!doctype html>here');
  writeFileSync(path.join(folder, 'assets', 'index-abcd1234.js'), 'let a;');
  writeFileSync(path.join(place, 'secret.txt'), 'not for others');
  port = await freePort();
  server = createAppServer(folder, port);
  await listening(server, port);
});
afterAll(() => {
  server.close();
  server.closeAllConnections();
  rmSync(place, { recursive: true });
});

interface Answer {
  status: number;
  headers: http.IncomingHttpHeaders;
  body: string;
}
/** One request, its path sent as it is written. */
const ask = (target: string, options: http.RequestOptions = {}): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const request = http.request({ host: '127.0.0.1', port, path: target, ...options }, (response) => {
      let body = '';
      response.on('data', (chunk) => (body += String(chunk)));
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body }),
      );
    });
    request.on('error', reject);
    request.end();
  });

describe('the app’s server', () => {
  it('gives the page under its policy, and nothing about it to anybody', async () => {
    const page = await ask('/');
    expect(page).toMatchObject({ status: 200, body: '<!doctype html>here' });
    expect(page.headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'content-security-policy': CONTENT_SECURITY_POLICY,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cache-control': 'no-cache',
    });
    expect(CONTENT_SECURITY_POLICY).toContain("default-src 'none'");
    expect(CONTENT_SECURITY_POLICY).not.toMatch(
      /unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|https?:|\*/u,
    );
  });

  it('lets files with their hash in the name be kept', async () => {
    const { headers } = await ask('/assets/index-abcd1234.js');
    expect(headers['cache-control']).toContain('immutable');
    expect(headers['content-type']).toBe('text/javascript; charset=utf-8');
  });

  it('answers to its own name only: another one would be another site asking', async () => {
    expect((await ask('/', { headers: { host: 'example.org' } })).status).toBe(421);
    expect((await ask('/', { headers: { host: `localhost:${port}` } })).status).toBe(200);
  });

  it('only reads', async () => {
    const posted = await ask('/', { method: 'POST' });
    expect(posted.status).toBe(405);
    expect(posted.headers.allow).toBe('GET, HEAD');
  });

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/%5c..%5csecret.txt',
    '/assets/',
    '/%',
    '/none.js',
    '/%00',
  ])('gives nothing for %s', async (target) => {
    const { status, body } = await ask(target);
    expect(status).toBe(404);
    expect(body).not.toContain('not for others');
  });

  it('answers HEAD without a body', async () => {
    expect(await ask('/', { method: 'HEAD' })).toMatchObject({ status: 200, body: '' });
  });

  it('knows itself on a port, and tells others from itself, also one that says nothing', async () => {
    expect(await runsAlready(port)).toBe(true);
    const other = http.createServer((_, response) => response.end('hello'));
    const otherPort = await freePort();
    await listening(other, otherPort);
    expect(await runsAlready(otherPort)).toBe(false);
    other.close();
    const silent = net.createServer(() => undefined);
    const silentPort = await freePort();
    await listening(silent, silentPort);
    expect(await runsAlready(silentPort)).toBe(false);
    silent.close();
    expect(await runsAlready(await freePort())).toBe(false);
  });
});

describe('npm start', () => {
  const start = (...parameters: string[]): Promise<{ code: number | null; out: string; err: string }> =>
    new Promise((resolve) => {
      const child = spawn(process.execPath, ['scripts/start.mjs', '--no-open', ...parameters]);
      let out = '',
        err = '';
      child.stdout.on('data', (chunk) => (out += String(chunk)));
      child.stderr.on('data', (chunk) => (err += String(chunk)));
      child.on('close', (code) => resolve({ code, out, err }));
    });

  it('says so when it runs already, and leaves that one alone', async () => {
    expect(await start('--port', String(port))).toEqual({
      code: 0,
      out: `Already running: http://127.0.0.1:${port}/\n`,
      err: '',
    });
  });

  it('refuses what is no port, and an option it does not know', async () => {
    expect(await start('--port', 'seven')).toMatchObject({
      code: 4,
      err: expect.stringContaining('"seven"'),
    });
    expect(await start('--prot', '7')).toMatchObject({
      code: 4,
      err: expect.stringContaining('--port NUMBER'),
    });
  });

  it('names the means to choose another port when it is taken, and what that changes', async () => {
    const other = http.createServer((_, response) => response.end('hello'));
    const taken = await freePort();
    await listening(other, taken);
    const result = await start('--port', String(taken));
    other.close();
    expect(result.code).toBe(1);
    expect(result.err).toContain(`Port ${taken} is taken`);
    expect(result.err).toContain('--port');
    expect(result.err).toContain('OVERDRIVE_BENCH_PORT');
    expect(result.err).toContain('belongs to the port');
  });
});
