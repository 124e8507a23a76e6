import { describe, expect, it } from 'vitest';
import { instrumentLines, readInstruments } from '#app/instrument-lines.ts';

describe('instruments, one a line', () => {
  const lines = 'Gauge; G-07; 2026-01-20; 2027-01-20; C-118\nThermometer\nTachometer; ; ; 2026-12-01';

  it('are what was typed, and stand there again as typed', () => {
    const read = readInstruments(`\n${lines}\n\n`);
    expect(read).toEqual({
      ok: true,
      value: [
        {
          name: 'Gauge',
          identification: 'G-07',
          calibratedOn: '2026-01-20',
          dueOn: '2027-01-20',
          certificate: 'C-118',
        },
        { name: 'Thermometer' },
        { name: 'Tachometer', dueOn: '2026-12-01' },
      ],
    });
    expect(read.ok && instrumentLines(read.value)).toBe(lines);
    expect(readInstruments('')).toEqual({ ok: true, value: [] });
  });

  it('are refused by line where a date is none, a name is missing or a part is too many', () => {
    expect(readInstruments('Gauge\nMeter; 1; 2026-02-30')).toMatchObject({
      wrong: 'Instruments, line 2: “2026-02-30” is no date; write it like 2026-03-04.',
    });
    expect(readInstruments('; G-07')).toMatchObject({ ok: false });
    expect(readInstruments('a;b;;;c;d')).toMatchObject({ ok: false });
  });
});
