import type { Assessment } from '#formats/assessment.ts';
import { allowedText, durationText, fixedText, unitLabel, valueText } from '#app/shown-numbers.ts';
import { convertTemperature } from '#units/temperature.ts';
import type { Frame } from './frame.ts';
import { phaseWords } from './phase-labels.ts';
import { figureDecimals } from './read-out.ts';
import type { RunView } from './run-view.ts';
import { countOf } from './set-aside-runs.ts';

/** The strip in a few sentences, for those who do not see it. */
export function summarySentences(view: RunView, frame: Frame, assessment: Assessment): string {
  const sentences = [`Pressure against time over ${durationText(view.end_s)}.`];
  const parts = view.parts
    .filter(({ kind }) => kind !== 'gap')
    .map(({ kind, start_s, end_s }) => `${phaseWords[kind].toLowerCase()} ${durationText(end_s - start_s)}`);
  if (parts.length > 0 && parts.length <= 8) sentences.push(`In order: ${parts.join(', ')}.`);
  else if (parts.length > 0) sentences.push(`${parts.length} parts.`);
  const criterion = assessment.criteria.find(({ id }) => id === 'operating-pressure');
  if (criterion !== undefined)
    sentences.push(
      `Over the hold ${valueText(criterion) || 'no value'}; asked for: ${allowedText(criterion)}${criterion.unit === frame.unit ? '' : ', as judged'}.`,
    );
  if (view.judged !== null) {
    const figure = (value: number): string => fixedText(value * frame.factor, figureDecimals(frame.unit));
    sentences.push(
      `The smoothed pressure of the hold lies between ${figure(view.judged.lowest)} and ${figure(view.judged.highest)} ${unitLabel(frame.unit)}.`,
    );
  }
  if (view.settled !== null) sentences.push(`Settled after ${durationText(view.settled.time_s)}.`);
  const { oil } = view;
  if (oil !== null && frame.temperatureUnit !== null) {
    const unit = frame.temperatureUnit;
    const shown = (value: number): string => fixedText(convertTemperature(value, oil.unit, unit), 0);
    sentences.push(
      `Oil from ${shown(oil.extent.lowest)} to ${shown(oil.extent.highest)} ${unitLabel(unit)}.`,
    );
  }
  if (view.gaps.length > 0) {
    const lost = view.gaps.reduce((sum, { start_s, end_s }) => sum + end_s - start_s, 0);
    sentences.push(
      view.gaps.length === 1
        ? `One part without record, ${durationText(lost)}.`
        : `${view.gaps.length} parts without record, ${durationText(lost)} together.`,
    );
  }
  const count = countOf(view.setAside);
  if (count > 0) sentences.push(`${count} readings set aside.`);
  return sentences.join(' ');
}
