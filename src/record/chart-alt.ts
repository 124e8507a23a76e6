import { durationText, fixedText, noBreak, statedText, unitLabel, withUnit } from '#units/number-text.ts';
import { averageText, lengths, type Telling } from './sheet-one.ts';
import type { Assessment } from '#formats/assessment.ts';

/** What the chart shows, in sentences, for those who do not see it. Every number comes from the assessment. */
export function chartAlt(telling: Telling): string {
  const { assessment, phrases, earlier, unitRecord } = telling;
  const { alt } = phrases;
  const oil = assessment.log.channels.find(({ role }) => role === 'oil-temperature');
  const sentences = [
    alt.chart(
      unitLabel(assessment.quantities.operatingPressure.unit),
      oil ? unitLabel(assessment.quantities.holdTemperature.unit) : null,
      assessment.settings.pressureBehaviour === 'held-charged',
    ),
  ];
  if (earlier) {
    const step = unitRecord?.adjustments?.[unitRecord.adjustments.length - 1];
    sentences.push(
      alt.firstTest(runWords(earlier.assessment, telling).join(' '), step?.why ?? phrases.chart.shims),
    );
  }
  sentences.push(...runWords(assessment, telling), alt.figures);
  return sentences.join(' ');
}

function runWords(assessment: Assessment, { phrases, numbers }: Telling): string[] {
  const { alt } = phrases;
  const { quantities, spec } = assessment;
  const long = (seconds: number): string => noBreak(durationText(seconds, false, numbers));
  const sentences: string[] = [];
  const final = quantities.settling.finalValue,
    tolerance = quantities.settling.tolerance;
  const peak = quantities.peakPressure.value;
  const { judged_s, warm_s } = lengths(assessment);
  if (
    final !== null &&
    tolerance !== null &&
    peak !== null &&
    peak > final + 2 * tolerance &&
    (warm_s ?? 0) > 0
  )
    sentences.push(alt.startsHigh);
  if (quantities.settling.time_s !== null) sentences.push(alt.settles(long(quantities.settling.time_s)));
  const average = averageText(assessment, numbers);
  if (average && judged_s > 0) sentences.push(alt.stays(average.value, long(judged_s)));
  else sentences.push(alt.notJudged);
  const band = spec?.pressureBand;
  if (band) {
    const limit = (value: number | null | undefined): string | null =>
      value === null || value === undefined ? null : noBreak(withUnit(statedText(value, numbers), band.unit));
    sentences.push(alt.limits(limit(band.low), limit(band.high)));
  }
  for (const gap of assessment.log.gaps.slice(0, 3))
    sentences.push(alt.noReadings(long(gap.end_s - gap.start_s), long(gap.start_s)));
  const { mean, unit } = quantities.holdTemperature;
  if (mean !== null) sentences.push(alt.oil(noBreak(withUnit(fixedText(mean, 1, numbers), unit))));
  return sentences;
}
