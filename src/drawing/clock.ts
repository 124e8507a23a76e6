/** Time of day and date of a log, from its start as logged. No clock and no zone is asked: what the log says is what is printed. */
export interface LogClock {
  /** ISO date of the start, null where only a time of day was logged. */
  date: string | null;
  startSecondOfDay: number;
}

/** @param start as in the assessment: "2026-03-04T08:15:00", perhaps with an offset or Z, or "08:15:00" */
export function logClock(start: string | null): LogClock | null {
  if (start === null) return null;
  const parts = /^(?:(\d{4}-\d{2}-\d{2})[T ])?(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?/.exec(start);
  if (!parts) return null;
  const [, date, hour, minute, second] = parts;
  return {
    date: date ?? null,
    startSecondOfDay: Number(hour) * 3600 + Number(minute) * 60 + Number(second ?? 0),
  };
}

/** "14:18": hour and minute so many seconds after the start, the second cut off as on a clock's face. */
export function clockAt(clock: LogClock, seconds: number): string {
  const of = (value: number): string => String(value).padStart(2, '0');
  const day = 86400;
  // A microsecond keeps 60 × 0.1 s from falling short of the minute.
  const second = (((clock.startSecondOfDay + seconds + 1e-6) % day) + day) % day;
  return `${of(Math.floor(second / 3600))}:${of(Math.floor((second % 3600) / 60))}`;
}
