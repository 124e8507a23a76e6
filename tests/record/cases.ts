import type { Criterion } from '#formats/assessment.ts';
import type { RecordInput } from '#record/record-input.ts';
import { fontsOnDisk } from './fonts-on-disk.ts';
import { madeRun, type MadeRun } from './made-run.ts';
import { concession, fullUnitRecord } from './unit-records.ts';

const log = new TextEncoder().encode('elapsed_s,P main [psi]\n0,17.1\n2,17.3\n');
export const logFile = { fileName: 'run-2026-03-04.csv', bytes: log };

/** A record of a made run. */
export function recordOf(run: Partial<MadeRun>, more: Partial<RecordInput> = {}): RecordInput {
  return {
    ...madeRun({ interval_s: 20, ...run }),
    logs: [logFile],
    unitRecord: fullUnitRecord,
    date: '2026-03-06',
    paper: 'a4',
    language: 'en',
    fonts: fontsOnDisk,
    ...more,
  };
}
const extra = (id: Criterion['id'], changes: Partial<Criterion> = {}): Criterion => ({
  id,
  value: 10,
  unit: 'psi',
  expandedUncertainty: null,
  limits: { low: null, high: 15 },
  decisionRule: 'simple',
  probabilityOfConformity: null,
  verdict: 'pass',
  reason: 'as made',
  ...changes,
});
const allOthers: Criterion[] = [
  extra('peak-pressure', { value: 442, limits: { low: null, high: 480 } }),
  extra('ripple'),
  extra('engagement-rise', { value: 0.8, unit: 's', limits: { low: null, high: 2 } }),
  extra('engagement-dip', { value: 0.3, unit: '1', limits: { low: null, high: 0.4 } }),
  extra('engagement-recovery', { value: 1.4, unit: 's', limits: { low: null, high: 2 } }),
  extra('fall-after-release', { value: 4, unit: 's', limits: { low: null, high: 20 } }),
  extra('released-pressure', {
    value: 17.5,
    expandedUncertainty: 2.2,
    limits: { low: null, high: 30 },
    decisionRule: 'guarded',
  }),
  extra('leak-down', { value: 41, unit: 's', limits: { low: 20, high: null } }),
  extra('plateau-spread', { value: 1.9, limits: { low: null, high: 6 } }),
  extra('solenoid-current', { value: 0.92, unit: 'A', limits: { low: null, high: 1 } }),
  extra('record-coverage', { value: 0.998, unit: '1', limits: { low: 0.98, high: null } }),
];
const step = {
  before_mm: [0.75],
  after_mm: [0.75, 0.75],
  pressureBefore: { value: 394.2, unit: 'psi' as const, standardUncertainty: 1.2 },
  pressureAfter: { value: 411, unit: 'psi' as const },
  verdictBefore: 'fail' as const,
};
const long =
  'A note that goes on for a good while, as notes of a long day at the bench do when much was found. ';

/** Records of every kind that tests and eyes should see; made when asked for. */
export const cases = {
  pass: () =>
    recordOf({
      gap: { start_s: 11160, end_s: 11520 },
      spikes: [
        { at_s: 9200, value: 426 },
        { at_s: 17000, value: 380 },
      ],
    }),
  'fail-with-concession': () => recordOf({ level: 425.1 }, { unitRecord: { ...fullUnitRecord, concession } }),
  undecided: () => recordOf({ expanded: 12 }),
  'not-assessed': () => recordOf({ hold: false }),
  're-test': () =>
    recordOf(
      {},
      {
        earlier: {
          ...madeRun({ interval_s: 20, hours: 1.5, level: 393, start: '2026-03-04T05:15:00' }),
          logs: [],
        },
        unitRecord: { ...fullUnitRecord, adjustments: [step], setting: { shims_mm: [0.75, 0.75] } },
      },
    ),
  'letter-with-concession': () =>
    recordOf({ level: 425.1 }, { paper: 'letter', unitRecord: { ...fullUnitRecord, concession } }),
  'all-criteria': () => recordOf({ extraCriteria: allOthers }),
  'nothing-met': () =>
    recordOf({
      level: 148,
      extraCriteria: allOthers.map((criterion) => ({ ...criterion, verdict: 'fail' })),
    }),
  'twelve-engagements': () => recordOf({ engagements: 12 }),
  'twenty-instruments-long-notes': () =>
    recordOf(
      {},
      {
        unitRecord: {
          ...fullUnitRecord,
          notes: long.repeat(60),
          instruments: Array.from({ length: 20 }, (_, index) => ({
            name: `Gauge of an invented maker, number ${index + 1}`,
            identification: `X-${index + 1}`,
            calibratedOn: '2025-11-18',
          })),
        },
      },
    ),
  'names-of-all-kinds': () =>
    recordOf(
      {},
      {
        unitRecord: {
          ...fullUnitRecord,
          customer: 'Łukasz Źrebięć, Αθήνα, Žižkov; O’Hara-Σοφία & Sons',
          unit: { ...fullUnitRecord.unit, serial: '0'.repeat(50), type: 'Ő'.repeat(80) },
          shop: { name: 'Мастерская Пример', address: '½ Sample Street 日本' },
        },
      },
    ),
  'nothing-known': () =>
    recordOf(
      { oil: false, start: null, expanded: null, rule: 'simple' },
      { unitRecord: null, date: null, logs: [] },
    ),
  'no-limits': () => recordOf({ band: null }),
  'in-bar-in-german': () => recordOf({ unit: 'bar' }, { language: 'de' }),
} satisfies Record<string, () => RecordInput>;
