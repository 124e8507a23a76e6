import { z } from 'zod';
import { pressureUnits } from '#units/pressure.ts';
import { temperatureUnits } from '#units/temperature.ts';
import { unitNames } from '#units/unit.ts';

export const pressureUnit = z.enum(pressureUnits);
export const temperatureUnit = z.enum(temperatureUnits);
export const unitName = z.enum(unitNames);
/** A date as ISO 8601 calendar date, "2026-03-04". */
export const isoDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'a date is written like 2026-03-04')
  .refine(isDay, 'there is no such date');
export const positive = z.number().positive();
export const share = z.number().min(0).max(1);
export const text = z.string().min(1);

/** Limits of an interval, either end may be open; both open, or low at or above high, is refused where it is used. */
export const pressureInterval = z
  .strictObject({
    low: z.number().nullable().optional(),
    high: z.number().nullable().optional(),
    unit: pressureUnit,
  })
  .check(intervalCheck);
export const temperatureInterval = z
  .strictObject({
    low: z.number().nullable().optional(),
    high: z.number().nullable().optional(),
    unit: temperatureUnit,
  })
  .check(intervalCheck);
export type PressureInterval = z.infer<typeof pressureInterval>;
export type TemperatureInterval = z.infer<typeof temperatureInterval>;

function intervalCheck(context: {
  value: { low?: number | null | undefined; high?: number | null | undefined };
  issues: unknown[];
}): void {
  const low = context.value.low ?? null,
    high = context.value.high ?? null;
  const say = (message: string): void =>
    void context.issues.push({ code: 'custom', message, input: context.value });
  if (low === null && high === null) say('give low, high or both');
  else if (low !== null && high !== null && low >= high) say(`low (${low}) must be less than high (${high})`);
}

/** Whether a date of the right form is in the Gregorian calendar. */
function isDay(date: string): boolean {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 ? (leap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
  return month >= 1 && month <= 12 && day >= 1 && day <= days;
}
