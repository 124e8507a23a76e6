import type { LoggedRun } from '#formats/assessment.ts';
import type { Log } from '#formats/log.ts';

/** The log as the assessment and the inspection describe it. */
export function loggedRunOf(
  log: Log,
  judged: Pick<LoggedRun, 'gaps' | 'clockSteps' | 'duration_s' | 'channels'>,
): LoggedRun {
  return {
    ...log.source,
    ...(log.parts.length > 0 ? { parts: log.parts } : {}),
    dialect: log.dialect,
    rows: log.rows,
    skippedRowCount: log.skippedRowCount,
    skippedRows: log.skippedRows,
    timeForm: log.timeForm,
    start: log.start,
    duration_s: judged.duration_s,
    medianInterval_s: Number.isFinite(log.medianInterval_s) ? log.medianInterval_s : null,
    gaps: judged.gaps,
    clockSteps: judged.clockSteps,
    channels: judged.channels,
  };
}
