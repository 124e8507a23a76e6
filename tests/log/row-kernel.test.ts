import { afterEach, describe, expect, test, vi } from 'vitest';
import { LogTable } from '#log/log-table.ts';
import { createLogReader, readLog, type Lane } from '#log/read-log.ts';
import { expectSameLog, forms, textOf, wounds, type Form } from './long-logs.ts';

afterEach(() => {
  vi.restoreAllMocks();
});

interface Turn {
  text: string;
  bytes: Uint8Array;
  reader: ReturnType<typeof createLogReader>;
}
const read = (text: string, lane: Lane): ReturnType<typeof readLog> =>
  readLog(new TextEncoder().encode(text), { fileName: 'run.csv', rig: null, sha256: '' }, lane);

describe('rows by the kernel', () => {
  test.each(Object.entries(forms))('%s: nearly all of them, and the same log', (_, form) => {
    const took = vi.spyOn(LogTable.prototype, 'took');
    const text = textOf(form);
    const log = read(text, 'bytes');
    const rows = took.mock.calls.reduce((sum, [number]) => sum + number, 0);
    expect(rows).toBeGreaterThan(0.99 * 6000 - 20);
    expectSameLog(log, read(text, 'script'));
    expect(log.ok && log.value.rows).toBe(6000);
  });

  test('a unit in a row that is left out says nothing of its column, in any lane', () => {
    const text = 'Time;P;Q;R\n1;410;2;3\n2;411;2;3\n3;412 bar;2\n4;413;2;3\n5;411;2;3\n';
    const log = read(text, 'papaparse');
    expect(log.ok && log.value.channels.map(({ unit }) => unit)).toEqual([null, null, null]);
    expect(log.ok && log.value.skippedRowCount).toBe(1);
    expect(read(text, 'script')).toEqual(log);
    expect(read(text, 'bytes')).toEqual(log);
  });

  test('none without it', () => {
    const took = vi.spyOn(LogTable.prototype, 'took');
    read(textOf(forms['ISO times'] as Form), 'script');
    expect(took).not.toHaveBeenCalled();
  });

  test.each(wounds)('%s in the midst of them: the same log', (_, wound) => {
    const iso = forms['ISO times'] as Form;
    for (const every of [3, 50, 999]) {
      const text = textOf({
        ...iso,
        rows: 2000,
        row: (i) => (i % every === every - 1 ? wound(iso.row(i)) : iso.row(i)),
      });
      expectSameLog(read(text, 'bytes'), read(text, 'script'));
    }
  });

  test('two logs by turns: each its own', () => {
    const [one, other] = [forms['ISO times'] as Form, forms['twelve hours, over noon'] as Form].map(
      (form) => {
        const text = textOf(form);
        return {
          text,
          bytes: new TextEncoder().encode(text),
          reader: createLogReader({ fileName: 'run.csv', rig: null }),
        };
      },
    ) as [Turn, Turn];
    for (let at = 0; at < Math.max(one.bytes.length, other.bytes.length); at += 66_000)
      for (const { bytes, reader } of [one, other]) reader.push(bytes.subarray(at, at + 66_000));
    for (const { text, bytes, reader } of [one, other]) {
      const whole = readLog(bytes, { fileName: 'run.csv', rig: null, sha256: '' }, 'script');
      expectSameLog(reader.finish({ bytes: bytes.length, sha256: '' }), whole);
      expect(text.length).toBeGreaterThan(2 * 66_000);
    }
  });

  test('in portions of any size: the same log', () => {
    const bytes = new TextEncoder().encode(textOf({ ...(forms['over midnight'] as Form), lineEnd: '\r\n' }));
    const whole = read(new TextDecoder().decode(bytes), 'script');
    for (const portion of [997, 32_768, 65_536, 65_537, 120_001]) {
      const reader = createLogReader({ fileName: 'run.csv', rig: null });
      for (let at = 0; at < bytes.length; at += portion) reader.push(bytes.subarray(at, at + portion));
      expectSameLog(reader.finish({ bytes: bytes.length, sha256: '' }), whole);
    }
  });
});
