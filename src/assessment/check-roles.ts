import type { Channel, Log } from '#formats/log.ts';
import type { Problem, Result } from '#formats/problem.ts';
import { isPressureUnit } from '#units/unit.ts';

/**
 * The one pressure column of a log, or what a person has to say first: there is none, there are two, or its unit is not known.
 * What cannot be told is never guessed.
 */
export function pressureColumn(log: Log): Result<Channel> {
  const file = log.source.fileName;
  const candidates = log.channels.filter((channel) => channel.role === 'pressure');
  const [channel] = candidates;
  const refuse = (problem: Problem): Result<Channel> => ({ ok: false, problems: [problem] });
  // Where several could be it, the reading of the log gave the role to none.
  const open = log.roleCandidates.find(({ role }) => role === 'pressure');
  if (!channel && open !== undefined)
    return refuse({ code: 'several-pressure-columns', file, columns: open.columns });
  if (!channel)
    return refuse({ code: 'no-pressure-column', file, columns: log.channels.map(({ column }) => column) });
  if (candidates.length > 1)
    return refuse({
      code: 'several-pressure-columns',
      file,
      columns: candidates.map(({ column }) => column),
    });
  if (channel.unit === null)
    return refuse({ code: 'pressure-without-unit', file, column: channel.column, median: middle(channel) });
  if (!isPressureUnit(channel.unit))
    return refuse({
      code: 'unit-of-wrong-kind',
      file,
      column: channel.column,
      unit: channel.unit,
      role: 'pressure',
    });
  return { ok: true, value: channel };
}

/** A middle reading, to help tell the unit; null without a reading. */
function middle({ values }: Channel): number | null {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  return sorted[sorted.length >>> 1] ?? null;
}
