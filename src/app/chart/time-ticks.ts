import { multiples } from './round-steps.ts';

export interface TimeTick {
  at_s: number;
  /** Long ones carry a number. */
  long: boolean;
}
export interface TimeTicks {
  ticks: TimeTick[];
  /** Between two long ticks. */
  step_s: number;
}

const MINUTE = 60,
  HOUR = 3600,
  DAY = 86400;
/** Long and short ticks, fine to coarse: 1-2-5 steps of seconds and minutes, then hours as on a clock. */
const steps: readonly (readonly [number, number])[] = [
  [0.01, 0.002],
  [0.02, 0.005],
  [0.05, 0.01],
  [0.1, 0.02],
  [0.2, 0.05],
  [0.5, 0.1],
  [1, 0.2],
  [2, 0.5],
  [5, 1],
  [10, 2],
  [20, 5],
  [30, 5],
  [MINUTE, 10],
  [2 * MINUTE, 30],
  [5 * MINUTE, MINUTE],
  [10 * MINUTE, 2 * MINUTE],
  [20 * MINUTE, 5 * MINUTE],
  [30 * MINUTE, 5 * MINUTE],
  [HOUR, 10 * MINUTE],
  [2 * HOUR, 30 * MINUTE],
  [6 * HOUR, HOUR],
  [12 * HOUR, 2 * HOUR],
  [DAY, 4 * HOUR],
  [2 * DAY, 12 * HOUR],
  [7 * DAY, DAY],
];

/**
 * @param from_s shown part
 * @param length px of the axis
 * @param apart px that two numbers need
 */
export function timeTicks(from_s: number, to_s: number, length: number, apart: number): TimeTicks {
  const perPx = (to_s - from_s) / length;
  const [step_s, short_s] = steps.find(([long]) => long >= perPx * apart) ?? [28 * DAY, 7 * DAY];
  const ratio = Math.round(step_s / short_s);
  return {
    step_s,
    ticks: multiples(short_s, from_s, to_s).map((at_s) => ({
      at_s,
      long: Math.round(at_s / short_s) % ratio === 0,
    })),
  };
}
