import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLog } from '#log/read-log.ts';
import { excerptOf, tokenToShow, verbatimCells } from '#worker/excerpt.ts';
import { countOf, createLineScout, findLine } from '#worker/line-scout.ts';
import { readFile } from '#worker/read-file.ts';
import { textFile } from './sample.ts';

const read = async (text: string, name = 'run.csv') => {
  const result = await readFile(
    textFile(name, text),
    { rig: null, overrides: [] },
    () => undefined,
    () => false,
  );
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};

describe('verbatimCells', () => {
  it('cuts at delimiters outside quotes and changes nothing', () => {
    expect(verbatimCells('a;"b;c"; d', ';')).toEqual(['a', '"b;c"', ' d']);
    expect(verbatimCells('a  b\tc', ' ')).toEqual(['a', 'b', 'c']);
  });
});

describe('the file as read', () => {
  const rows = Array.from({ length: 200 }, (_, i) => `${i},${i === 149 ? 'OPEN' : 400 + (i % 3)},60`);
  const text = ['Bench 1', '', 't_s,P main [psi],Oil [degC]', ...rows].join('\r\n');

  it('shows heading, first rows, a set-aside reading with the row before it, and the end, by line number', async () => {
    const { excerpt } = await read(text);
    expect(excerpt.columns).toEqual(['t_s', 'P main [psi]', 'Oil [degC]']);
    expect(excerpt.lines.map((line) => line?.line ?? null)).toEqual([
      1,
      3,
      4,
      5,
      6,
      null,
      152,
      153,
      null,
      202,
      203,
    ]);
    const faulty = excerpt.lines.find((line) => line?.setAside !== null && line !== null);
    expect(faulty).toMatchObject({ line: 153, cells: ['149', 'OPEN', '60'], setAside: 1 });
    expect(excerpt.lines.at(-1)).toMatchObject({ line: 203, cells: ['199', '401', '60'] });
  });

  it("shows a console's stamps as the column that they are", async () => {
    const stamped = Array.from({ length: 5 }, (_, i) => `08:15:0${i}.020 -> 41${i}.5,60`);
    const { excerpt, log } = await read(['08:14:59.020 -> P_psi,oil_C', ...stamped, ''].join('\r\n'));
    expect(log.timeColumns).toEqual(['Time']);
    expect(excerpt.columns).toEqual(['Time', 'P_psi', 'oil_C']);
    expect(excerpt.lines[1]?.cells).toEqual(['08:15:00.020 ->', '410.5', '60']);
  });

  it('shows a last line that was cut in the middle as it stands', async () => {
    const { excerpt } = await read(`${text}\r\n200,4`);
    expect(excerpt.lines.at(-1)).toMatchObject({ line: 204, cells: ['200', '4'] });
  });

  it('looks for the pressure’s own fault before another channel’s', () => {
    const bytes = new TextEncoder().encode(
      `t_s,oil_degC,p_psi\n${Array.from({ length: 30 }, (_, i) => `${i},${i === 3 ? 'ERR' : 60},${i === 9 ? 'OPEN' : 400}`).join('\n')}\n`,
    );
    const log = readLog(bytes, { fileName: null, rig: null, sha256: '' });
    if (!log.ok) throw new Error('not read');
    expect(tokenToShow(log.value)).toEqual({ token: 'OPEN', place: 2 });
    expect(excerptOf(log.value, [], null, []).lines).toEqual([]);
  });
});

describe('countOf', () => {
  it('counts like a look at every byte, wherever the bytes lie in their buffer', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 70 }),
        fc.constantFrom(0, 10, 13, 255),
        fc.integer({ min: 0, max: 5 }),
        // Neighbours of the byte that is looked for are what a borrow could turn into it.
        fc.array(fc.constantFrom(9, 10, 11, 138, 0, 1, 255), { maxLength: 40 }),
        (some, byte, from, near) => {
          const bytes = Uint8Array.from([...some, ...near]).subarray(from);
          expect(countOf(bytes, byte)).toBe(bytes.filter((each) => each === byte).length);
        },
      ),
    );
  });
});

describe('createLineScout', () => {
  it('counts and keeps the same, however the file is cut into pieces', () => {
    const text = Array.from({ length: 3000 }, (_, i) => `line ${i}, ünïcode`).join('\n');
    const bytes = new TextEncoder().encode(text);
    for (const size of [1_000_000, 4096, 777]) {
      const scout = createLineScout(null);
      for (let at = 0; at < bytes.length; at += size) scout.push(bytes.subarray(at, at + size));
      scout.end();
      expect(scout.count()).toBe(2999);
      expect(scout.head().slice(0, 2)).toEqual([
        { line: 1, text: 'line 0, ünïcode' },
        { line: 2, text: 'line 1, ünïcode' },
      ]);
      expect(scout.tail(2)).toEqual([
        { line: 2999, text: 'line 2998, ünïcode' },
        { line: 3000, text: 'line 2999, ünïcode' },
      ]);
    }
  });

  it('reads UTF-16 as text, and lines that end with a carriage return alone', () => {
    const utf16 = new Uint8Array(Buffer.from('\ufeffa,b\r\n1,2\r\n', 'utf16le'));
    const scout = createLineScout(null);
    scout.push(utf16);
    scout.end();
    expect(scout.head().map(({ text }) => text)).toEqual(['a,b', '1,2', '']);
    const old = createLineScout(null);
    old.push(new TextEncoder().encode('a,b\r1,2\r3,4'));
    old.end();
    expect(old.tail(1)).toEqual([{ line: 3, text: '3,4' }]);
  });
});

describe('findLine', () => {
  it('finds the line and the one before it across pieces of the stream', async () => {
    const lines = Array.from({ length: 20_000 }, (_, i) => `${i},${i === 15_000 ? 'OL' : 'x'}`);
    const blob = new Blob([lines.join('\n')]);
    expect(await findLine(blob, 'utf-8', 'OL', (text) => text.endsWith(',OL'))).toEqual([
      { line: 15_000, text: '14999,x' },
      { line: 15_001, text: '15000,OL' },
    ]);
    expect(await findLine(blob, 'utf-8', 'nothing', () => true)).toBeNull();
  });
});
