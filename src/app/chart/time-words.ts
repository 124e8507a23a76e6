import { fieldNumber, fixedText, NO_BREAK_SPACE as NB } from '#app/shown-numbers.ts';
import { logClock } from '#drawing/clock.ts';

/** Time of day of a log, as its own clock showed it; steps of that clock that the time axis has taken out are put back in. */
export type ClockText = (at_s: number, decimals?: number) => string;

/**
 * @param start as logged
 * @returns null for a log that has no time of day
 */
export function clockOf(
  start: string | null,
  steps: readonly { at_s: number; step_s: number }[],
): ClockText | null {
  const clock = logClock(start);
  if (clock === null) return null;
  const day = 86400;
  return (at_s, decimals = 0) => {
    let second = clock.startSecondOfDay + at_s;
    for (const step of steps) if (at_s > step.at_s) second += step.step_s;
    // Half of the last place is not added: a clock shows the second that has begun. A microsecond keeps 60 × 0.1 s from falling short.
    second = (((second + 1e-6) % day) + day) % day;
    const two = (value: number): string => String(value).padStart(2, '0');
    const scale = decimals > 0 ? Number(`1e${decimals}`) : 1;
    const whole = Math.floor(second);
    const rest =
      decimals > 0
        ? fieldNumber(`.${String(Math.floor((second - whole) * scale)).padStart(decimals, '0')}`)
        : '';
    return `${two(Math.floor(whole / 3600))}:${two(Math.floor((whole % 3600) / 60))}:${two(whole % 60)}${rest}`;
  };
}

/** Digits of a second at which neighbouring readings can be told apart. */
export function secondDecimals(interval_s: number): number {
  if (!(interval_s > 0) || interval_s >= 0.95) return 0;
  return Math.min(3, Math.ceil(-Math.log10(interval_s) - 1e-6));
}

/** Time since the first row, to the second or finer: "2 h 45 min", "2 h 45 min 12 s", "4.25 s"; "0" at the start. */
export function sinceStart(at_s: number, decimals = 0): string {
  const scale = Number(`1e${decimals}`);
  const total = Math.round(at_s * scale) / scale;
  const hours = Math.floor(total / 3600),
    minutes = Math.floor((total - hours * 3600) / 60);
  const seconds = Number((total - hours * 3600 - minutes * 60).toFixed(decimals));
  const parts: string[] = [];
  if (hours > 0) parts.push(`${hours}${NB}h`);
  if (minutes > 0) parts.push(`${minutes}${NB}min`);
  if (seconds > 0) parts.push(`${fixedText(seconds, decimals)}${NB}s`);
  return parts.length === 0 ? '0' : parts.join(' ');
}
