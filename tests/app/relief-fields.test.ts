import { describe, expect, it } from 'vitest';
import type { Relief } from '#formats/relief.ts';
import { pastedPoints, pointsTable } from '#app/gauge-check-points.ts';
import { fieldsOfRelief, reliefFrom, typedStack } from '#app/relief-fields.ts';
import { typedNumber } from '#app/typed-number.ts';
import { drawerAfter, turnsTravel } from '#app/relief-stock.ts';

const relief: Relief = {
  format: 'overdrive-bench/relief',
  version: 1,
  valve: {
    springRate: { value: 12.5, unit: 'N/mm', standardUncertainty: 0.25 },
    pressureArea: { value: 80, unit: 'mm2' },
  },
  pressurePerShim: { value: 22, unit: 'psi/mm', standardUncertainty: 1.2 },
  repeatability: { standardUncertainty: 1.5, unit: 'psi' },
  target: { value: 410, unit: 'psi' },
  fitted_mm: [1, 0.45],
  stock: [
    { thickness_mm: 0.1, count: 3 },
    { thickness_mm: 0.25, count: null },
  ],
  stackAtMost_mm: 2,
};

describe('what is typed of a relief', () => {
  it('comes back as it was kept', () => {
    expect(reliefFrom(fieldsOfRelief(relief, relief.stock ?? [], 'psi')).relief).toEqual(relief);
    const screw: Relief = {
      format: 'overdrive-bench/relief',
      version: 1,
      screw: { pitch_mm: 1, turnsAtMost: 4 },
    };
    expect(reliefFrom(fieldsOfRelief(screw, [], 'bar')).relief).toEqual(screw);
  });
  it('takes ± as two standard uncertainties', () => {
    const fields = { ...fieldsOfRelief(null, [], 'psi'), figure: '22', figureOff: '3' };
    expect(reliefFrom(fields).relief?.pressurePerShim).toEqual({
      value: 22,
      unit: 'psi/mm',
      standardUncertainty: 1.5,
    });
  });
  it.each([
    [{ fitted: '0.5 + x' }, 'is not a list of thicknesses'],
    [{ rate: '12' }, 'go together'],
    [{ figure: '-3' }, 'is not a number above zero'],
    [{ setBy: 'screw' as const }, 'pitch of the screw'],
    [{ stock: [{ thickness: '0.1', count: '2.5' }] }, 'is not a count'],
    // Left out it would count as exact, and the chances would be too good.
    [{ figure: '22', figureOff: '-3' }, '± of one millimetre: “-3” is not a number'],
    // What a file of it may not hold.
    [{ fitted: '0.0000001' }, 'Fitted now: must be at least 0.001'],
    [{ fitted: '999999' }, 'Fitted now: must be at most 50'],
    [{ fitted: '0.5 '.repeat(400) }, 'Fitted now: may have at most 200 entries'],
    [{ figure: '99999999999' }, 'One millimetre gives: must be at most'],
    [{ atMost: '500' }, 'Stack at most: must be at most 200'],
  ])('says what is wrong: %j', (patch, said) => {
    const { relief: made, wrong } = reliefFrom({ ...fieldsOfRelief(null, [], 'psi'), ...patch });
    expect(made).toBeNull();
    expect(wrong?.join(' ')).toContain(said);
  });
  it('reads numbers with point or comma, and stacks thickest first', () => {
    expect(typedNumber('0,25')).toBe(0.25);
    expect(typedNumber('')).toBeNull();
    expect(typedNumber('1.2.3')).toBeNaN();
    expect(typedStack('0,25 + 0.50 mm')).toEqual([0.5, 0.25]);
    expect(typedStack('')).toEqual([]);
    expect(typedStack('0')).toBeNull();
  });
});

describe('the drawer', () => {
  it('gives what is fitted and takes what comes out', () => {
    const after = drawerAfter(relief.stock ?? [], [1, 0.45], [0.25, 0.1]);
    expect(after).toEqual([
      { thickness_mm: 0.1, count: 2 },
      { thickness_mm: 0.25, count: null },
      { thickness_mm: 0.45, count: 1 },
      { thickness_mm: 1, count: 1 },
    ]);
    // Back again: nothing got lost on the way.
    expect(drawerAfter(after, [0.25, 0.1], [1, 0.45])).toEqual([
      { thickness_mm: 0.1, count: 3 },
      { thickness_mm: 0.25, count: null },
      { thickness_mm: 0.45, count: 0 },
      { thickness_mm: 1, count: 0 },
    ]);
  });
  it('has a turn of a screw as travel', () => {
    expect(turnsTravel(-1.5, 1)).toEqual({ before_mm: [1.5], after_mm: [] });
    expect(turnsTravel(0.5, 0.75)).toEqual({ before_mm: [], after_mm: [0.375] });
  });
});

describe('points of a gauge check', () => {
  it.each([
    ['0\t1\tup\n100\t103\tdown', 'tabs'],
    ['0;1;up\n100;103;down', 'semicolons'],
    ['reference, reading, direction\n0, 1, up\n100, 103, down', 'commas, with a heading'],
    ['0 1 up\n100 103 down', 'blanks'],
  ])('pasted with %j', (text) => {
    expect(pastedPoints(text)).toEqual([
      { reference: '0', reading: '1', direction: 'up' },
      { reference: '100', reading: '103', direction: 'down' },
    ]);
  });
  it('keep a line with one number, so that what is wrong in it is seen', () => {
    expect(pastedPoints('reference\treading\n0\tOL\n100\t103').map(({ reading }) => reading)).toEqual([
      'OL',
      '103',
    ]);
  });
  it('keep a decimal comma, and go out as the command line reads them', () => {
    const points = pastedPoints('0,5\t1,5\n100\t103');
    expect(pointsTable(points, 'bar')).toBe('reference (bar),reading (bar)\n0.5,1.5\n100,103\n');
  });
});
