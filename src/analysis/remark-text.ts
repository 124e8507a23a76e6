import {
  decimalsForStep,
  durationText,
  fixedText,
  shareText,
  statedText,
  withUnit,
} from '#units/number-text.ts';
import type { Situation } from './situation.ts';

/** Words for the numbers of a run's remarks: pressures to a fiftieth of the tolerance, temperatures to a tenth. */
export interface Words {
  pressure: (value: number) => string;
  temperature: (value: number) => string;
  duration: (seconds: number) => string;
  share: (share: number) => string;
  count: (n: number, one: string, many: string) => string;
  /** A log position, "2 h 31 min into the log". */
  place: (t_s: number) => string;
}

/** The words for a situation's units. */
export function wordsFor({ unit, tolerance, band, reading, oil }: Situation): Words {
  const scale = tolerance ?? 0.02 * Math.abs(band?.low ?? band?.high ?? reading.level.sustained ?? 1);
  const decimals = decimalsForStep(Math.max(scale, Number.MIN_VALUE) / 50);
  return {
    pressure: (value) => withUnit(fixedText(value, decimals), unit),
    temperature: (value) => withUnit(fixedText(value, 1), oil?.unit ?? 'degC'),
    duration: (seconds) => durationText(seconds),
    share: (share) => shareText(share, 0),
    count: (n, one, many) => `${statedText(n)} ${n === 1 ? one : many}`,
    place: (t_s) => `${durationText(t_s)} into the log`,
  };
}
