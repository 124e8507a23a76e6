import { z } from 'zod';
import { choice } from './judge.ts';
import { encodings, roles, timeForms, unitOrigins } from './log.ts';
import { rigSchema } from './rig.ts';
import { pressureUnit, temperatureUnit, unitName } from './shared-shapes.ts';
import { smoothing, specSchema } from './spec.ts';

const number = z.number();
const maybe = number.nullable();
/** Present where a field of the same object is null: why. */
const reason = z.string().optional();
const count = z.number().int().nonnegative();
const source = z.strictObject({
  fileName: z.string().nullable(),
  bytes: count,
  sha256: z.string().nullable(),
});

export const loggedChannel = z.strictObject({
  column: z.string(),
  role: z.enum(roles).nullable(),
  unit: unitName.nullable(),
  unitFrom: z.enum(unitOrigins).nullable(),
  samples: count,
  valid: count,
  missing: count,
  faultTokens: count,
  /** The texts among them, the most frequent first; absent where there are none. */
  tokens: z.array(z.strictObject({ token: z.string(), count })).optional(),
  outOfRange: count,
  stuck: count,
  spikes: count,
  /** Of the valid readings, in the column's unit, before correction; null where there is none. */
  min: maybe,
  max: maybe,
  mean: maybe,
  median: maybe,
});
export const loggedRun = z.strictObject({
  ...source.shape,
  parts: z.array(source).optional(),
  dialect: z.strictObject({
    encoding: z.enum(encodings),
    delimiter: z.string(),
    decimal: z.enum(['.', ',']),
    headerLine: z.number().int().nullable(),
    unitLine: z.number().int().nullable(),
  }),
  rows: count,
  skippedRowCount: count,
  skippedRows: z.array(z.strictObject({ line: z.number().int(), reason: z.string() })),
  timeForm: z.enum(timeForms),
  start: z.string().nullable(),
  duration_s: number,
  medianInterval_s: maybe,
  gaps: z.array(z.strictObject({ start_s: number, end_s: number })),
  clockSteps: z.array(z.strictObject({ at_s: number, step_s: number })),
  channels: z.array(loggedChannel),
});
export type LoggedRun = z.infer<typeof loggedRun>;

export const inspectionSchema = z.strictObject({
  format: z.literal('overdrive-bench/inspection'),
  version: z.literal(1),
  log: loggedRun,
  remarks: z.array(z.strictObject({ code: z.string(), text: z.string() })).optional(),
});
export type Inspection = z.infer<typeof inspectionSchema>;

export const phaseKinds = ['idle', 'warm-up', 'hold', 'run-down', 'not-judged', 'gap'] as const;
export const phase = z.strictObject({ kind: z.enum(phaseKinds), start_s: number, end_s: number });
export type Phase = z.infer<typeof phase>;

export const budgetLine = z.strictObject({
  /** scatter, accuracy, resolution, calibration, zero, temperature … */
  source: z.string(),
  type: z.enum(['A', 'B']).optional(),
  /** Half-width or expanded value as stated, in the quantity's unit; null for scatter. */
  size: maybe.optional(),
  distribution: z.string(),
  standardUncertainty: number,
  /** null: infinite. */
  degreesOfFreedom: maybe,
  /** Share of the combined variance. */
  share: number,
});
export type BudgetLine = z.infer<typeof budgetLine>;

export const operatingPressure = z.strictObject({
  value: maybe,
  unit: pressureUnit,
  standardUncertainty: maybe,
  expandedUncertainty: maybe,
  coverageFactor: maybe,
  /** null also means infinite. */
  effectiveDegreesOfFreedom: maybe,
  start_s: maybe,
  end_s: maybe,
  budget: z.array(budgetLine),
  reason,
});
export type OperatingPressure = z.infer<typeof operatingPressure>;

export const engagement = z.strictObject({
  start_s: number,
  end_s: number,
  rise_s: maybe,
  riseAtMost_s: maybe.optional(),
  plateau: z.strictObject({ value: maybe, unit: pressureUnit }),
  peak: z.strictObject({ value: maybe, unit: pressureUnit }),
  overshoot: maybe,
  fall_s: maybe,
  fallAtMost_s: maybe.optional(),
  /** How long the fall was watched without its reaching a tenth. */
  fallAtLeast_s: maybe.optional(),
  dip: maybe,
  recovery_s: maybe,
  /** How long the pressure was watched without its coming back. */
  recoveryAtLeast_s: maybe.optional(),
  reason,
});
export type Engagement = z.infer<typeof engagement>;

export const quantities = z.strictObject({
  operatingPressure,
  holdRange: z.strictObject({ min: maybe, max: maybe, unit: pressureUnit, reason }),
  peakPressure: z.strictObject({
    value: maybe,
    unit: pressureUnit,
    /** The end of the gauge's range, where the pressure stood at it: it was at least that. */
    atLeast: maybe.optional(),
    at_s: maybe.optional(),
    reason,
  }),
  timeInBand: z.strictObject({ inside: maybe, above: maybe, below: maybe, reason }),
  drift: z.strictObject({
    slope: maybe,
    low: maybe,
    high: maybe,
    unit: z.string(),
    confidence: number,
    overHold: z.strictObject({
      value: maybe,
      unit: pressureUnit,
      low: maybe.optional(),
      high: maybe.optional(),
    }),
    trend: z.enum(['rising', 'falling', 'none']).nullable(),
    temperatureCorrectedSlope: maybe,
    temperatureCorrectedLow: maybe.optional(),
    temperatureCorrectedHigh: maybe.optional(),
    bandExit_h: maybe,
    reason,
  }),
  /** A step of the pressure that stays, within the hold; absent where none was found. */
  changePoint: z
    .strictObject({ at_s: number, before: number, after: number, unit: pressureUnit, probability: maybe })
    .optional(),
  settling: z.strictObject({
    time_s: maybe,
    tolerance: maybe,
    unit: pressureUnit,
    finalValue: maybe,
    stillMoving: z.boolean().optional(),
    /** Where it still moves: until it would be within half of the tolerance of the end it goes to; null where it shows none. */
    stillToGo_s: maybe.optional(),
    reason,
  }),
  warmUp: z.strictObject({
    timeConstant_s: maybe,
    low_s: maybe,
    high_s: maybe,
    startTemperature: maybe,
    finalTemperature: maybe,
    unit: temperatureUnit,
    reachedOperating_s: maybe,
    /** How long the run would still have to go on to come within 1 °C of the fitted end; 0 when there. */
    stillToGo_s: maybe.optional(),
    reason,
  }),
  holdTemperature: z.strictObject({ mean: maybe, min: maybe, max: maybe, unit: temperatureUnit, reason }),
  temperatureSensitivity: z.strictObject({ value: maybe, unit: z.string(), low: maybe, high: maybe, reason }),
  /** Pressure against shaft speed, where a sweep is in the log. */
  speedDependence: z
    .strictObject({
      exponent: maybe,
      low: maybe,
      high: maybe,
      kind: z.enum(['level', 'in-proportion', 'between']).nullable(),
      reason,
    })
    .optional(),
  ripple: z.strictObject({
    peakToPeak: maybe,
    unit: pressureUnit,
    frequency_Hz: maybe,
    order: maybe,
    reason,
  }),
  engagements: z.array(engagement),
  releasedPressure: z.strictObject({ value: maybe, unit: pressureUnit, reason }),
  zeroAtRest: z.strictObject({ value: maybe, unit: pressureUnit, reason }),
  leakDown: z.strictObject({
    halfTime_s: maybe,
    /** How long the pressure was watched without falling to half. */
    halfTimeAtLeast_s: maybe.optional(),
    reason,
  }),
  plateauSpread: z.strictObject({ value: maybe, unit: pressureUnit, engagements: count, reason }),
  solenoidCurrent: z.strictObject({
    mean: maybe,
    max: maybe,
    unit: z.enum(['A', 'mA']),
    /** The end of the sensor's range, where the current stood at it: it was at least that. */
    atLeast: maybe.optional(),
    reason,
  }),
  runLength: z.strictObject({ length_s: maybe, reason }).optional(),
  recordCoverage: z.strictObject({ share: maybe, reason }).optional(),
});
export type Quantities = z.infer<typeof quantities>;

export const criterionIds = [
  'operating-pressure',
  'time-in-band',
  'drift',
  'settling',
  'run-length',
  'hold-temperature',
  'peak-pressure',
  'ripple',
  'engagement-rise',
  'engagement-dip',
  'engagement-recovery',
  'fall-after-release',
  'released-pressure',
  'leak-down',
  'plateau-spread',
  'solenoid-current',
  'record-coverage',
] as const;
export type CriterionId = (typeof criterionIds)[number];
export const verdicts = ['pass', 'fail', 'undecided', 'not-assessed'] as const;
export type Verdict = (typeof verdicts)[number];

export const criterion = z.strictObject({
  id: z.enum(criterionIds),
  value: maybe,
  unit: z.string(),
  expandedUncertainty: maybe,
  limits: z.strictObject({ low: maybe, high: maybe }),
  decisionRule: z.enum(['simple', 'guarded']),
  probabilityOfConformity: maybe,
  verdict: z.enum(verdicts),
  reason: z.string(),
});
export type Criterion = z.infer<typeof criterion>;

export const assessmentSchema = z.strictObject({
  format: z.literal('overdrive-bench/assessment'),
  version: z.literal(1),
  program: z.strictObject({ version: z.string() }),
  complete: z.boolean(),
  log: loggedRun,
  settings: z
    .strictObject({
      smoothing,
      settlingTolerance: z.strictObject({ value: maybe, unit: pressureUnit }),
      pressureBehaviour: z.enum(['raised-on-engage', 'held-charged']),
      decisionRule: z.enum(['simple', 'guarded']),
      guardFactor: number,
      coverageProbability: number,
    })
    .catchall(z.unknown()),
  spec: specSchema.nullable(),
  rig: rigSchema.nullable(),
  judged: z.strictObject({
    start_s: maybe,
    end_s: maybe,
    shareOfLog: number,
    joined: count,
    choices: z.array(choice),
  }),
  phases: z.array(phase),
  quantities,
  criteria: z.array(criterion),
  verdict: z.enum(verdicts),
  signs: z.array(
    z.strictObject({
      id: z.string(),
      feature: z.strictObject({ value: number, unit: z.string() }),
      mayPointTo: z.array(z.string()),
      alsoShownBy: z.string(),
    }),
  ),
  remarks: z.array(z.strictObject({ code: z.string(), text: z.string() })),
});
export type Assessment = z.infer<typeof assessmentSchema>;
