import { z } from 'zod';
import { roles, timeForms } from './log.ts';
import { isoDate, positive, text, unitName } from './shared-shapes.ts';

export const distributions = ['rectangular', 'normal', 'triangular', 'arcsine'] as const;
/** Larger numbers are no pressure, temperature or speed in any unit here, and their squares are beyond what a number holds. */
const LARGEST = 1e12;
const bounded = z.number().min(-LARGEST).max(LARGEST);
const size = z.number().nonnegative().max(LARGEST);
const percent = z.number().nonnegative().max(1000);
const factor = z.number().min(0.1).max(100);
const range = z.strictObject({ low: bounded, high: bounded }).check((context) => {
  if (context.value.low >= context.value.high)
    context.issues.push({
      code: 'custom',
      message: `low (${context.value.low}) must be less than high (${context.value.high})`,
      input: context.value,
    });
});

/** No bench logs faster than a million rows a second, or slower than a row a day; what is written beyond is in another unit. */
const SHORTEST_INTERVAL_s = 1e-6;
const LONGEST_INTERVAL_s = 86_400;
const interval_s = z.number().min(SHORTEST_INTERVAL_s).max(LONGEST_INTERVAL_s);

/** One statement about a channel's uncertainty: exactly one of the four sizes. */
export const channelUncertainty = z
  .strictObject({
    name: z.string().optional(),
    percentOfSpan: percent.optional(),
    percentOfReading: percent.optional(),
    /** In the channel's unit. */
    absolute: size.optional(),
    /** In the channel's unit; with its coverageFactor. */
    expanded: size.optional(),
    coverageFactor: factor.optional(),
    distribution: z.enum(distributions).optional(),
    degreesOfFreedom: positive.optional(),
  })
  .check((context) => {
    const u = context.value;
    const sizes = [u.percentOfSpan, u.percentOfReading, u.absolute, u.expanded].filter(
      (size) => size !== undefined,
    ).length;
    const say = (message: string): void => void context.issues.push({ code: 'custom', message, input: u });
    if (sizes !== 1) say('give exactly one of percentOfSpan, percentOfReading, absolute, expanded');
    if (u.expanded !== undefined && u.coverageFactor === undefined) say('expanded needs its coverageFactor');
    if (u.distribution === 'normal' && u.coverageFactor === undefined)
      say('a normal distribution needs its coverageFactor');
  });
export type ChannelUncertainty = z.infer<typeof channelUncertainty>;

export const rigChannel = z
  .strictObject({
    column: text,
    role: z.enum(roles).optional(),
    unit: unitName.optional(),
    range: range.optional(),
    resolution: positive.max(LARGEST).optional(),
    signal: z
      .strictObject({
        kind: z.enum(['4-20mA', '0.5-4.5V', '0-10V', '0-5V', '1-5V']),
        low: bounded,
        high: bounded,
      })
      .optional(),
    uncertainty: z.union([channelUncertainty, z.array(channelUncertainty)]).optional(),
    correction: z
      .strictObject({
        offset: bounded,
        slope: z
          .number()
          .min(-1e6)
          .max(1e6)
          .refine((slope) => slope !== 0, 'slope must not be 0')
          .refine(
            (slope) => slope === 0 || Math.abs(slope) >= 1e-6,
            'slope is under a millionth: nothing is left of the reading',
          ),
      })
      .optional(),
    /** Take the reading at rest off every reading; off unless said. */
    subtractZeroAtRest: z.boolean().optional(),
    name: z.string().optional(),
    identification: z.string().optional(),
    calibratedOn: isoDate.optional(),
    dueOn: isoDate.optional(),
    certificate: z.string().optional(),
  })
  .check((context) => {
    const channel = context.value;
    const list =
      channel.uncertainty === undefined
        ? []
        : Array.isArray(channel.uncertainty)
          ? channel.uncertainty
          : [channel.uncertainty];
    if (
      channel.range === undefined &&
      channel.signal === undefined &&
      list.some((u) => u.percentOfSpan !== undefined)
    )
      context.issues.push({
        code: 'custom',
        message: "percentOfSpan needs the channel's range",
        input: channel,
      });
  });
export type RigChannel = z.infer<typeof rigChannel>;

/** The bench and its logger: how its files read and what its gauges are good for (contract, "Rig"). */
export const rigSchema = z.strictObject({
  format: z.literal('overdrive-bench/rig'),
  version: z.literal(1),
  name: text,
  time: z
    .strictObject({
      column: z.string().optional(),
      dateColumn: z.string().optional(),
      form: z.enum(timeForms).optional(),
      dateOrder: z.enum(['day-month-year', 'month-day-year', 'year-month-day']).optional(),
      interval_s: interval_s.optional(),
    })
    .optional(),
  dialect: z
    .strictObject({
      encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252']).optional(),
      delimiter: z.string().min(1).optional(),
      decimal: z.enum(['.', ',']).optional(),
      headerLine: z.number().int().positive().nullable().optional(),
      unitLine: z.number().int().positive().nullable().optional(),
      /** Of a spreadsheet file: the sheet's name, or its place from 1, hidden ones counted. */
      sheet: z.union([text, z.number().int().positive()]).optional(),
    })
    .optional(),
  channels: z
    .array(rigChannel)
    .check((context) => {
      const seen = new Set<string>();
      for (const [i, { column }] of context.value.entries()) {
        if (seen.has(column))
          context.issues.push({
            code: 'custom',
            message: `column "${column}" is named twice: which of the two counts cannot be told`,
            path: [i, 'column'],
            input: context.value,
          });
        seen.add(column);
      }
    })
    .optional(),
});
export type Rig = z.infer<typeof rigSchema>;
