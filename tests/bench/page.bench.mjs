// What a person waits for in Chromium, with six hours at 100 readings a second: from the drop of the file until its chart is on the
// screen, as the file has it and then judged, against the page's own thread parsing the same file with papaparse and nothing else; the longest time that the page cannot
// be used meanwhile; and how long a picture takes while the whole run is panned by the keys. BENCH_ROWS takes fewer rows, BENCH_PAIRS
// more pairs.
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { appInBrowser } from './app-in-browser.mjs';
import { plain, ROWS, writeSeededLog } from './seeded-log.mjs';

const PAIRS = Number(process.env.BENCH_PAIRS ?? 5);
const PATIENCE_MS = 600_000;
const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
const round = (value) => Math.round(value * 10) / 10;
const say = (found) => console.log(JSON.stringify(found));
const papaparse = createRequire(import.meta.url).resolve('papaparse/papaparse.min.js');
const spec = readFileSync('sample-runs/specs/example-400-420.json', 'utf8');

const folder = mkdtempSync(path.join(os.tmpdir(), 'overdrive-bench-'));
const log = path.join(folder, 'hundred.csv');
writeSeededLog(log, plain);
const size = `${ROWS} rows, ${Math.round(statSync(log).size / 1e6)} MB`;
const { address, browser, end } = await appInBrowser();

/** A file chooser of our own, so that the file lies on the disk as a dropped one does. */
async function offer(page) {
  await page.evaluate(() => {
    const field = document.createElement('input');
    field.type = 'file';
    field.id = 'bench-file';
    field.hidden = true;
    document.body.append(field);
  });
  await page.locator('#bench-file').setInputFiles(log);
}

/**
 * The file let go over the page, limits given and the run judged as soon as the page offers it, without a person's time between:
 * milliseconds until the strip was drawn and the picture handed on.
 */
async function dropped() {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  await page.goto(address);
  await page.getByRole('heading', { name: 'Lay a log here' }).waitFor();
  await offer(page);
  await browser.startTracing(page, { categories: ['toplevel'] });
  const found = await page.evaluate(
    async ({ specText }) => {
      const file = document.querySelector('#bench-file').files[0];
      const blocks = [];
      const observer = new PerformanceObserver((list) => {
        for (const { startTime, duration } of list.getEntries()) blocks.push({ at: startTime, ms: duration });
      });
      observer.observe({ type: 'longtask' });
      const there = (find) =>
        new Promise((resolve) => {
          const look = () => {
            const element = find();
            if (element) resolve(element);
            return Boolean(element);
          };
          if (look()) return;
          const watcher = new MutationObserver(() => look() && watcher.disconnect());
          watcher.observe(document.body, { subtree: true, childList: true, attributes: true });
        });
      let gap = 0,
        last = performance.now(),
        going = true;
      const beat = (now) => {
        gap = Math.max(gap, now - last);
        last = now;
        if (going) requestAnimationFrame(beat);
      };
      requestAnimationFrame(beat);
      const given = new DataTransfer();
      given.items.add(file);
      const from = performance.now();
      document.body.dispatchEvent(
        new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: given }),
      );
      await there(() => document.querySelector('.first-trace svg'));
      await new Promise(requestAnimationFrame);
      await new Promise(requestAnimationFrame);
      const first = performance.now() - from;
      const chooser = await there(() => document.querySelector('main input[type=file][accept*=json]'));
      const read = performance.now() - from;
      const limits = new DataTransfer();
      limits.items.add(new File([specText], 'spec.json', { type: 'application/json' }));
      chooser.files = limits.files;
      chooser.dispatchEvent(new Event('change', { bubbles: true }));
      const judge = await there(() =>
        [...document.querySelectorAll('button[aria-disabled=false]')].find((each) =>
          each.textContent.startsWith('Judge this run'),
        ),
      );
      judge.click();
      await there(() => document.querySelector('.strip-plot:not([aria-busy]) canvas'));
      // The frame that draws it, and the next one, which begins when that picture was handed on.
      await new Promise(requestAnimationFrame);
      await new Promise(requestAnimationFrame);
      const ms = performance.now() - from;
      await there(() => document.querySelector('h1#verdict'));
      // What is said of a block comes after it.
      await new Promise((resolve) => setTimeout(resolve, 500));
      going = false;
      observer.disconnect();
      return { ms, first, read, gap, from, blocks };
    },
    { specText: spec },
  );
  const busy_ms = longestTask(await browser.stopTracing());
  return { page, context, ...found, block: Math.max(0, ...found.blocks.map(({ ms }) => ms)), busy_ms };
}

/**
 * Processor time of the longest task of the page's thread: another program on the machine does not lengthen it, as it does a task by
 * the clock.
 */
function longestTask(trace) {
  const events = JSON.parse(trace).traceEvents;
  const pageThreads = new Set(
    events
      .filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  const tasks = events.filter(
    ({ ph, name, pid, tid }) => ph === 'X' && name.endsWith('RunTask') && pageThreads.has(`${pid} ${tid}`),
  );
  if (!tasks.some(({ tdur }) => tdur > 0)) return null;
  return Math.max(...tasks.map(({ tdur }) => tdur ?? 0)) / 1000;
}

/** The page's own thread parses the file, bit by bit as is the custom with large ones, and keeps nothing. */
async function parsed() {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto('about:blank');
  await page.addScriptTag({ path: papaparse });
  await offer(page);
  const { ms, rows } = await page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const from = performance.now();
        let rows = -1;
        window.Papa.parse(document.querySelector('#bench-file').files[0], {
          skipEmptyLines: true,
          chunk: ({ data }) => {
            rows += data.length;
          },
          complete: () => resolve({ ms: performance.now() - from, rows }),
          error: reject,
        });
      }),
  );
  await context.close();
  if (rows !== ROWS) throw new Error(`papaparse found ${rows} rows`);
  return ms;
}

/**
 * The cursor goes along the whole run from its beginning, ten pixels a key, and the strip moves on whenever it comes to the edge:
 * milliseconds of each picture in which the strip moved, from the key until the page has laid it out and painted it.
 * @param {number} closer how often the shown part was halved
 */
async function panned(page, closer) {
  await page.evaluate(async (halvings) => {
    const strip = document.querySelector('.strip-over');
    const painted = () =>
      new Promise((resolve) => {
        const { port1, port2 } = new MessageChannel();
        port1.addEventListener('message', () => resolve(performance.now()));
        port1.start();
        port2.postMessage(null);
      });
    window.pressKey = async (key, shiftKey = false) => {
      const from = await new Promise(requestAnimationFrame).then(() => performance.now());
      strip.dispatchEvent(new KeyboardEvent('keydown', { key, shiftKey, bubbles: true, cancelable: true }));
      return (await painted()) - from;
    };
    await window.pressKey('0');
    for (let i = 0; i < halvings; i++) await window.pressKey('+');
    for (let i = 0; i < 4 * 2 ** halvings; i++) await window.pressKey('PageUp');
    await window.pressKey('End');
  }, closer);
  await browser.startTracing(page, { categories: ['toplevel'] });
  const frames = await page.evaluate(async () => {
    const strip = document.querySelector('.strip-over');
    const end = Number(strip.getAttribute('aria-valuemax'));
    const [start] = document.querySelectorAll('.span-bar input');
    const found = [];
    while (Number(strip.getAttribute('aria-valuenow')) < end) {
      const before = start.value;
      const ms = await window.pressKey('ArrowRight', true);
      if (start.value !== before) found.push(ms);
      if (found.length > 10_000) throw new Error('the end is never reached');
    }
    return found;
  });
  return { frames, busy_ms: longestTask(await browser.stopTracing()) };
}

/** As many readings of two channels drawn one by one on a canvas of the same size, a few pictures along the run. */
async function drawnRaw(page, closer) {
  return page.evaluate(
    async ({ rows, halvings }) => {
      const like = document.querySelector('.strip-plot canvas');
      const canvas = document.createElement('canvas');
      canvas.width = like.width;
      canvas.height = like.height;
      canvas.style.cssText = 'position: fixed; inset: 0; z-index: 99';
      document.body.append(canvas);
      const ctx = canvas.getContext('2d');
      const channels = [0.3, 0.7].map((level) =>
        Float64Array.from(
          { length: rows },
          (_, i) => level + 0.1 * Math.sin(i / 730) + 0.02 * Math.sin(i * i),
        ),
      );
      const shown = Math.floor(rows / 2 ** halvings),
        pictures = 12;
      const found = [];
      for (let picture = 0; picture < pictures; picture++) {
        const first = Math.floor(((rows - shown) * picture) / pictures);
        const from = await new Promise(requestAnimationFrame).then(() => performance.now());
        ctx.clearRect(0, 0, canvas.width, canvas.height);
        for (const values of channels) {
          ctx.beginPath();
          for (let i = 0; i < shown; i++)
            ctx.lineTo((i / shown) * canvas.width, values[first + i] * canvas.height);
          ctx.stroke();
        }
        await new Promise((resolve) => {
          const { port1, port2 } = new MessageChannel();
          port1.addEventListener('message', resolve);
          port1.start();
          port2.postMessage(null);
        });
        found.push(performance.now() - from);
      }
      canvas.remove();
      return found;
    },
    { rows: ROWS, halvings: closer },
  );
}

/**
 * The machine's own scatter: nothing but a loop that always does the same, as often and as long as the pictures took: milliseconds of each.
 */
async function sameWork(page, pictures, ms) {
  return page.evaluate(
    async ({ pictures, ms }) => {
      const loop = (turns) => {
        let sum = 0;
        for (let i = 0; i < turns; i++) sum += Math.sqrt(i);
        return sum;
      };
      const once = (turns) => {
        const from = performance.now();
        loop(turns);
        return performance.now() - from;
      };
      once(4e6);
      const perTurn = Math.min(...Array.from({ length: 9 }, () => once(1e6))) / 1e6;
      const found = [];
      for (let picture = 0; picture < pictures; picture++) {
        await new Promise(requestAnimationFrame);
        found.push(once(Math.round(ms / perTurn)));
      }
      return found;
    },
    { pictures, ms },
  );
}

const PANS = 5;

async function sayPanned(page) {
  for (const { closer, part } of [
    { closer: 1, part: 'half' },
    { closer: 3, part: 'an eighth' },
  ]) {
    // Once to warm up: a person has moved before.
    await panned(page, closer);
    const pans = [];
    for (let pan = 0; pan < PANS; pan++) pans.push(await panned(page, closer));
    const [{ frames }] = pans;
    if (pans.some((pan) => pan.frames.length !== frames.length)) throw new Error('the pans were not alike');
    // The same picture of each pan: what the page makes slow is slow every time, what the machine does is not.
    const pictures = frames.map((_, at) => middle(pans.map((pan) => pan.frames[at])));
    const all = pans.flatMap((pan) => pan.frames);
    const typical = middle(pictures);
    const scatter = await sameWork(page, all.length, typical);
    const raw = await drawnRaw(page, closer);
    say({
      what: `Chromium: pan over the whole of ${ROWS} rows, two channels, ${part} in view: worst of ${pictures.length} pictures, each the middle one of ${PANS} pans (goal < 16.7, wanted 8)`,
      value: round(Math.max(...pictures)),
      unit: `ms by the clock, middle ${round(typical)} ms`,
      over: pictures.filter((ms) => ms >= 16.7).length,
      worstOfAll: round(Math.max(...all)),
      overOfAll: `${all.filter((ms) => ms >= 16.7).length} of ${all.length}`,
      longestTask_processor_ms: round(Math.max(...pans.map(({ busy_ms }) => busy_ms ?? NaN))),
      machine: `a loop that always does the same takes ${round(middle(scatter))} ms, the worst of ${scatter.length} ${round(Math.max(...scatter))} ms`,
    });
    say({
      what: `Chromium: the same pan, a picture (${part} in view)`,
      ratio: typical / middle(raw),
      of: `middle ${round(typical)} ms`,
      to: `every reading drawn, without reduction ${round(middle(raw))} ms`,
    });
  }
}

try {
  const pairs = [];
  for (let i = 0; i < PAIRS; i++) {
    const ours = await dropped();
    if (process.env.BENCH_TELL)
      console.error(
        JSON.stringify({
          ms: round(ours.ms),
          first: round(ours.first),
          read: round(ours.read),
          gap: round(ours.gap),
          busy: round(ours.busy_ms ?? NaN),
          blocks: ours.blocks.map(({ at, ms }) => `${Math.round(at - ours.from)}: ${Math.round(ms)}`),
        }),
      );
    // It goes on packing the log into the book; that is no part of either.
    await ours.page.getByText('in this browser’s book').waitFor({ timeout: PATIENCE_MS });
    if (i === 0) await sayPanned(ours.page);
    await ours.context.close();
    pairs.push({ ...ours, theirs: await parsed() });
  }
  say({
    what: `Chromium: drop of the file until its first chart is on the screen, the whole run as the file has it (${size}; goal ≤ 0.6, wanted 0.4)`,
    ratio: middle(pairs.map(({ first, theirs }) => first / theirs)),
    of: `drop to first chart ${Math.round(middle(pairs.map(({ first }) => first)))} ms`,
    to: `papaparse alone on the page's thread ${Math.round(middle(pairs.map(({ theirs }) => theirs)))} ms`,
    pairs: PAIRS,
  });
  say({
    what: `Chromium: drop of the file until its judged strip is on the screen, limits given and judged at once (${size})`,
    ratio: middle(pairs.map(({ ms, theirs }) => ms / theirs)),
    of: `drop to judged strip ${Math.round(middle(pairs.map(({ ms }) => ms)))} ms`,
    to: `papaparse alone on the page's thread ${Math.round(middle(pairs.map(({ theirs }) => theirs)))} ms`,
    pairs: PAIRS,
  });
  say({
    what: `Chromium: longest block of the page meanwhile (${size}; goal < 50)`,
    value: Math.round(middle(pairs.map(({ block }) => block))),
    unit: `ms by the clock (0: none of 50 ms or more); of the processor ${Math.round(middle(pairs.map(({ busy_ms }) => busy_ms)))} ms; longest gap between two frames ${Math.round(middle(pairs.map(({ gap }) => gap)))} ms`,
    blocks: pairs.map(({ block }) => Math.round(block)),
    busy: pairs.map(({ busy_ms }) => Math.round(busy_ms)),
    pairs: PAIRS,
  });
} finally {
  await end();
  rmSync(folder, { recursive: true, force: true });
}
