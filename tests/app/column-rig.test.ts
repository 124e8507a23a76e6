import { describe, expect, it } from 'vitest';
import { rigToKeep, rigToRead, withChange } from '#app/column-rig.ts';
import { rigSchema, type Rig } from '#formats/rig.ts';

const bench: Rig = {
  format: 'overdrive-bench/rig',
  version: 1,
  name: 'Bench 1',
  time: { column: 'Time', dateOrder: 'day-month-year' },
  channels: [{ column: 'P', role: 'pressure', unit: 'psi', range: { low: 0, high: 600 } }],
};

describe('a layout put right by hand', () => {
  it('stands over the bench, part by part, and a choice that is taken back lets the bench speak again', () => {
    const layout = withChange({}, { time: { dateOrder: 'month-day-year' }, dialect: { decimal: ',' } });
    expect(rigToRead(bench, layout)).toEqual({
      ...bench,
      time: { column: 'Time', dateOrder: 'month-day-year' },
      dialect: { decimal: ',' },
    });
    const back = withChange(layout, { time: { dateOrder: undefined } });
    expect(back).toEqual({ dialect: { decimal: ',' } });
    expect(rigToRead(bench, back)?.time).toEqual(bench.time);
  });
  it('that says nothing is no rig', () => {
    expect(rigToRead(null, {})).toBeNull();
    expect(rigToRead(bench, {})).toBe(bench);
  });
});

describe('what is remembered', () => {
  it('holds bench, layout and columns as one rig file that is read', () => {
    const rig = rigToKeep(
      bench,
      { dialect: { headerLine: null, delimiter: ';' }, time: { form: 'sample-number', interval_s: 2 } },
      [
        { column: 'P', unit: 'bar' },
        { column: 'Oil', role: 'oil-temperature', unit: 'degC' },
        { column: 'P2', role: 'ignored' },
      ],
      ' Logger A ',
    );
    expect(rigSchema.parse(rig)).toEqual({
      format: 'overdrive-bench/rig',
      version: 1,
      name: 'Logger A',
      time: { column: 'Time', dateOrder: 'day-month-year', form: 'sample-number', interval_s: 2 },
      dialect: { headerLine: null, delimiter: ';' },
      channels: [
        { column: 'P', role: 'pressure', unit: 'bar', range: { low: 0, high: 600 } },
        { column: 'Oil', role: 'oil-temperature', unit: 'degC' },
        { column: 'P2', role: 'ignored' },
      ],
    });
  });
});
