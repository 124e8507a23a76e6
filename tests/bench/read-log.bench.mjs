// Bytes → columns, against papaparse's file stream with `chunk`, both to Float64 columns. Three files of 100 readings a second over
// six hours (2.16 million rows): ISO times between commas; decimal comma with dd.mm.yyyy times; everything in quotes. The runs
// of the two are interleaved and the middle ratio is printed. BENCH_ROWS takes fewer rows, BENCH_PAIRS more pairs.
import { createReadStream, mkdtempSync, rmSync, statSync } from 'node:fs';
import { open } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import Papa from 'papaparse';
import { build } from 'vite';
import { names, plain, ROWS, writeSeededLog } from './seeded-log.mjs';

const PAIRS = Number(process.env.BENCH_PAIRS ?? 5);
/** As the command line reads; with smaller ones both wait for the disk's thread more often than for their own work. */
const PORTION = 1024 * 1024;
const folder = mkdtempSync(path.join(os.tmpdir(), 'overdrive-bench-'));
const only = process.env.BENCH_ONLY;

const two = (value) => String(value).padStart(2, '0');
const germanTime = (t) =>
  `${two(t.getUTCDate())}.${two(t.getUTCMonth() + 1)}.${t.getUTCFullYear()} ${two(t.getUTCHours())}:${two(t.getUTCMinutes())}:${two(t.getUTCSeconds())}.${String(t.getUTCMilliseconds()).padStart(3, '0')}`;
const point = Number;
const comma = (text) => Number(text.replace(',', '.'));
const files = [
  {
    name: 'plain',
    what: 'bytes to columns, ISO times between commas',
    goal: '≤ 0.15, wanted 0.11',
    ...plain,
    delimiter: ',',
    time: Date.parse,
    number: point,
  },
  {
    name: 'decimal-comma',
    what: 'bytes to columns, decimal comma and dd.mm.yyyy times',
    goal: '≤ 0.25',
    heading: names.join(';'),
    row: (t, cells) => `${germanTime(t)};${cells.join(';').replaceAll('.', ',')}`,
    delimiter: ';',
    time: (text) =>
      Date.UTC(
        +text.slice(6, 10),
        +text.slice(3, 5) - 1,
        +text.slice(0, 2),
        +text.slice(11, 13),
        +text.slice(14, 16),
        +text.slice(17, 19),
        +text.slice(20, 23),
      ),
    number: comma,
  },
  {
    name: 'quoted',
    what: 'bytes to columns, everything in quotes',
    goal: '≤ 1.0',
    heading: names.map((name) => `"${name}"`).join(','),
    row: (t, cells) => `"${t.toISOString()}","${cells.join('","')}"`,
    delimiter: ',',
    time: Date.parse,
    number: point,
  },
];

const built = path.join(folder, 'reader');
await build({
  configFile: false,
  logLevel: 'error',
  root: process.cwd(),
  build: {
    ssr: 'src/log/read-log.ts',
    outDir: built,
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    rollupOptions: { output: { entryFileNames: 'read-log.mjs' } },
  },
  ssr: { noExternal: true },
});
const { createLogReader } = await import(pathToFileURL(path.join(built, 'read-log.mjs')).href);

/** Milliseconds of processor since a mark: what another program on the machine does not lengthen. */
const busy = (mark) => {
  const { user, system } = process.cpuUsage(mark);
  return (user + system) / 1000;
};

async function ours(file) {
  globalThis.gc?.();
  const from = performance.now(),
    cpu = process.cpuUsage();
  const reader = createLogReader({
    fileName: path.basename(file),
    rig: null,
    size: statSync(file).size,
  });
  let bytes = 0;
  // As the command line reads: each portion in the same bytes.
  const handle = await open(file);
  const portion = new Uint8Array(PORTION);
  for (;;) {
    const { bytesRead } = await handle.read(portion, 0, PORTION);
    if (bytesRead === 0) break;
    bytes += bytesRead;
    reader.push(portion.subarray(0, bytesRead));
  }
  await handle.close();
  const read = reader.finish({ bytes, sha256: null });
  const ms = performance.now() - from,
    cpu_ms = busy(cpu);
  if (!read.ok || read.value.rows !== ROWS || read.value.channels.length !== 4)
    throw new Error('not the log that was written');
  return { ms, cpu_ms, sum: read.value.channels[0].values.reduce((sum, value) => sum + value, 0) };
}

/** papaparse as its handbook has it for large files: rows by `chunk`, then into columns that double when full. */
async function theirs(file, { delimiter, time, number }) {
  globalThis.gc?.();
  const from = performance.now(),
    cpu = process.cpuUsage();
  let columns = Array.from({ length: 5 }, () => new Float64Array(65536));
  let rows = 0,
    heading = true;
  await new Promise((resolve, reject) => {
    Papa.parse(createReadStream(file, { highWaterMark: PORTION, encoding: 'utf8' }), {
      delimiter,
      skipEmptyLines: true,
      chunk: ({ data }) => {
        for (const cells of data) {
          if (heading) {
            heading = false;
            continue;
          }
          if (rows === columns[0].length)
            columns = columns.map((column) => {
              const larger = new Float64Array(2 * column.length);
              larger.set(column);
              return larger;
            });
          columns[0][rows] = time(cells[0]);
          for (let i = 1; i < 5; i++) columns[i][rows] = number(cells[i]);
          rows++;
        }
      },
      complete: resolve,
      error: reject,
    });
  });
  const ms = performance.now() - from,
    cpu_ms = busy(cpu);
  if (rows !== ROWS) throw new Error(`${rows} rows`);
  return { ms, cpu_ms, sum: columns[1].subarray(0, ROWS).reduce((sum, value) => sum + value, 0) };
}

const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
try {
  for (const kind of files) {
    if (only !== undefined && only !== kind.name) continue;
    const file = path.join(folder, `${kind.name}.csv`);
    writeSeededLog(file, kind);
    await ours(file);
    const pairs = [];
    for (let i = 0; i < PAIRS; i++) {
      const mine = await ours(file);
      const other = await theirs(file, kind);
      if (Math.abs(mine.sum - other.sum) > 1e-9 * Math.abs(other.sum))
        throw new Error('the two read different numbers');
      pairs.push({ ours: mine.ms, theirs: other.ms, processor: mine.cpu_ms / other.cpu_ms });
    }
    console.log(
      JSON.stringify({
        what: `${kind.what} (${ROWS} rows, ${Math.round(statSync(file).size / 1e6)} MB; goal ${kind.goal})`,
        ratio: middle(pairs.map((pair) => pair.ours / pair.theirs)),
        of: `reader ${Math.round(middle(pairs.map((pair) => pair.ours)))} ms`,
        to: `papaparse file stream with chunk ${Math.round(middle(pairs.map((pair) => pair.theirs)))} ms`,
        processorRatio: middle(pairs.map((pair) => pair.processor)),
        pairs: PAIRS,
      }),
    );
    rmSync(file);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
