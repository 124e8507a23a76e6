import type { Assessment, Criterion, Verdict } from '#formats/assessment.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import { allowedText, valueText, verdictWords } from '#formats/criterion-text.ts';
import { signMeaning, signText } from '#formats/sign-text.ts';
import { asSentence, fixedText, shareText } from '#units/number-text.ts';
import { figureRows } from './figure-rows.ts';
import { listLines, part } from './list-lines.ts';
import { positionText, rowsText, setAsideText, skippedText, timeLines } from './log-words.ts';
import type { Ink, Terminal } from './terminal.ts';
import { paragraphLines, tableLines, type Row } from './text-table.ts';

const inkOf: Readonly<Record<Verdict, Ink>> = {
  pass: 'pass',
  fail: 'fail',
  undecided: 'open',
  'not-assessed': 'open',
};
/** What needs looking at comes first. */
const order: readonly Verdict[] = ['fail', 'undecided', 'not-assessed', 'pass'];

/** An assessment for people: the verdict in words, each limit with what was found, figures, what was judged, remarks. */
export function assessmentText(assessment: Assessment, terminal: Terminal): string {
  const { verdict, criteria, remarks, signs, log } = assessment;
  return [
    `${terminal.ink('strong', terminal.ink(inkOf[verdict], verdictWords[verdict]))}  ${log.fileName ?? (log.parts ? `${log.parts.length} files` : 'standard input')}`,
    ...headlines(assessment).flatMap((text) => paragraphLines(text, terminal)),
    ...(criteria.length === 0
      ? []
      : ['', ...tableLines(['', 'Limit on', 'Found', 'Allowed'], criterionRows(assessment), terminal)]),
    ...part('Figures', tableLines(['', ''], figureRows(assessment), terminal), terminal),
    ...part('What was judged', listLines(judgedLines(assessment), terminal), terminal),
    ...part(
      'Signs',
      listLines(
        signs.map((sign) => `${asSentence(signText(sign))} ${signMeaning(sign)}`),
        terminal,
      ),
      terminal,
    ),
    ...part(
      'Remarks',
      listLines(
        remarks.map(({ text }) => text),
        terminal,
      ),
      terminal,
    ),
    '',
    ...(log.parts ?? [log]).map(
      ({ fileName, sha256 }) => `SHA-256 ${sha256 ?? ''}  ${fileName ?? 'standard input'}`,
    ),
    '',
  ].join('\n');
}

/** The sentences under the verdict: the limit that decided it, and how many there are. */
function headlines({ verdict, criteria }: Assessment): string[] {
  const first = decidingOf(verdict, criteria);
  if (!first) return ['No limit was given: the run is described, nothing is judged.'];
  const counts = order
    .map((each) => [each, criteria.filter((criterion) => criterion.verdict === each).length] as const)
    .filter(([, count]) => count > 0);
  const [only, ...others] = counts;
  const total = criteria.length;
  const sentence =
    others.length === 0 && only
      ? `${total === 1 ? 'The one limit' : `All ${total} limits`} ${countWords(only[0], total)}.`
      : `Of ${total} limits ${counts.map(([each, count]) => `${count} ${countWords(each, count)}`).join(', ')}.`;
  return [asSentence(first.reason), sentence];
}

/** The limit that the verdict hangs on: the pressure's own, else the first that came out so. */
function decidingOf(verdict: Verdict, criteria: readonly Criterion[]): Criterion | undefined {
  const deciding = criteria.filter((criterion) => criterion.verdict === verdict);
  return deciding.find(({ id }) => id === 'operating-pressure') ?? deciding[0];
}

/** "is not met", "are undecided". */
function countWords(verdict: Verdict, count: number): string {
  const how = { fail: 'not met', undecided: 'undecided', 'not-assessed': 'not assessed', pass: 'met' }[
    verdict
  ];
  return `${count === 1 ? 'is' : 'are'} ${how}`;
}

/** A row for each limit. The reason of the first stands above the table already. */
function criterionRows({ verdict: overall, criteria }: Assessment): Row[] {
  const told = decidingOf(overall, criteria);
  return [...criteria]
    .sort((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict))
    .map((criterion): Row => {
      const { verdict, id, reason } = criterion;
      return {
        cells: [
          { text: verdictWords[verdict], ink: inkOf[verdict] },
          { text: criterionNames[id].engineer },
          { text: foundText(criterion) },
          { text: allowedText(criterion) },
        ],
        ...((verdict === 'pass' && criterion.value !== null) || criterion === told
          ? {}
          : { under: asSentence(reason) }),
      };
    });
}

/** The value; of a settling that fails without one, that it never came. */
function foundText(criterion: Criterion): string {
  return criterion.id === 'settling' && criterion.value === null && criterion.verdict === 'fail'
    ? 'never'
    : valueText(criterion);
}

/** What part of the log was judged, what was set aside, by what rule. */
function judgedLines({ judged, quantities, settings, log }: Assessment): string[] {
  const { start_s, end_s } = quantities.operatingPressure;
  const aside = log.channels
    .map((channel) => [channel.column, setAsideText(channel)] as const)
    .filter(([, text]) => text !== '')
    .map(([column, text]) => `${column}: ${text}`);
  const run =
    judged.start_s === null || judged.end_s === null
      ? 'No run was found in the log'
      : `The run from ${positionText(judged.start_s)} to ${positionText(judged.end_s)}, ${shareText(judged.shareOfLog)} of the log${judged.joined > 1 ? `, ${fixedText(judged.joined, 0)} pieces joined` : ''}`;
  const hold =
    start_s === null || end_s === null
      ? ''
      : `; the hold from ${positionText(start_s)} to ${positionText(end_s)}`;
  return [
    `${run}${hold}. The log has ${rowsText(log)}.`,
    ...timeLines(log),
    ...[skippedText(log)].filter((text) => text !== ''),
    aside.length === 0 ? 'No reading was set aside.' : `Set aside: ${aside.join('. ')}.`,
    `Smoothing: ${settings.smoothing.method}${settings.smoothing.method === 'none' ? '' : ` over ${fixedText(settings.smoothing.window_s, 0)} s`}. Rule: ${settings.decisionRule === 'guarded' ? 'guarded, the uncertainty is kept clear of the limits' : 'simple, the reading alone counts'}.`,
    ...judged.choices.map(
      ({ what, by, why, on }) => `By hand: ${what}, by ${by}${on === undefined ? '' : ` on ${on}`}: ${why}`,
    ),
  ];
}
