import type { Quantities } from '#formats/assessment.ts';
import { log } from '#statistics/elementary.ts';
import { fitLine } from '#statistics/fit-line.ts';
import { lagOneCorrelation, serialWidening } from '#statistics/lag-one-correlation.ts';
import { median } from '#statistics/median.ts';
import { studentTQuantile } from '#statistics/student-t.ts';
import { extentsOf } from '#statistics/extents.ts';
import { windowOf } from './set-aside.ts';
import type { Situation } from './situation.ts';
import { at, rowFrom } from './timeline.ts';

/** Blocks of so long, or so many samples: a sweep rests on each speed for minutes. */
const BLOCK_s = 10;
const BLOCK_SAMPLES = 3;
/** Speed within a block may vary by this share: on the way from one speed to the next the pressure lags. */
const STEADY_SHARE = 0.05;
/** A sweep spans at least this factor. */
const SWEEP_FACTOR = 1.3;
const BLOCKS_NEEDED = 6;
/** Nearer to the factor than this, the logarithms decide. */
const ROUNDING = 1e-9;
/** Exponents of pressure against speed: up to this the relief is in control, from that on pressure goes with speed. Common practice, no source. */
const LEVEL_UP_TO = 0.2;
const PROPORTION_FROM = 0.7;
const QUANTILE = 0.975;

type SpeedDependence = NonNullable<Quantities['speedDependence']>;

/**
 * Pressure against shaft speed where a sweep is in the log: the exponent b of p ∝ nᵇ by least squares of the logarithms of block
 * medians; 0 is a relief in control, 1 and more is pressure that goes with speed (the relief is not in control).
 * @returns undefined without a speed channel
 */
export function speedDependence({
  timeline,
  run,
  hold,
  reading,
  shaft,
}: Situation): SpeedDependence | undefined {
  if (!shaft) return undefined;
  const none = (reason: string): SpeedDependence => ({
    exponent: null,
    low: null,
    high: null,
    kind: null,
    reason,
  });
  const pieces = hold?.pieces ?? run?.pieces;
  if (!pieces) return none('there is no run');
  // A shaft that was never turned much faster at one time than at another: its blocks were not either.
  const range = extentsOf(shaft.speed).of(pieces);
  if (range !== null && range.min > 0 && range.max < SWEEP_FACTOR * (1 - ROUNDING) * range.min)
    return none('the shaft speed was not varied enough to tell');
  const { time_s } = timeline,
    block_s = windowOf(timeline, BLOCK_s, BLOCK_SAMPLES);
  const logSpeed: number[] = [],
    logPressure: number[] = [];
  for (const piece of pieces)
    for (let from = piece.from; from < piece.to;) {
      const to = Math.min(piece.to, Math.max(from + 1, rowFrom(time_s, at(time_s, from) + block_s)));
      let low = Infinity,
        high = -Infinity;
      for (let i = from; i < to; i++) {
        low = Math.min(low, shaft.speed[i] ?? NaN);
        high = Math.max(high, shaft.speed[i] ?? NaN);
      }
      const pressure = median(reading.kept.subarray(from, to));
      if (low > 0 && high - low <= STEADY_SHARE * high && pressure > 0) {
        logSpeed.push(log(median(shaft.speed.subarray(from, to))));
        logPressure.push(log(pressure));
      }
      from = to;
    }
  let least = Infinity,
    most = -Infinity;
  for (const value of logSpeed) {
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  if (logSpeed.length < BLOCKS_NEEDED || !(most - least >= log(SWEEP_FACTOR)))
    return none('the shaft speed was not varied enough to tell');
  const line = fitLine(logSpeed, logPressure);
  if (!line) return none('the shaft speed was not varied enough to tell');
  const residuals = logPressure.map((y, i) => y - line.intercept - line.slope * (logSpeed[i] ?? NaN));
  const half =
    studentTQuantile(QUANTILE, line.degreesOfFreedom) *
    line.slopeStandardError *
    serialWidening(lagOneCorrelation(residuals));
  const low = line.slope - half,
    high = line.slope + half;
  return {
    exponent: line.slope,
    low,
    high,
    kind: low >= PROPORTION_FROM ? 'in-proportion' : high <= LEVEL_UP_TO ? 'level' : 'between',
  };
}
