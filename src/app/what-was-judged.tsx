import { durationText, fixedText, noBreak, shareText, statedText, withUnit } from './shown-numbers.ts';
import type { Assessment } from '#formats/assessment.ts';
import { decimalsForUncertainty } from '#units/number-text.ts';
import type { Run } from './state.ts';
import { samplingText, setAsideText } from './understood-words.ts';

/** Which part of the log the verdict speaks of, and on what. */
export function WhatWasJudged(props: {
  run: Run;
  /** Its assessment in the units for viewing. */
  viewed: Assessment;
}): React.ReactElement {
  const { run, viewed } = props;
  const { log, judged, phases, quantities } = viewed;
  const holds = phases.filter(({ kind }) => kind === 'hold');
  const hold_s = holds.reduce((sum, { start_s, end_s }) => sum + end_s - start_s, 0);
  // As the strip has it, which goes across what has no record.
  const span_s = (holds.at(-1)?.end_s ?? 0) - (holds[0]?.start_s ?? 0);
  const holdText =
    durationText(hold_s) === durationText(span_s)
      ? durationText(hold_s)
      : `${durationText(hold_s)} on record of ${durationText(span_s)}`;
  const pressure = log.channels.find(({ role }) => role === 'pressure');
  const oil = quantities.holdTemperature;
  const lines: (readonly [string, string])[] = [
    [
      'Part',
      hold_s === 0
        ? `no hold: ${quantities.operatingPressure.reason ?? 'nothing could be judged'}`
        : `the hold, ${holdText}${judged.start_s === null ? '' : `, of a run that began ${durationText(judged.start_s)} into the log`}`,
    ],
    ['Of the log', `${shareText(judged.shareOfLog, 0)} of ${durationText(log.duration_s)}`],
    ...(judged.joined > 1 ? [['Joined', `${judged.joined} stretches`] as const] : []),
    [
      'Readings',
      `${fixedText(log.rows, 0)}, ${samplingText(log.medianInterval_s)}${pressure === undefined ? '' : `; set aside ${setAsideText(pressure)}`}`,
    ],
    ...(oil.mean === null
      ? []
      : [
          [
            'Oil',
            `${withUnit(fixedText(oil.mean, 1), oil.unit)} on the mean over the hold${oil.min === null || oil.max === null ? '' : `, ${fixedText(oil.min, 1)} to ${withUnit(fixedText(oil.max, 1), oil.unit)}`}`,
          ] as const,
        ]),
    ['Gauge', gaugeText(viewed)],
    ...(log.parts ?? [log]).map(
      ({ fileName, bytes }, index, { length }) =>
        [
          length === 1 ? 'File' : `Part ${index + 1} of ${length}`,
          `${fileName ?? 'unnamed'}, ${fixedText(bytes, 0)} bytes`,
        ] as const,
    ),
    ['Kept', keptText(run)],
    ...(log.parts ?? [log]).flatMap(({ sha256 }, index, { length }) =>
      sha256 === null
        ? []
        : [[length === 1 ? 'SHA-256' : `SHA-256 of part ${index + 1}`, grouped(sha256)] as const],
    ),
  ];
  return (
    <section aria-labelledby="judged">
      <h2 id="judged">What was judged</h2>
      <dl className="facts">
        {lines.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{noBreak(value)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function keptText({ kept }: Run): string {
  if (kept === 'keeping') return 'being kept …';
  return kept === 'kept' ? 'on this computer, in this browser’s book' : 'not kept';
}
const grouped = (hash: string): string => hash.replace(/(.{8})(?=.)/gu, '$1 ');

function gaugeText(assessment: Assessment): string {
  const column = assessment.log.channels.find(({ role }) => role === 'pressure')?.column;
  const channel = assessment.rig?.channels?.find((each) => each.column === column);
  const { expandedUncertainty, unit, coverageFactor } = assessment.quantities.operatingPressure;
  if (channel?.uncertainty === undefined) return 'its uncertainty is not stated, and not counted';
  const name = [channel.name, channel.identification].filter((part) => part !== undefined).join(' ');
  const range =
    channel.range === undefined || channel.unit === undefined
      ? ''
      : `${statedText(channel.range.low)} to ${withUnit(statedText(channel.range.high), channel.unit)}`;
  const U =
    expandedUncertainty === null || expandedUncertainty <= 0
      ? ''
      : `U ${withUnit(fixedText(expandedUncertainty, decimalsForUncertainty(expandedUncertainty)), unit)}${coverageFactor === null ? '' : `, k ${fixedText(coverageFactor, 2)}`}`;
  return [name, range, U].filter((part) => part !== '').join(', ');
}
