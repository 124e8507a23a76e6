import { z } from 'zod';
import { pressureFactor } from '#units/pressure.ts';
import {
  positive,
  pressureInterval,
  pressureUnit,
  share,
  temperatureInterval,
  text,
} from './shared-shapes.ts';

export const smoothingMethods = ['median', 'mean', 'savitzky-golay', 'none'] as const;
export const smoothing = z.strictObject({
  method: z.enum(smoothingMethods),
  /** Ten minutes at most, as long as the pressure must be steady for a hold: a longer window would hide what is judged. */
  window_s: positive.max(600),
});
export type Smoothing = z.infer<typeof smoothing>;

const pressureAtMost = z.strictObject({ atMost: positive, unit: pressureUnit });

/** The limits a unit is judged by, and the choices that go with them (contract, "Spec"). All but format, version, name and band may be left out. */
export const specSchema = z
  .strictObject({
    format: z.literal('overdrive-bench/spec'),
    version: z.literal(1),
    name: text,
    source: z.string().optional(),
    pressureBehaviour: z.enum(['raised-on-engage', 'held-charged']).optional(),
    pressureBand: pressureInterval,
    decisionRule: z.enum(['simple', 'guarded']).optional(),
    guardFactor: positive.optional(),
    runLength: z.strictObject({ atLeast_h: positive }).optional(),
    operatingTemperature: temperatureInterval.optional(),
    settling: z
      .strictObject({
        tolerance: positive.optional(),
        unit: pressureUnit.optional(),
        within_min: positive.optional(),
      })
      .check((context) => {
        if ((context.value.tolerance === undefined) !== (context.value.unit === undefined))
          context.issues.push({
            code: 'custom',
            message: 'tolerance and unit go together',
            input: context.value,
          });
      })
      .optional(),
    drift: pressureAtMost.optional(),
    timeInBand: z.strictObject({ atLeast: share }).optional(),
    peakPressure: pressureAtMost.optional(),
    ripple: pressureAtMost.optional(),
    plateauSpread: pressureAtMost.optional(),
    releasedPressure: pressureAtMost.optional(),
    engagementRise: z.strictObject({ atMost_s: positive }).optional(),
    fallAfterRelease: z.strictObject({ atMost_s: positive }).optional(),
    engagementDip: z.strictObject({ atMost: share.optional(), recovered_s: positive.optional() }).optional(),
    leakDown: z.strictObject({ halfTimeAtLeast_s: positive }).optional(),
    solenoidCurrent: z.strictObject({ atMost: positive, unit: z.enum(['A', 'mA']) }).optional(),
    recordCoverage: z.strictObject({ atLeast: share }).optional(),
    smoothing: smoothing.optional(),
  })
  .check((context) => {
    const { settling, pressureBand } = context.value;
    const nearer = Math.max(pressureBand.low ?? 0, 0) || (pressureBand.high ?? 0);
    if (settling?.tolerance === undefined || settling.unit === undefined || nearer <= 0) return;
    const tolerance = settling.tolerance * pressureFactor(settling.unit, pressureBand.unit);
    if (tolerance > nearer * (1 + 1e-9))
      context.issues.push({
        code: 'custom',
        path: ['settling', 'tolerance'],
        message: `a tolerance over the band's own limit (${nearer} ${pressureBand.unit}) takes a unit without pressure for settled`,
        input: context.value,
      });
  });
export type Spec = z.infer<typeof specSchema>;
