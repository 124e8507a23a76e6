import type { LoggedRun } from '#formats/assessment.ts';
import { durationText, fixedText, noBreak, shareText } from '#units/number-text.ts';
import type { Block, Unnumbered } from './content.ts';
import { clockText, type Telling } from './sheet-one.ts';

const MOST_GAPS = 3;
const asideKinds = ['missing', 'faultToken', 'outOfRange', 'stuck', 'spike'] as const;
type AsideKind = (typeof asideKinds)[number];
function countsOf(channel: LoggedRun['channels'][number]): Record<AsideKind, number> {
  return {
    missing: channel.missing,
    faultToken: channel.faultTokens,
    outOfRange: channel.outOfRange,
    stuck: channel.stuck,
    spike: channel.spikes,
  };
}

export function setAsideSection(telling: Telling): Unnumbered {
  const { assessment, phrases, numbers } = telling;
  const { setAside: words } = phrases;
  const pressure = assessment.log.channels.find(({ role }) => role === 'pressure');
  const blocks: Block[] = [];
  const sentences: string[] = [];
  const count = (value: number): string => fixedText(value, 0, numbers);
  if (pressure) {
    const counts = countsOf(pressure);
    const found = asideKinds.filter((kind) => counts[kind] > 0);
    if (found.length > 0)
      blocks.push({
        kind: 'table',
        rowHeads: true,
        columns: [
          { head: words.columns.why, share: 0.42 },
          { head: words.columns.count, share: 0.16, right: true },
          { head: words.columns.rule, share: 0.42 },
        ],
        rows: found.map((kind) => [words.why[kind], count(counts[kind]), words.rule[kind]]),
      });
    sentences.push(words.used(count(pressure.valid), count(pressure.samples)));
    const none = asideKinds.filter((kind) => counts[kind] === 0).map((kind) => words.whyPlain[kind]);
    if (none.length > 0) sentences.push(words.noneOf(none));
  }
  for (const channel of assessment.log.channels)
    if (
      channel.role !== null &&
      channel.role !== 'pressure' &&
      channel.role !== 'ignored' &&
      channel.valid < channel.samples
    )
      sentences.push(words.otherChannel(channel.column, count(channel.valid), count(channel.samples)));
  sentences.push(gapWords(telling));
  const share = assessment.quantities.recordCoverage?.share;
  if (share !== undefined && share !== null)
    sentences.push(words.coverage(noBreak(shareText(share, 1, numbers))));
  if (assessment.log.skippedRowCount > 0) sentences.push(words.skippedRows(assessment.log.skippedRowCount));
  blocks.push({ kind: 'paragraph', spans: [{ text: sentences.join(' ') }] });
  return { key: 'set-aside', title: phrases.sections.setAside, place: 'left', blocks };
}

function gapWords({ assessment, phrases, numbers }: Telling): string {
  const { setAside: words } = phrases;
  const { gaps } = assessment.log;
  if (gaps.length === 0) return words.noGap;
  const longest = [...gaps].sort((a, b) => b.end_s - b.start_s - (a.end_s - a.start_s)).slice(0, MOST_GAPS);
  const said = longest
    .sort((a, b) => a.start_s - b.start_s)
    .map(({ start_s, end_s }) =>
      words.gap(
        noBreak(durationText(end_s - start_s, false, numbers)),
        clockText(assessment, start_s),
        clockText(assessment, end_s),
      ),
    );
  if (gaps.length > MOST_GAPS) said.push(words.moreGaps(gaps.length - MOST_GAPS));
  return `${words.gaps(gaps.length)}, ${said.join('; ')}, ${words.notBridged}`;
}
