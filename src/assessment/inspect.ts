import { inspectChannels } from '#analysis/inspect-channels.ts';
import { readingsOf } from '#analysis/log-readings.ts';
import type { Inspection } from '#formats/assessment.ts';
import type { Log } from '#formats/log.ts';
import { roundedData } from '#formats/number.ts';
import type { Rig } from '#formats/rig.ts';
import { loggedRunOf } from './logged-run.ts';

/** What a log holds: what the file says, and for each channel what would be set aside. Needs no band and no pressure column. @param readings of this log and rig, where they are at hand */
export function inspect(log: Log, rig: Rig | null, readings = readingsOf(log, rig)): Inspection {
  return roundedData({
    format: 'overdrive-bench/inspection' as const,
    version: 1 as const,
    log: loggedRunOf(log, {
      gaps: log.gaps,
      clockSteps: log.clockSteps.map(({ at_s, step_s }) => ({ at_s, step_s })),
      duration_s: log.duration_s,
      channels: inspectChannels(readings),
    }),
    ...(log.remarks.length > 0 ? { remarks: log.remarks } : {}),
  });
}
