// How good the advice is: invented units with known spring, refitting scatter, gauge error and reading noise, seeded.
// Printed by `npm run relief-study`; a test runs the same with fewer units.
import type { Advice, AdviceOption } from '../src/formats/advice.ts';
import type { Assessment, Quantities } from '../src/formats/assessment.ts';
import type { Adjustments, Relief } from '../src/formats/relief.ts';
import { decide } from '../src/decision/decide.ts';
import { factsWithoutRig } from '../src/decision/facts.ts';
import { advise } from '../src/relief/advise.ts';

/** Uniform and normal draws from one seed (mulberry32; polar method): the same on every machine. */
export function draws(seed: number): { uniform: () => number; normal: () => number } {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => {
    for (;;) {
      const x = 2 * uniform() - 1,
        y = 2 * uniform() - 1,
        r = x * x + y * y;
      if (r > 0 && r < 1) return x * Math.sqrt((-2 * Math.log(r)) / r);
    }
  };
  return { uniform, normal };
}

const BAND = { low: 400, high: 420, unit: 'psi' as const };
/** Invented bench and type: a 600 psi gauge good to 0.5 %, scatter of the hold's mean, refitting, pressure per millimetre. */
const GAUGE_HALF_WIDTH = 3;
const SCATTER = 0.4;
const REFITTING = 1.5;
const PER_MM = 22;
const PER_MM_SPREAD = 3;
const STANDARD_SHIM = 0.1;
const STOCK = [
  { thickness_mm: 0.05, count: 2 },
  { thickness_mm: 0.1, count: null },
  { thickness_mm: 0.25, count: null },
  { thickness_mm: 0.5, count: 2 },
];
const FITTED = [0.5, 0.5, 0.25];

interface Unit {
  pressure: number;
  perMm: number;
  stack: number[];
  gaugeError: number;
}

function assessmentOf(reading: number): Assessment {
  const gauge = GAUGE_HALF_WIDTH / Math.sqrt(3),
    u = Math.sqrt(gauge * gauge + SCATTER * SCATTER);
  const none = { reason: 'not simulated' };
  const quantities: Quantities = {
    operatingPressure: {
      value: reading,
      unit: 'psi',
      standardUncertainty: u,
      expandedUncertainty: 2 * u,
      coverageFactor: 2,
      effectiveDegreesOfFreedom: null,
      start_s: 3000,
      end_s: 21000,
      budget: [
        {
          source: 'scatter',
          type: 'A',
          distribution: 't',
          standardUncertainty: SCATTER,
          degreesOfFreedom: 8,
          share: 0,
        },
        {
          source: 'accuracy',
          type: 'B',
          distribution: 'rectangular',
          standardUncertainty: gauge,
          degreesOfFreedom: null,
          share: 1,
        },
      ],
    },
    holdRange: { min: null, max: null, unit: 'psi', ...none },
    peakPressure: { value: null, unit: 'psi', ...none },
    timeInBand: { inside: null, above: null, below: null, ...none },
    drift: {
      slope: null,
      low: null,
      high: null,
      unit: 'psi/h',
      confidence: 0.95,
      overHold: { value: null, unit: 'psi' },
      trend: null,
      temperatureCorrectedSlope: null,
      bandExit_h: null,
      ...none,
    },
    settling: { time_s: 1800, tolerance: 8, unit: 'psi', finalValue: reading },
    warmUp: {
      timeConstant_s: null,
      low_s: null,
      high_s: null,
      startTemperature: null,
      finalTemperature: null,
      unit: 'degC',
      reachedOperating_s: null,
      ...none,
    },
    holdTemperature: { mean: 60, min: 58, max: 62, unit: 'degC' },
    temperatureSensitivity: { value: null, unit: 'psi/degC', low: null, high: null, ...none },
    ripple: { peakToPeak: null, unit: 'psi', frequency_Hz: null, order: null, ...none },
    engagements: [],
    releasedPressure: { value: null, unit: 'psi', ...none },
    zeroAtRest: { value: null, unit: 'psi', ...none },
    leakDown: { halfTime_s: null, ...none },
    plateauSpread: { value: null, unit: 'psi', engagements: 0, ...none },
    solenoidCurrent: { mean: null, max: null, unit: 'A', ...none },
  };
  const spec = {
    format: 'overdrive-bench/spec' as const,
    version: 1 as const,
    name: 'study',
    pressureBand: BAND,
  };
  const facts = { ...factsWithoutRig(), pressure: { stated: true, typeBExpanded: 2 * gauge } };
  const decision = decide(quantities, spec, facts);
  return {
    format: 'overdrive-bench/assessment',
    version: 1,
    program: { version: 'study' },
    complete: true,
    log: {
      fileName: null,
      bytes: 0,
      sha256: null,
      dialect: { encoding: 'utf-8', delimiter: ',', decimal: '.', headerLine: 1, unitLine: null },
      rows: 0,
      skippedRowCount: 0,
      skippedRows: [],
      timeForm: 'elapsed-seconds',
      start: null,
      duration_s: 21600,
      medianInterval_s: 1,
      gaps: [],
      clockSteps: [],
      channels: [],
    },
    settings: {
      smoothing: { method: 'median', window_s: 30 },
      settlingTolerance: { value: 8, unit: 'psi' },
      pressureBehaviour: 'raised-on-engage',
      decisionRule: 'guarded',
      guardFactor: 1,
      coverageProbability: 0.9545,
    },
    spec,
    rig: null,
    judged: { start_s: 0, end_s: 21600, shareOfLog: 1, joined: 1, choices: [] },
    phases: [],
    quantities,
    criteria: decision.criteria,
    verdict: decision.verdict,
    signs: [],
    remarks: decision.remarks,
  };
}

/** Landed of said, in one bin of said chances. */
export interface Bin {
  from: number;
  to: number;
  options: number;
  said: number;
  happened: number;
}
export interface ReliefStudy {
  units: number;
  /** Share in the band for true after the first change, and how many changes it took on average, by the advice and by the rule of thumb. */
  advised: { firstTry: number; tries: number };
  ruleOfThumb: { firstTry: number; tries: number };
  conformity: Bin[];
  passSameGauge: Bin[];
  passOtherGauge: Bin[];
}

const EDGES = [0, 0.05, 0.45, 0.55, 0.85, 0.95, 0.98, 1] as const;
const emptyBins = (): Bin[] =>
  EDGES.slice(1).map((to, index) => ({ from: EDGES[index] ?? 0, to, options: 0, said: 0, happened: 0 }));
function count(bins: readonly Bin[], said: number, happened: boolean): void {
  const bin = bins.find(({ from, to }) => said >= from && (said < to || to === 1));
  if (!bin) return;
  bin.options += 1;
  bin.said += said;
  bin.happened += happened ? 1 : 0;
}

const inBand = (pressure: number): boolean => pressure >= BAND.low && pressure <= BAND.high;
const TRIES_AT_MOST = 12;

/**
 * Brings so many invented units into the band, once by the advice and once by "one standard shim a step", and holds each option's chances
 * against what happens when it is fitted.
 */
export function studyRelief(units: number, seed: number): ReliefStudy {
  const { uniform, normal } = draws(seed);
  const gaugeError = (): number => GAUGE_HALF_WIDTH * (2 * uniform() - 1);
  const study: ReliefStudy = {
    units,
    advised: { firstTry: 0, tries: 0 },
    ruleOfThumb: { firstTry: 0, tries: 0 },
    conformity: emptyBins(),
    passSameGauge: emptyBins(),
    passOtherGauge: emptyBins(),
  };
  const gaugeU = Math.sqrt((GAUGE_HALF_WIDTH * GAUGE_HALF_WIDTH) / 3 + SCATTER * SCATTER);
  const passes = (reading: number): boolean =>
    reading >= BAND.low + 2 * gaugeU && reading <= BAND.high - 2 * gaugeU;
  for (let index = 0; index < units; index++) {
    const perMm = PER_MM + PER_MM_SPREAD * normal();
    const made: Unit = { pressure: 410 + 20 * normal(), perMm, stack: [...FITTED], gaugeError: gaugeError() };
    const figure = perMm + PER_MM_SPREAD * normal();
    for (const way of ['advised', 'ruleOfThumb'] as const) {
      const unit = { ...made, stack: [...made.stack] };
      const read = (): number => unit.pressure + unit.gaugeError + SCATTER * normal();
      const history: Adjustments = { format: 'overdrive-bench/adjustments', version: 1, adjustments: [] };
      let tries = 0,
        reading = read(),
        outsideAtFirst = !passes(reading);
      while (!passes(reading) && tries < TRIES_AT_MOST) {
        let change: number;
        let stack = unit.stack;
        if (way === 'advised') {
          const relief: Relief = {
            format: 'overdrive-bench/relief',
            version: 1,
            pressurePerShim: { value: figure, unit: 'psi/mm', standardUncertainty: PER_MM_SPREAD },
            repeatability: { standardUncertainty: REFITTING, unit: 'psi' },
            fitted_mm: unit.stack,
            stock: STOCK,
            stackAtMost_mm: 4,
          };
          const advice = advise({ assessment: assessmentOf(reading), relief, history });
          if (!advice.ok) throw new Error(JSON.stringify(advice.problems));
          if (tries === 0) hold(advice.value, unit);
          const option = advice.value.options.find(({ leave }) => !leave);
          if (!option?.fit_mm) break;
          change = option.change_mm;
          stack = option.fit_mm;
        } else {
          change = reading > 410 ? -STANDARD_SHIM : STANDARD_SHIM;
          stack = change > 0 ? [...unit.stack, STANDARD_SHIM] : unit.stack;
        }
        unit.pressure += unit.perMm * change + REFITTING * normal();
        tries += 1;
        const before = reading;
        reading = read();
        const u = Math.sqrt((GAUGE_HALF_WIDTH * GAUGE_HALF_WIDTH) / 3 + SCATTER * SCATTER);
        history.adjustments.push({
          before_mm: unit.stack,
          after_mm: stack,
          pressureBefore: { value: before, unit: 'psi', standardUncertainty: u },
          pressureAfter: { value: reading, unit: 'psi', standardUncertainty: u },
        });
        unit.stack = stack;
        if (tries === 1 && inBand(unit.pressure)) study[way].firstTry += 1;
      }
      if (!outsideAtFirst) study[way].firstTry += inBand(unit.pressure) ? 1 : 0;
      study[way].tries += tries;
    }
  }
  for (const way of ['advised', 'ruleOfThumb'] as const) {
    study[way].firstTry /= units;
    study[way].tries /= units;
  }
  return study;

  /** Fits each option to a copy of the unit and looks what comes of it. */
  function hold(advice: Advice, unit: Unit): void {
    for (const option of advice.options) {
      const pressure =
        unit.pressure + (option.leave ? 0 : unit.perMm * option.change_mm + REFITTING * normal());
      count(study.conformity, option.probabilityOfConformity, inBand(pressure));
      countPass(option, pressure, unit.gaugeError);
    }
  }
  function countPass(option: AdviceOption, pressure: number, sameError: number): void {
    const scatter = SCATTER * normal();
    count(study.passOtherGauge, option.probabilityOfPass, passes(pressure + gaugeError() + scatter));
    if (option.probabilityOfPassSameGauge !== undefined)
      count(study.passSameGauge, option.probabilityOfPassSameGauge, passes(pressure + sameError + scatter));
  }
}

/** The study as lines of text. */
export function studyLines(study: ReliefStudy): string[] {
  const share = (value: number): string => `${(100 * value).toFixed(1)} %`;
  const bins = (title: string, list: readonly Bin[]): string[] => [
    title,
    ...list
      .filter(({ options }) => options > 0)
      .map(
        ({ from, to, options, said, happened }) =>
          `  said ${from.toFixed(2)} to ${to.toFixed(2)}: ${String(options).padStart(5)} options, said ${share(said / options)} on average, came true ${share(happened / options)}`,
      ),
  ];
  return [
    `${study.units} invented units, band 400 to 420 psi, gauge of 600 psi good to 0.5 %`,
    `by the advice: in the band at the first change ${share(study.advised.firstTry)}, changes until the re-test passed ${study.advised.tries.toFixed(2)}`,
    `one 0.1 mm shim a step: in the band at the first change ${share(study.ruleOfThumb.firstTry)}, changes ${study.ruleOfThumb.tries.toFixed(2)}`,
    ...bins('lies in the band', study.conformity),
    ...bins('re-test passes, another gauge', study.passOtherGauge),
    ...bins('re-test passes, the same gauge', study.passSameGauge),
  ];
}
