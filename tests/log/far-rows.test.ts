import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import { behindLineFeed, readFarRows, type FarRows } from '#log/far-rows.ts';
import { createLogReader, readLog } from '#log/read-log.ts';
import { expectSameLog, forms, textOf, wounds, type Form } from './long-logs.ts';

const options = { fileName: 'run.csv', rig: null };
const HEAD = 70_000;

interface ReadInTwo {
  log: Result<Log>;
  /** Rows that came from afar; null where they were not asked for, or not taken. */
  farRows: number | null;
  /** Bytes that were left behind them. */
  left: number;
}

/** As two threads do it, one after the other: all that goes between them is sent. */
function inTwo(text: string, share: number, atMost = Infinity): ReadInTwo {
  const bytes = new TextEncoder().encode(text),
    from = HEAD + Math.floor(share * (bytes.length - HEAD));
  const reader = createLogReader({ ...options, size: bytes.length, shared: true });
  reader.push(bytes.subarray(0, HEAD));
  const request = reader.far(from);
  let far: FarRows | null = null;
  if (request !== null)
    far = structuredClone(
      readFarRows(structuredClone(request), from, (into, position) => {
        const piece = bytes.subarray(position, position + Math.min(into.length, atMost));
        into.set(piece);
        return piece.length;
      }),
    );
  const behind = behindLineFeed(bytes.subarray(from)),
    start = behind < 0 ? bytes.length : from + behind;
  if (far !== null) expect(far.start).toBe(start);
  reader.push(bytes.subarray(HEAD, start));
  const isTaken = request !== null && reader.takeFar(far);
  const next = isTaken && far !== null ? far.end : start;
  reader.push(bytes.subarray(next));
  return {
    log: reader.finish({ bytes: bytes.length, sha256: '' }),
    farRows: isTaken && far !== null ? far.table.rows : null,
    left: bytes.length - next,
  };
}
const atOnce = (text: string): Result<Log> =>
  readLog(new TextEncoder().encode(text), { ...options, sha256: '' }, 'script');

describe('rows read far behind the others', () => {
  test.each(Object.entries(forms))('%s: all of them, and the same log', (_, form) => {
    const text = textOf({ ...form, rows: 9000 }),
      whole = atOnce(text);
    for (const share of [0.02, 0.5, 0.93]) {
      const { log, farRows, left } = inTwo(text, share);
      expectSameLog(log, whole);
      expect(left).toBe(0);
      expect(farRows).toBeGreaterThan((1 - share) * 0.5 * 9000 - 300);
    }
  });

  test.each(wounds)('%s in the midst of them: the same log', (_, wound) => {
    const iso = forms['ISO times'] as Form;
    for (const [every, share] of [
      [3, 0.1],
      [997, 0.4],
      [4001, 0.1],
    ] as const) {
      const text = textOf({ ...iso, row: (i) => (i % every === every - 1 ? wound(iso.row(i)) : iso.row(i)) });
      expectSameLog(inTwo(text, share).log, atOnce(text));
    }
  });

  test('a row of another kind ends them, and what was read before it counts', () => {
    const iso = forms['ISO times'] as Form;
    const text = textOf({ ...iso, row: (i) => (i === 5000 ? 'Logging stopped' : iso.row(i)) });
    const { log, farRows, left } = inTwo(text, 0.3);
    expectSameLog(log, atOnce(text));
    expect(log.ok && log.value.skippedRows).toEqual([
      { line: 5002, reason: 'no usable time: "Logging stopped"' },
    ]);
    expect(farRows).toBeGreaterThan(1000);
    expect(left).toBe(
      `Logging stopped\n${Array.from({ length: 999 }, (_, i) => `${iso.row(5001 + i)}\n`).join('')}`.length,
    );
  });

  test.each([
    ['whole numbers: the first mark is still to come', (i: number) => `${i},${i === 5900 ? '4,1' : i % 7}`],
    ['units in cells', (i: number) => `${i},${i > 5000 ? `${410 + (i % 7)}.5 psi` : `${410 + (i % 7)}.5`}`],
    ['thousands that wait for proof', (i: number) => `${i},${i > 5000 ? '"1,410"' : `${410 + (i % 7)}.5`}`],
    [
      'more kinds of faults than are kept',
      (i: number) => `${i},${i > 5000 ? `E${i % 30}` : `${410 + (i % 7)}.5`}`,
    ],
    ['an open quote before them', (i: number) => `${i},${i === 1990 ? '"' : ''}${410 + (i % 7)}.5`],
    [
      'a quoted stretch over their start',
      (i: number) => `${i},${i === 2790 ? '"' : ''}${410 + (i % 7)}.5${i === 2810 ? '"' : ''}`,
    ],
    [
      'rows that become shorter than they were',
      (i: number) => (i < 2500 ? `${i}.0000000000000,${410 + (i % 7)}.50000000000` : `${i},410.5`),
    ],
  ])('%s: read in order, and the same log', (_, row) => {
    const text = textOf({
      heading: 'Time (s),Pressure (psi),Speed (rpm)',
      row: (i) => `${row(i)},${(i * 7919) % 10_007}`,
    });
    const whole = atOnce(text);
    for (const share of [0, 0.15, 0.3]) expectSameLog(inTwo(text, share).log, whole);
  });

  test('any form, wound, place and portion', () => {
    let taken = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.values(forms)),
        fc.array(fc.tuple(fc.nat(5999), fc.constantFrom(...wounds)), { maxLength: 3 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom(Infinity, 5000, 70_001),
        fc.boolean(),
        (form, wounded, share, atMost, cut) => {
          const wound = new Map(wounded.map(([row, [, change]]) => [row, change]));
          const text = textOf({ ...form, row: (i) => wound.get(i)?.(form.row(i)) ?? form.row(i) });
          const log = cut ? text.slice(0, -3) : text;
          const read = inTwo(log, share, atMost);
          expectSameLog(read.log, atOnce(log));
          if (read.farRows !== null) taken++;
        },
      ),
      { numRuns: 60 },
    );
    expect(taken).toBeGreaterThan(15);
  });
});
