import type { ChannelUncertainty, RigChannel } from '#formats/rig.ts';
import { durationText, noBreak, statedText, withUnit } from '#units/number-text.ts';
import type { Block, Cell, Unnumbered } from './content.ts';
import { joinTexts, type Telling } from './sheet-one.ts';

/** Gauges and probes of the bench, with what they are good for and until when: the rig's, then those that only the unit record names. */
export function instrumentsSection({ assessment, unitRecord, phrases, numbers }: Telling): Unnumbered {
  const { instruments: words } = phrases;
  const channels = (assessment.rig?.channels ?? []).filter(
    ({ role }) => role !== undefined && role !== 'ignored',
  );
  const listed = unitRecord?.instruments ?? [];
  const rows: Cell[][] = channels.filter(stated).map((channel) => {
    // What the shop wrote of the same instrument fills in what the rig file leaves open.
    const own = listed.find(
      ({ identification }) => identification !== undefined && identification === channel.identification,
    );
    return [
      joinTexts(
        [channel.name ?? words.roles[channel.role ?? ''] ?? channel.column, channel.identification],
        ' ',
      ),
      rangeWords(channel),
      channel.calibratedOn ?? own?.calibratedOn ?? words.notSet,
      channel.dueOn ?? own?.dueOn ?? words.notSet,
    ];
  });
  const known = new Set(channels.map(({ identification }) => identification));
  for (const instrument of listed)
    if (instrument.identification === undefined || !known.has(instrument.identification))
      rows.push([
        joinTexts([instrument.name, instrument.identification], ' '),
        joinTexts([instrument.certificate]),
        instrument.calibratedOn ?? words.notSet,
        instrument.dueOn ?? words.notSet,
      ]);
  const pressure = assessment.log.channels.find(({ role }) => role === 'pressure');
  const { medianInterval_s } = assessment.log;
  const inSpans = channels.some(({ uncertainty }) =>
    [uncertainty ?? []].flat().some(({ percentOfSpan }) => percentOfSpan !== undefined),
  );
  const interval: Block[] =
    medianInterval_s === null
      ? []
      : [
          {
            kind: 'paragraph',
            spans: [
              ...(inSpans ? [{ text: `${words.ofSpan} ` }] : []),
              {
                text: words.interval(
                  noBreak(
                    medianInterval_s < 1
                      ? withUnit(statedText(medianInterval_s, numbers), 's')
                      : durationText(medianInterval_s, true, numbers),
                  ),
                  pressure?.column ?? null,
                ),
              },
            ],
          },
        ];
  return {
    key: 'instruments',
    title: phrases.sections.instruments,
    place: 'right',
    blocks:
      rows.length === 0
        ? [{ kind: 'paragraph', spans: [{ text: words.none }] }, ...interval]
        : [
            {
              kind: 'table',
              rowHeads: true,
              columns: [
                { head: words.columns.instrument, share: 0.28 },
                { head: words.columns.range, share: 0.34 },
                { head: words.columns.calibrated, share: 0.19 },
                { head: words.columns.due, share: 0.19 },
              ],
              rows,
            },
            ...interval,
          ],
  };

  function rangeWords(channel: RigChannel): string {
    const span = channel.range ?? channel.signal;
    const unit =
      channel.unit ?? assessment.log.channels.find(({ column }) => column === channel.column)?.unit ?? '1';
    const list = channel.uncertainty === undefined ? [] : [channel.uncertainty].flat();
    return joinTexts([
      span === undefined
        ? null
        : rangeText(span.low, noBreak(withUnit(statedText(span.high, numbers), unit))),
      ...list.map((part) => sizeWords(part, unit)),
    ]);
  }
  /** A gauge from zero is called by its end: "600 psi". */
  function rangeText(low: number, high: string): string {
    return low === 0 ? high : phrases.between(statedText(low, numbers), high);
  }
  function sizeWords(part: ChannelUncertainty, unit: string): string {
    const percent = (value: number): string => noBreak(`${statedText(value, numbers)} %`);
    if (part.percentOfSpan !== undefined) return percent(part.percentOfSpan);
    if (part.percentOfReading !== undefined) return words.ofReading(percent(part.percentOfReading));
    const size = part.absolute ?? part.expanded;
    return size === undefined ? '' : `±\u00a0${noBreak(withUnit(statedText(size, numbers), unit))}`;
  }
}

/** Whether the rig says anything about an instrument beyond where its column is. */
function stated(channel: RigChannel): boolean {
  return (
    channel.identification !== undefined ||
    channel.uncertainty !== undefined ||
    channel.calibratedOn !== undefined ||
    channel.range !== undefined
  );
}
