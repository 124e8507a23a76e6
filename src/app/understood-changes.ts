import { statedText, unitLabel, withUnit } from './shown-numbers.ts';
import type { Understood } from '#worker/messages.ts';
import { roleWords } from './role-words.ts';
import { numbersText, samplingAndGaps, timeText } from './understood-words.ts';

/** What a correction changes of what was understood at first, a line each: "Time: 08:15 to 08:20, was 0 to 5 min". */
export function whatChanges(before: Understood, after: Understood): string[] {
  const from = before.inspection.log,
    to = after.inspection.log;
  const lines: string[] = [];
  const tell = (name: string, was: string, is: string): void => {
    if (was !== is) lines.push(`${name}: ${is}, was ${was}`);
  };
  tell('Columns', before.excerpt.columns.join(', '), after.excerpt.columns.join(', '));
  tell('Rows', String(from.rows), String(to.rows));
  tell('Rows left out', String(from.skippedRowCount), String(to.skippedRowCount));
  tell('Time', timeText(from), timeText(to));
  tell('Starts at', startText(from.start), startText(to.start));
  tell('Sampling', samplingAndGaps(from), samplingAndGaps(to));
  tell('Numbers', numbersText(from), numbersText(to));
  for (const channel of to.channels) {
    const earlier = from.channels.find(({ column }) => column === channel.column);
    if (earlier === undefined) continue;
    const name = channel.column;
    const role = (each: typeof channel): string => (each.role === null ? 'not known' : roleWords[each.role]);
    tell(`${name} is`, role(earlier), role(channel));
    tell(`Unit of ${name}`, unitText(earlier.unit), unitText(channel.unit));
    tell(`Usual reading of ${name}`, usual(earlier), usual(channel));
  }
  return lines;
}

const startText = (start: string | null): string => start?.replace('T', ' ') ?? 'no date';
const unitText = (unit: string | null): string => (unit === null ? 'none' : unitLabel(unit));
function usual({ median, unit }: Understood['inspection']['log']['channels'][number]): string {
  return median === null ? 'none' : withUnit(statedText(Number(median.toPrecision(5))), unit ?? '1');
}
