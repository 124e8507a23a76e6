/** Between colons, and whether it can be nothing but a length of time: `5m 3s`, `PT8H`; `08h15m00s` may be a time of day as well. */
export interface LetteredTime {
  text: string;
  isLength: boolean;
}

/** A duration of ISO 8601 (4.4.3) in days and less: `PT1H5M3.5S`, `P1DT2H`. Years and months are no fixed length. */
const iso = /^P(?=.)(?:(\d+)D)?(?:T(?=\d)(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)(?:[.,](\d+))?S)?)?$/u;
/** `P1D` and `PT2S` are names of pressure taps as well as durations of one part. */
const tag = /^P(?:\d+D|T\d+[HMS])$/u;
/** Numbers with letters or words behind them (English and German, from memory of such exports), the largest first. */
const lettered =
  /^(?:(\d+) ?(?:d|days?|tage?)[ ,]*)?(?:(\d+) ?(?:h|hrs?|hours?|std|stunden?)\.?[ ,]*)?(?:(\d+) ?(?:m|mins?|minutes?|minuten?)\.?[ ,]*)?(?:(\d+)(?:[.,](\d+))? ?(?:s|secs?|seconds?|sek|sekunden?)\.?)?$/iu;
/** `08h15`, as French has it. */
const hourAndMinutes = /^(\d{1,2}) ?h ?(\d{2})$/iu;
/** What the numbers between colons are: `0:05:03 h`, `08:15 Uhr`, `5:03 min`. */
const hoursBehind = /^(\d+:\d{2})(:\d{2}(?:[.,]\d+)?)? ?(?:h|hrs?|hours|std\.?|stunden|uhr|o'clock)$/iu;
const minutesBehind = /^(\d+):(\d{2}(?:[.,]\d+)?) ?(?:min|mins|minutes|minuten)\.?$/iu;
const anyLetter = /[dhms]/iu;

const two = (value: number): string => String(value).padStart(2, '0');

/** Whether a cell is a length or a time of day in letters by itself, without a heading that says so. */
export const isSurelyLettered = (text: string): boolean =>
  !tag.test(text) && letteredTime(text, false) !== null;

/**
 * A time whose parts bear letters, written between colons. Two parts at least: `5 m` is a length of something as well.
 * @param single takes one part alone too, in a column that is known to hold times
 * @returns null for any other text
 */
export function letteredTime(text: string, single: boolean): LetteredTime | null {
  if (!anyLetter.test(text)) return null;
  const duration = iso.exec(text);
  const parts = duration ?? lettered.exec(text);
  if (parts !== null) {
    const [, days, hours, minutes, seconds, fraction = ''] = parts;
    const given = [days, hours, minutes, seconds].filter((part) => part !== undefined);
    if (given.length < (single || duration !== null ? 1 : 2)) return null;
    const padded = [minutes, seconds].every((part) => part === undefined || part.length === 2);
    const total =
      Number(days ?? 0) * 86400 +
      Number(hours ?? 0) * 3600 +
      Number(minutes ?? 0) * 60 +
      Number(seconds ?? 0);
    if (!Number.isSafeInteger(total)) return null;
    return {
      text: `${Math.floor(total / 3600)}:${two(Math.floor(total / 60) % 60)}:${two(total % 60)}${fraction === '' ? '' : `.${fraction}`}`,
      isLength: duration !== null || days !== undefined || hours === undefined || !padded,
    };
  }
  const hour = hourAndMinutes.exec(text);
  if (hour !== null) return { text: `${hour[1] ?? ''}:${hour[2] ?? ''}:00`, isLength: false };
  const behind = hoursBehind.exec(text);
  if (behind !== null) return { text: `${behind[1] ?? ''}${behind[2] ?? ':00'}`, isLength: false };
  const minute = minutesBehind.exec(text);
  if (minute === null) return null;
  const all = Number(minute[1]);
  return { text: `${Math.floor(all / 60)}:${two(all % 60)}:${minute[2] ?? ''}`, isLength: true };
}
