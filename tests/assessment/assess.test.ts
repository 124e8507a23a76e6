import { describe, expect, it } from 'vitest';
import { assess } from '#assessment/assess.ts';
import { inspect } from '#assessment/inspect.ts';
import { assessmentSchema, inspectionSchema } from '#formats/assessment.ts';
import { specFromBand } from '#formats/band.ts';
import { writeJson } from '#formats/number.ts';
import {
  engagedBetween,
  evenTimes,
  gauge,
  makeLog,
  noise,
  oilColumn,
  pressureColumn,
  rig,
} from '../analysis/synthetic-run.ts';

const random = noise(1);
const plain = engagedBetween(60, 21660, () => 411);
const log = makeLog({
  times: evenTimes(21720, 2),
  columns: [
    pressureColumn((t) => plain(t) + 0.5 * random()),
    oilColumn((t) => 18 + 44 * (1 - Math.exp(-Math.max(0, t - 60) / 1500)), { decimals: 1 }),
  ],
});
const band = specFromBand('400..420 psi');
if (!band.ok) throw new Error('the band is refused');

describe('assess', () => {
  it('passes a clean run on its band alone, in the shape of the assessment', () => {
    const result = assess({
      log,
      rig: rig(gauge()),
      spec: band.value,
      judge: null,
      programVersion: '0.1.0',
    });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const assessment = assessmentSchema.parse(JSON.parse(writeJson(result.value.assessment)));
    expect(assessment.verdict).toBe('pass');
    expect(assessment.quantities.operatingPressure.value).toBeCloseTo(411, 1);
    // Gauge good to 0.25 % of 600 psi: 1.5 psi/√3, twice.
    expect(assessment.quantities.operatingPressure.expandedUncertainty).toBeCloseTo(1.732, 2);
    expect(assessment.judged.start_s).toBe(62);
    // The fall begins at 21,660 s: that reading still stands at the level.
    expect(assessment.judged.end_s).toBe(21660);
    expect(assessment.phases.map(({ kind }) => kind)).toEqual([
      'idle',
      'warm-up',
      'hold',
      'run-down',
      'idle',
    ]);
  });
  it('describes a run without a spec and judges nothing', () => {
    const result = assess({ log, rig: null, spec: null, judge: null, programVersion: '0.1.0' });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(assessmentSchema.safeParse(result.value.assessment).success).toBe(true);
    expect(result.value.assessment.verdict).toBe('not-assessed');
    expect(result.value.assessment.criteria).toEqual([]);
  });
  it('has an assessment of a log whose gauge dropped out about the only switching while engaged', () => {
    const dropped = makeLog({
      times: evenTimes(1200),
      columns: [
        pressureColumn((t) => (Math.abs(t - 600) < 8 ? null : engagedBetween(60, 1300, () => 411)(t))),
        {
          column: 'I',
          role: 'solenoid-current',
          unit: 'A',
          at: (t) => (t >= 600 ? 0.8 : 0),
        },
      ],
    });
    const result = assess({
      log: dropped,
      rig: null,
      spec: band.value,
      judge: null,
      programVersion: '0.1.0',
    });
    expect(result.ok).toBe(true);
  });
  it('gives the same bytes again for what it wrote', () => {
    const result = assess({ log, rig: null, spec: band.value, judge: null, programVersion: '0.1.0' });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const text = writeJson(result.value.assessment);
    expect(writeJson(JSON.parse(text))).toBe(text);
  });
  it('refuses a log whose pressure cannot be told, naming the columns', () => {
    const codes = (columns: Parameters<typeof makeLog>[0]['columns']): unknown => {
      const result = assess({
        log: makeLog({ times: evenTimes(100), columns }),
        rig: null,
        spec: null,
        judge: null,
        programVersion: '0.1.0',
      });
      return result.ok ? 'ok' : result.problems[0];
    };
    expect(codes([oilColumn(() => 20)])).toMatchObject({ code: 'no-pressure-column', columns: ['Oil'] });
    expect(codes([pressureColumn(() => 1), pressureColumn(() => 2, { column: 'P2' })])).toMatchObject({
      code: 'several-pressure-columns',
      columns: ['P', 'P2'],
    });
    expect(codes([pressureColumn(() => 7, { unit: null })])).toMatchObject({
      code: 'pressure-without-unit',
      column: 'P',
      median: 7,
    });
    expect(codes([pressureColumn(() => 7, { unit: 'degC' })])).toMatchObject({ code: 'unit-of-wrong-kind' });
  });
});

describe('inspect', () => {
  it('describes each channel in the shape of the inspection', () => {
    const inspection = inspectionSchema.parse(JSON.parse(writeJson(inspect(log, null))));
    expect(inspection.log.rows).toBe(10861);
    expect(inspection.log.channels.map(({ column, samples }) => [column, samples])).toEqual([
      ['P', 10861],
      ['Oil', 10861],
    ]);
    expect(inspection.log.channels[1]).toMatchObject({ valid: 10861, min: 18, role: 'oil-temperature' });
  });
});
