// How often do the stated intervals hold the truth? Invented six-hour runs whose truth is known, judged by the very code that judges
// real ones. Seeded: the same numbers every time. Printed by `npm run coverage-study`, which takes some ten minutes; a test runs
// the same with fewer runs, DEVELOPERS.md keeps the table.
import { assess } from '../src/assessment/assess.ts';
import type { Engagement, Quantities } from '../src/formats/assessment.ts';
import type { Channel, Log, Role } from '../src/formats/log.ts';
import type { Rig } from '../src/formats/rig.ts';
import type { Spec } from '../src/formats/spec.ts';
import { studentTQuantile } from '../src/statistics/student-t.ts';
import type { UnitName } from '../src/units/unit.ts';

/** Correlation of the noise from one sample to the next, a first-order autoregressive series. 0.99 is beyond what is promised. */
export const CORRELATIONS = [0, 0.5, 0.9, 0.99] as const;
const HOURS = 6;
const IDLE_s = 60;
// What is put in: level and noise in psi, noise of the oil in °C, slope in psi/h, warming from 20 °C to 85 °C.
const LEVEL_psi = 410;
const NOISE_psi = 2;
const NOISE_degC = 0.3;
/** For settling, whose last exit from the tolerance is by its definition the later, the louder the noise is. */
const QUIET_psi = 0.5;
const DRIFT_psiPerHour = -0.8;
/** So slight that whole tenths make many block medians equal. */
const SLIGHT_DRIFT_psiPerHour = 0.02;
const SENSITIVITY_psiPerDegC = -0.25;
const WARMING_s = 2400;
const GAUGE_HALF_WIDTH_psi = 5;
const GAUGE_STANDARD_psi = 2;
/** Normal quantile of a two-sided 95 % interval. */
const QUANTILE = 0.975;

interface Draws {
  uniform: () => number;
  normal: () => number;
}
/** mulberry32; Box and Muller. */
function draws(seed: number): Draws {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}
/** Noise of standard deviation 1 whose neighbours are alike by ρ. */
function alike(rho: number, { normal }: Draws): () => number {
  let value = normal();
  return () => (value = rho * value + Math.sqrt(1 - rho * rho) * normal());
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
function channel(column: string, role: Role, unit: UnitName, values: Float64Array): Channel {
  return {
    column,
    position: role === 'pressure' ? 1 : 2,
    role,
    unit,
    unitFrom: 'header',
    values,
    flags: new Uint8Array(values.length),
    faultTokens: [],
    decimals: 1,
  };
}
/** A log as the reader hands it over. */
function logOf(time_s: Float64Array, channels: Channel[]): Log {
  return {
    source: { fileName: 'made.csv', bytes: 1, sha256: '0'.repeat(64) },
    parts: [],
    dialect: { encoding: 'utf-8', delimiter: ',', decimal: '.', headerLine: 1, unitLine: null },
    rows: time_s.length,
    skippedRowCount: 0,
    skippedRows: [],
    timeForm: 'elapsed-seconds',
    start: null,
    origin_s: 0,
    duration_s: time_s.at(-1) ?? 0,
    medianInterval_s: (time_s[1] ?? 1) - (time_s[0] ?? 0),
    time_s,
    gaps: [],
    clockSteps: [],
    channels,
    timeColumns: ['t'],
    roleCandidates: [],
    remarks: [],
  };
}
/** A minute idle, then engaged for six hours; one row a second, one decimal. Functions of the seconds since engaging. */
function sixHours(pressure: (t: number) => number, oil: (t: number) => number): Log {
  const time_s = Float64Array.from({ length: HOURS * 3600 + IDLE_s }, (_, i) => i);
  return logOf(time_s, [
    channel(
      'P',
      'pressure',
      'psi',
      time_s.map((t) => tenth(t < IDLE_s ? 0 : pressure(t - IDLE_s))),
    ),
    channel(
      'T',
      'oil-temperature',
      'degC',
      time_s.map((t) => tenth(oil(Math.max(0, t - IDLE_s)))),
    ),
  ]);
}
const warming = (t: number): number => 85 - 65 * Math.exp(-t / WARMING_s);

const plainSpec: Spec = {
  format: 'overdrive-bench/spec',
  version: 1,
  name: 'study',
  pressureBand: { low: 380, high: 440, unit: 'psi' },
};
type Uncertainty = NonNullable<NonNullable<Rig['channels']>[number]['uncertainty']>;
const rigWith = (uncertainty: Uncertainty): Rig => ({
  format: 'overdrive-bench/rig',
  version: 1,
  name: 'study',
  channels: [{ column: 'P', role: 'pressure', unit: 'psi', range: { low: 0, high: 1000 }, uncertainty }],
});
const accuracyRig = rigWith({ absolute: GAUGE_HALF_WIDTH_psi, distribution: 'rectangular' });
const calibratedRig = rigWith({
  expanded: 2 * GAUGE_STANDARD_psi,
  coverageFactor: 2,
  distribution: 'normal',
});

function judged(log: Log, spec: Spec = plainSpec, rig: Rig | null = null): Quantities {
  const result = assess({ log, rig, spec, judge: null, programVersion: 'study' });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value.assessment.quantities;
}
/** Whether an interval holds the truth; null where there is no interval. */
function holds(
  truth: number,
  low: number | null | undefined,
  high: number | null | undefined,
): boolean | null {
  return low == null || high == null ? null : low <= truth && truth <= high;
}

type Answers = Record<string, boolean | null>;
type Scenario = (rho: number, random: Draws) => Answers;

const level: Scenario = (rho, random) => {
  const p = alike(rho, random),
    o = alike(rho, random);
  const log = sixHours(
    () => LEVEL_psi + NOISE_psi * p(),
    (t) => warming(t) + NOISE_degC * o(),
  );
  const { operatingPressure, drift, warmUp } = judged(log);
  const scatter = operatingPressure.budget.find((line) => line.source === 'scatter');
  const half = scatter
    ? studentTQuantile(QUANTILE, scatter.degreesOfFreedom ?? Infinity) * scatter.standardUncertainty
    : NaN;
  const value = operatingPressure.value ?? NaN;
  return {
    'operating pressure, scatter part': scatter ? holds(LEVEL_psi, value - half, value + half) : null,
    'trend said where none is': drift.trend === null ? null : drift.trend !== 'none',
    'warm-up time constant': holds(WARMING_s, warmUp.low_s, warmUp.high_s),
  };
};

/** One gauge a run: its error stays the same all through it. */
const gauge: Scenario = (rho, random) => {
  const within = (error: number, rig: Rig): boolean | null => {
    const p = alike(rho, random);
    const log = sixHours(() => LEVEL_psi + error + NOISE_psi * p(), warming);
    const { value, expandedUncertainty: u } = judged(log, plainSpec, rig).operatingPressure;
    return value === null || u === null ? null : holds(LEVEL_psi, value - u, value + u);
  };
  return {
    'operating pressure, U, gauge off by up to 5 psi': within(
      GAUGE_HALF_WIDTH_psi * (2 * random.uniform() - 1),
      accuracyRig,
    ),
    'operating pressure, U, gauge calibrated to 4 psi (k = 2)': within(
      GAUGE_STANDARD_psi * random.normal(),
      calibratedRig,
    ),
  };
};

const drifting: Scenario = (rho, random) => {
  const covered = (slope: number): boolean | null => {
    const p = alike(rho, random);
    const { drift } = judged(sixHours((t) => LEVEL_psi + (slope * t) / 3600 + NOISE_psi * p(), warming));
    return holds(slope, drift.low, drift.high);
  };
  return {
    'drift, −0.8 psi/h': covered(DRIFT_psiPerHour),
    'drift, 0.02 psi/h': covered(SLIGHT_DRIFT_psiPerHour),
  };
};

const thinning: Scenario = (rho, random) => {
  const p = alike(rho, random),
    o = alike(rho, random);
  const log = sixHours(
    (t) =>
      LEVEL_psi +
      SENSITIVITY_psiPerDegC * (warming(t) - 85) +
      (DRIFT_psiPerHour * t) / 3600 +
      NOISE_psi * p(),
    (t) => warming(t) + NOISE_degC * o(),
  );
  const { temperatureSensitivity, drift } = judged(log);
  return {
    'temperature sensitivity': holds(
      SENSITIVITY_psiPerDegC,
      temperatureSensitivity.low,
      temperatureSensitivity.high,
    ),
    'temperature-corrected slope': holds(
      DRIFT_psiPerHour,
      drift.temperatureCorrectedLow,
      drift.temperatureCorrectedHigh,
    ),
  };
};

const settling: Scenario = (rho, random) => {
  const p = alike(rho, random);
  const constant_s = 400 + 600 * random.uniform(),
    tolerance = 8,
    below = 40;
  const log = sixHours((t) => LEVEL_psi - below * Math.exp(-t / constant_s) + QUIET_psi * p(), warming);
  const { time_s } = judged(log, { ...plainSpec, settling: { tolerance, unit: 'psi' } }).settling;
  const truth_s = constant_s * Math.log(below / tolerance);
  return {
    'settling time within 5 % or 1 min (noise 0.5 psi)':
      time_s === null ? null : Math.abs(time_s - truth_s) <= Math.max(60, 0.05 * truth_s),
  };
};

const scenarios: Scenario[] = [level, gauge, drifting, thinning, settling];

/** Yes-answers among the runs that gave one. */
export interface Tally {
  yes: number;
  of: number;
}

/** For every line of the table, one tally a correlation. */
export function studyCoverage(
  runs: number,
  correlations: readonly number[] = CORRELATIONS,
): Map<string, Tally[]> {
  const table = new Map<string, Tally[]>();
  correlations.forEach((rho, column) => {
    scenarios.forEach((scenario, index) => {
      for (let run = 1; run <= runs; run++)
        for (const [name, held] of Object.entries(
          scenario(rho, draws(1_000_003 * (index + 1) + Math.round(100_000 * rho) + run)),
        )) {
          const tallies = table.get(name) ?? correlations.map(() => ({ yes: 0, of: 0 }));
          table.set(name, tallies);
          const tally = tallies[column];
          if (!tally || held === null) continue;
          tally.of++;
          if (held) tally.yes++;
        }
    });
  });
  return table;
}

// The two kinds of unit: is every engagement found, and nothing else?

const RATES_Hz = [1, 2, 5, 10];
/** A log at a rate, with a few wild readings thrown in where none of the `calm` stretches is. */
function quickLog(
  rate_Hz: number,
  length_s: number,
  pressure: (t: number) => number,
  random: Draws,
  calm: readonly (readonly [number, number])[],
): Log {
  const rows = Math.round(length_s * rate_Hz);
  const time_s = Float64Array.from({ length: rows }, (_, i) => i / rate_Hz);
  const values = time_s.map((t) => tenth(pressure(t)));
  let wild = Math.floor(5 * random.uniform());
  while (wild > 0) {
    const row = Math.floor(rows * random.uniform()),
      at_s = time_s[row] ?? NaN;
    if (calm.some(([from, to]) => at_s >= from && at_s <= to)) continue;
    values[row] = 900;
    wild--;
  }
  return logOf(time_s, [channel('P', 'pressure', 'psi', values)]);
}
const pick = (list: readonly number[], { uniform }: Draws): number =>
  list[Math.floor(list.length * uniform())] ?? NaN;
const near = (found: number | null | undefined, truth: number, tolerance: number): boolean =>
  found != null && Math.abs(found - truth) <= tolerance;

function raisedVariant(random: Draws): boolean {
  const rate_Hz = pick(RATES_Hz, random),
    height = 300 + 200 * random.uniform(),
    noise = 0.2 + 2.8 * random.uniform(),
    rise_s = 0.2 + 1.5 * random.uniform();
  const cycles: [number, number][] = [];
  let t = 30;
  for (let count = 1 + Math.floor(6 * random.uniform()); count > 0; count--) {
    const lasts_s = 30 + 300 * random.uniform();
    cycles.push([t, t + lasts_s]);
    t += lasts_s + 10 + 60 * random.uniform();
  }
  const pressure = (now: number): number => {
    const cycle = cycles.findLast(([from]) => now >= from);
    let share = 0;
    if (cycle) {
      const [from, to] = cycle;
      share = now < to ? 1 - Math.exp(-(now - from) / rise_s) : Math.exp(-(now - to) / 0.5);
    }
    return height * share + noise * random.normal();
  };
  const calm = cycles.flatMap(([from, to]) => [[from - 8, from + 8] as const, [to - 8, to + 8] as const]);
  const log = quickLog(rate_Hz, t + 20, pressure, random, calm);
  const found: Engagement[] = judged(log, {
    ...plainSpec,
    pressureBehaviour: 'raised-on-engage',
  }).engagements;
  return (
    found.length === cycles.length &&
    cycles.every(([from, to], i) => near(found[i]?.start_s, from, 3) && near(found[i]?.end_s, to, 3))
  );
}

function heldVariant(random: Draws): boolean {
  const rate_Hz = pick(RATES_Hz, random),
    height = 350 + 150 * random.uniform(),
    noise = 0.2 + 1.3 * random.uniform();
  const dips: { at_s: number; depth: number; back_s: number }[] = [];
  let t = 120;
  for (let count = 1 + Math.floor(8 * random.uniform()); count > 0; count--) {
    // Deep and long enough for three readings in a row more than a tenth below: by definition, shorter is a spike.
    const depth = 0.2 + 0.4 * random.uniform();
    const shortest_s = 3.5 / rate_Hz / Math.log(depth / 0.1);
    dips.push({ at_s: Math.round(t * rate_Hz) / rate_Hz, depth, back_s: shortest_s + 4 * random.uniform() });
    t += 90 + 200 * random.uniform();
  }
  const pressure = (now: number): number => {
    let share = Math.min(1, Math.max(0, (now - 20) / 30));
    for (const { at_s, depth, back_s } of dips)
      if (now >= at_s - 1e-9) share -= depth * Math.exp(-(now - at_s) / back_s);
    return height * share + noise * random.normal();
  };
  const calm = [[0, 70] as const, ...dips.map(({ at_s }) => [at_s - 10, at_s + 40] as const)];
  const log = quickLog(rate_Hz, t + 20, pressure, random, calm);
  const found: Engagement[] = judged(log, { ...plainSpec, pressureBehaviour: 'held-charged' }).engagements;
  return (
    found.length === dips.length &&
    dips.every(({ at_s, depth }, i) => near(found[i]?.start_s, at_s, 2) && near(found[i]?.dip, depth, 0.02))
  );
}

const kinds: readonly (readonly [string, (random: Draws) => boolean])[] = [
  ['raised on engaging, cycled: every engagement within 3 s, none besides', raisedVariant],
  ['held charged: every dip within 2 s, its depth within 0.02 of the level, none besides', heldVariant],
];

/** For each kind of unit the variants, counted from 1, that came out wrong. */
export function studyKinds(variants: number): { name: string; wrong: number[] }[] {
  return kinds.map(([name, right], index) => {
    const wrong: number[] = [];
    for (let run = 1; run <= variants; run++)
      if (!right(draws(77_000_001 + 1_000_003 * index + run))) wrong.push(run);
    return { name, wrong };
  });
}

const cell = ({ yes, of }: Tally, runs: number): string =>
  of === 0 ? 'none' : `${((100 * yes) / of).toFixed(1)} %${of < runs ? ` of ${of}` : ''}`;

/** Both tables as lines of text. */
export function coverageLines(runs: number): string[] {
  const variants = Math.min(runs, 200);
  return [
    `${runs} made runs of ${HOURS} h at 1 Hz for each figure; noise ${NOISE_psi} psi and ${NOISE_degC} °C, alike by ρ from sample to sample`,
    '',
    `| share of the runs | ${CORRELATIONS.map((rho) => `ρ = ${rho}`).join(' | ')} |`,
    `|---|${CORRELATIONS.map(() => '---|').join('')}`,
    ...Array.from(
      studyCoverage(runs),
      ([name, tallies]) => `| ${name} | ${tallies.map((tally) => cell(tally, runs)).join(' | ')} |`,
    ),
    '',
    `${variants} made logs of each kind of unit at 1 to 10 Hz, wild readings thrown in`,
    '',
    '| | right |',
    '|---|---|',
    ...studyKinds(variants).map(
      ({ name, wrong }) =>
        `| ${name} | ${variants - wrong.length} of ${variants}${wrong.length > 0 ? ` (not ${wrong.slice(0, 12).join(', ')})` : ''} |`,
    ),
  ];
}
