import { describe, expect, it } from 'vitest';
import { combinedTypeB, typeBParts } from '#analysis/type-b.ts';
import type { RigChannel } from '#formats/rig.ts';
import { analysed, codes } from './analysed.ts';
import { evenTimes, gauge, makeLog, noise, pressureColumn, rig, spec, type Column } from './synthetic-run.ts';

const by = { by: 'B. Tester', why: 'to have an exact hold' };
/** Engaged from the first row on; the hold is set by hand so that its batches are known. */
const held = (
  at: Column['at'],
  times: number[],
  from_s: number,
  to_s: number,
  options: { rig?: RigChannel } = {},
) =>
  analysed(makeLog({ times, columns: [pressureColumn(at, { decimals: 6 })] }), {
    spec: spec({ settling: { tolerance: 50, unit: 'psi' } }),
    rig: options.rig ? rig(options.rig) : null,
    choices: [
      { what: 'hold-start', to_s: from_s, ...by },
      { what: 'hold-end', to_s, ...by },
    ],
  }).quantities.operatingPressure;

describe('operating pressure', () => {
  it('is the mean by weight: a reading that stands for longer counts for more', () => {
    // Ten minutes at one reading a second of 410, then ten minutes at one in three seconds of 414 (less than five intervals: no gap).
    const times = [...evenTimes(1200), ...evenTimes(1200, 3).map((t) => 1201 + t)];
    const found = held((t) => (t <= 1200 ? 410 : 414), times, 601, 1800);
    // 600 rows of 1 s at 410, 200 rows of 3 s at 414, give and take a row at each end.
    expect(found.value).toBeCloseTo(412, 1);
    expect(found).toMatchObject({ start_s: 601, end_s: 1798 });
  });
  it('takes its scatter from ten batches of equal time about a straight line: s/√10 with eight degrees of freedom', () => {
    // A line of 0.01 psi a second, and on it ± d in alternate batches of 100 s.
    const d = 2;
    const at = (t: number): number => 400 + 0.01 * t + (Math.floor(t / 100) % 2 === 0 ? d : -d);
    const found = held(at, evenTimes(1999), 1000, 1999);
    const scatter = found.budget.find(({ source }) => source === 'scatter');
    // The pattern leans on the line: least squares takes slope b of it. With x = batch number − 4.5, Σ x·(±d) = −5d, Σ x² = 82.5;
    // within batches x varies by 1/12 more each, so Σ over rows gives b = −5d/83.3 a batch.
    const b = (-5 * d) / (82.5 + 10 / 12);
    let squares = 0;
    for (let k = 0; k < 10; k++) {
      const residual = (k % 2 === 0 ? d : -d) - b * (k - 4.5);
      squares += residual * residual;
    }
    expect(scatter?.standardUncertainty).toBeCloseTo(Math.sqrt(squares / 8 / 10), 2);
    expect(scatter).toMatchObject({ type: 'A', degreesOfFreedom: 8, distribution: 't' });
  });
  it('takes a trend for no scatter', () => {
    const found = held((t) => 400 + 0.01 * t, evenTimes(1999), 1000, 1999);
    expect(found.budget.find(({ source }) => source === 'scatter')?.standardUncertainty).toBeLessThan(1e-3);
  });
  it('has no uncertainty under 20 valid readings, and none with three batches that are not half recorded', () => {
    const sparse = held(() => 411, evenTimes(36_000, 900), 20_000, 36_000);
    expect(sparse).toMatchObject({ value: 411, standardUncertainty: null, expandedUncertainty: null });
    expect(sparse.reason).toContain('valid readings');
    // Three tenths of the hold without readings: seven batches are left.
    const missing = held(
      (t) => (t >= 1300 && t < 1600 ? null : 411 + 0.1 * (t % 2)),
      evenTimes(1999),
      1000,
      1999,
    );
    expect(missing.expandedUncertainty).toBeNull();
    expect(missing.reason).toContain('7 of 10');
    const enough = held(
      (t) => (t >= 1300 && t < 1540 ? null : 411 + 0.1 * (t % 2)),
      evenTimes(1999),
      1000,
      1999,
    );
    expect(enough.expandedUncertainty).not.toBeNull();
  });
  it('says when the hold is too short for its noise', () => {
    const slow = noise(5, 0.999);
    const analysis = analysed(
      makeLog({ times: evenTimes(6000), columns: [pressureColumn(() => 411 + 2 * slow())] }),
      { spec: spec({ settling: { tolerance: 50, unit: 'psi' } }) },
    );
    expect(codes(analysis)).toContain('hold-too-short-for-its-noise');
    const quick = noise(5);
    const fine = analysed(
      makeLog({ times: evenTimes(6000), columns: [pressureColumn(() => 411 + 2 * quick())] }),
      { spec: spec({ settling: { tolerance: 50, unit: 'psi' } }) },
    );
    expect(codes(fine)).not.toContain('hold-too-short-for-its-noise');
  });
  it('combines with k from Student t: one dominant rectangular part gives k = 2', () => {
    const found = held((t) => 411 + (t % 2), evenTimes(1999), 1000, 1999, { rig: gauge() });
    // 0.25 % of 600 psi is ± 1.5 psi: 0.8660 psi; resolution 0.1 psi: 0.0289 psi.
    const [, accuracy, resolution] = found.budget;
    expect(accuracy).toMatchObject({
      source: 'accuracy',
      distribution: 'rectangular',
      size: 1.5,
      degreesOfFreedom: null,
    });
    expect(accuracy?.standardUncertainty).toBeCloseTo(0.8660254, 6);
    expect(resolution).toMatchObject({ source: 'resolution', size: 0.05 });
    expect(resolution?.standardUncertainty).toBeCloseTo(0.0288675, 6);
    expect(found.coverageFactor).toBeCloseTo(2, 4);
    expect(found.expandedUncertainty).toBeCloseTo(2 * Math.sqrt(0.75 + 0.0288675 * 0.0288675), 3);
    expect(found.budget.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });
  it('judges in the unit of the spec, the rig correction first, the gauge pressure left a gauge pressure', () => {
    const log = makeLog({
      times: evenTimes(3000),
      // One step of 0.1 bar up and down: a column of one single value is a dead sensor.
      columns: [pressureColumn((t) => 28 + 0.1 * (t % 2), { unit: 'bar' })],
    });
    const analysis = analysed(log, {
      spec: spec(),
      rig: rig(gauge({ unit: 'bar', range: { low: 0, high: 40 }, correction: { slope: 1.01, offset: 0.1 } })),
    });
    // 28 and 28.1 bar in turn: 28.05 bar read is 28.4305 bar true; 1 bar = 14.503773773 psi.
    expect(analysis.quantities.operatingPressure.value).toBeCloseTo(28.4305 * 14.503773773, 1);
    // 0.25 % of 40 bar, corrected like the reading.
    expect(
      analysis.quantities.operatingPressure.budget.find(({ source }) => source === 'accuracy')?.size,
    ).toBeCloseTo(0.1 * 1.01 * 14.503773773, 6);
  });
  it('takes the reading at rest off only where the rig asks for it, and counts its uncertainty', () => {
    const random = noise(8);
    const log = makeLog({
      times: evenTimes(3000),
      columns: [pressureColumn((t) => (t < 100 ? 9 + 0.2 * random() : 420), { decimals: 1 })],
    });
    const plain = analysed(log, { spec: spec(), rig: rig(gauge()) });
    expect(plain.quantities.operatingPressure.value).toBeCloseTo(420, 9);
    expect(plain.quantities.zeroAtRest.value).toBeCloseTo(9, 1);
    expect(codes(plain)).toContain('zero-off');
    const taken = analysed(log, { spec: spec(), rig: rig(gauge({ subtractZeroAtRest: true })) });
    expect(taken.quantities.operatingPressure.value).toBeCloseTo(411, 1);
    expect(taken.quantities.zeroAtRest.value).toBeCloseTo(9, 1);
    expect(taken.quantities.operatingPressure.budget.map(({ source }) => source)).toContain('zero');
    expect(codes(taken)).toContain('zero-subtracted');
  });
});

describe('Type B parts', () => {
  const parts = (uncertainty: NonNullable<RigChannel['uncertainty']>) =>
    typeBParts({
      rigChannel: { column: 'P', uncertainty },
      range: { low: 0, high: 500 },
      resolution: null,
      reading: 410,
      factor: 1,
    });
  it('come from span, reading, absolute size or a certificate', () => {
    // a/√3: 5/√3, 4.1/√3, 3/√3; U/k: 2/2.
    expect(parts({ percentOfSpan: 1 })[0]?.standardUncertainty).toBeCloseTo(2.886751, 6);
    expect(parts({ percentOfReading: 1 })[0]?.standardUncertainty).toBeCloseTo(2.367136, 6);
    expect(parts({ absolute: 3 })[0]?.standardUncertainty).toBeCloseTo(1.732051, 6);
    expect(parts({ expanded: 2, coverageFactor: 2 })[0]).toMatchObject({
      source: 'calibration',
      distribution: 'normal',
      standardUncertainty: 1,
    });
  });
  it('follow the distribution that is stated', () => {
    expect(parts({ absolute: 6, distribution: 'triangular' })[0]?.standardUncertainty).toBeCloseTo(
      2.44949,
      6,
    );
    expect(parts({ absolute: 6, distribution: 'arcsine' })[0]?.standardUncertainty).toBeCloseTo(4.242641, 6);
    expect(parts({ absolute: 6, distribution: 'normal', coverageFactor: 3 })[0]?.standardUncertainty).toBe(2);
  });
  it('are named, carry their degrees of freedom, and combine by the root of the sum of squares', () => {
    const list = parts([
      { name: 'zero', absolute: 3 * Math.sqrt(3), degreesOfFreedom: 12 },
      { name: 'temperature', absolute: 4 * Math.sqrt(3) },
    ]);
    expect(list.map(({ source, degreesOfFreedom }) => [source, degreesOfFreedom])).toEqual([
      ['zero', 12],
      ['temperature', null],
    ]);
    expect(combinedTypeB(list)).toBeCloseTo(5, 12);
  });
});
