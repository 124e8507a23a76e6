import type { LoggedRun } from '#formats/assessment.ts';
import type { Role } from '#formats/log.ts';
import { fixedText, unitLabel, withUnit } from './shown-numbers.ts';
import { pressureUnits, type PressureUnit } from '#units/pressure.ts';

import { convert, isPressureUnit, isTemperatureUnit, type UnitName } from '#units/unit.ts';
import type { ColumnOverride } from '#worker/messages.ts';
import { roleWords } from './role-words.ts';

export type LoggedChannel = LoggedRun['channels'][number];

/** One answer that can be given, with what it would mean; giving it corrects columns. */
export interface Choice {
  id: string;
  label: string;
  meaning: string;
  corrects: ColumnOverride[];
}

/** Something that the file does not say and nobody may guess. */
export interface Question {
  id: string;
  title: string;
  text: string;
  /** What is still to be said, for the button that waits for it: "which unit". */
  toSay: string;
  choices: Choice[];
}

/** The channels with corrections made; later ones win. */
export function corrected(
  channels: readonly LoggedChannel[],
  corrections: readonly ColumnOverride[],
): LoggedChannel[] {
  return channels.map((channel) => {
    let { role, unit, unitFrom } = channel;
    for (const correction of corrections) {
      if (correction.column !== channel.column) continue;
      if (correction.role !== undefined) role = correction.role;
      if (correction.unit !== undefined) {
        unit = correction.unit;
        unitFrom = 'user';
      }
    }
    return { ...channel, role, unit, unitFrom };
  });
}

/** One override a column: a later correction replaces what an earlier one said of the same thing. */
export function merged(corrections: readonly ColumnOverride[]): ColumnOverride[] {
  const byColumn = new Map<string, ColumnOverride>();
  for (const correction of corrections)
    byColumn.set(correction.column, { ...byColumn.get(correction.column), ...correction });
  return [...byColumn.values()];
}

/**
 * What is to be put right before this log can be judged. Questions that were answered stay in the list, so that the answer can be
 * changed; an answer may lead to another question (which column, then its unit).
 * @param channels as read, corrections by hand already made
 * @param answers choice by question
 * @param shownUnit unit in which "would be 62 psi" is said
 */
export function questionsOf(
  channels: readonly LoggedChannel[],
  answers: ReadonlyMap<string, string>,
  shownUnit: PressureUnit = 'psi',
): { questions: Question[]; corrections: ColumnOverride[]; open: Question[] } {
  const questions: Question[] = [];
  const corrections: ColumnOverride[] = [];
  const asked = new Set<string>();
  for (;;) {
    const state = corrected(channels, corrections);
    const question = candidates(state, shownUnit).find(({ id }) => !asked.has(id));
    if (question === undefined) break;
    asked.add(question.id);
    questions.push(question);
    const choice = question.choices.find(({ id }) => id === answers.get(question.id));
    if (choice) corrections.push(...choice.corrects);
  }
  const open = questions.filter(
    ({ id, choices }) => !choices.some((choice) => choice.id === answers.get(id)),
  );
  return { questions, corrections, open };
}

function candidates(channels: LoggedChannel[], shownUnit: PressureUnit): Question[] {
  const pressures = channels.filter(({ role }) => role === 'pressure');
  const oils = channels.filter(({ role }) => role === 'oil-temperature');
  const list: Question[] = [];
  if (pressures.length > 1) list.push(whichOf(pressures, 'pressure'));
  else if (pressures.length === 0) {
    const numeric = channels.filter(
      ({ median, role }) => median !== null && (role === null || role === 'ignored'),
    );
    if (numeric.length > 0) list.push(whichIsPressure(numeric));
  }
  const [pressure] = pressures;
  if (pressures.length === 1 && pressure !== undefined && !isPressureUnit(pressure.unit))
    list.push(pressureUnitQuestion(pressure, shownUnit));
  if (oils.length > 1) list.push(whichOf(oils, 'oil-temperature'));
  const [oil] = oils;
  if (oils.length === 1 && oil !== undefined && !isTemperatureUnit(oil.unit)) list.push(oilUnitQuestion(oil));
  return list;
}

const idOf = (what: string, columns: readonly LoggedChannel[]): string =>
  `${what}:${columns.map(({ column }) => column).join('|')}`;
const usual = (channel: LoggedChannel): string =>
  channel.median === null
    ? 'no readings'
    : `usual reading ${withUnit(fixedText(channel.median, decimalsFor(channel.median)), channel.unit ?? '1')}`;
const decimalsFor = (value: number): number => (Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2);

/** No unit at all, or one of something else. */
const noUnitText = ({ column, unit }: LoggedChannel, quantity: string): string =>
  unit === null
    ? `Column ${column} has no unit anywhere in the file.`
    : `Column ${column} is in ${unitLabel(unit)}, which is no unit of ${quantity}.`;

/** Two columns of one role: one is judged, the others are left out. */
function whichOf(columns: LoggedChannel[], role: Role): Question {
  return {
    id: idOf(`which-${role}`, columns),
    title: `Which column is the ${roleWords[role]} to ${role === 'pressure' ? 'judge' : 'use'}?`,
    text: `${columns.length} columns could be it. The others are left out.`,
    toSay: 'which column',
    choices: columns.map((channel) => ({
      id: channel.column,
      label: channel.column,
      meaning: usual(channel),
      corrects: [
        { column: channel.column, role },
        ...columns
          .filter((other) => other !== channel)
          .map(({ column }): ColumnOverride => ({ column, role: 'ignored' })),
      ],
    })),
  };
}

/** The question for the pressure where no heading or unit says which it is. */
export const PRESSURE_COLUMN = 'pressure-column';

function whichIsPressure(columns: LoggedChannel[]): Question {
  return {
    // Not by its columns: one that is said to be something else meanwhile leaves the answer as it is.
    id: PRESSURE_COLUMN,
    title: 'Which column is the pressure?',
    text: 'No heading and no unit in the file settles it.',
    toSay: 'which column',
    choices: columns.map((channel) => ({
      id: channel.column,
      label: channel.column,
      meaning: usual(channel),
      corrects: [{ column: channel.column, role: 'pressure' }],
    })),
  };
}

/** Units that gauges of such units are marked in; any other can be set above the column. */
const offeredPressureUnits: readonly PressureUnit[] = ['psi', 'kPa', 'bar', 'kgf/cm2'];

function pressureUnitQuestion(channel: LoggedChannel, shownUnit: PressureUnit): Question {
  const reading = channel.max ?? channel.median;
  const offered = pressureUnits.filter(
    (unit) => offeredPressureUnits.includes(unit) || (unit === shownUnit && unit !== 'psi'),
  );
  return {
    id: idOf('pressure-unit', [channel]),
    title: 'Which unit is the pressure in?',
    text: `${noUnitText(channel, 'pressure')}${channel.median === null ? '' : ` Its usual reading is ${fixedText(channel.median, decimalsFor(channel.median))}, its highest ${fixedText(reading ?? 0, decimalsFor(reading ?? 0))}.`}`,
    toSay: 'which unit',
    choices: [
      ...offered.map((unit): Choice => {
        const value = channel.median === null ? null : convert(channel.median, unit, shownUnit);
        const text = value === null ? '' : withUnit(fixedText(value, decimalsFor(value)), shownUnit);
        return {
          id: unit,
          label: unitLabel(unit),
          meaning: unit === shownUnit ? text : `would be ${text}`,
          corrects: [{ column: channel.column, unit }],
        };
      }),
      {
        id: 'not-a-pressure',
        label: 'Not a pressure',
        meaning: 'leave the column out',
        corrects: [{ column: channel.column, role: 'ignored' }],
      },
    ],
  };
}

function oilUnitQuestion(channel: LoggedChannel): Question {
  const median = channel.median ?? NaN;
  const choice = (unit: UnitName, other: UnitName): Choice => {
    const value = convert(median, unit, other);
    return {
      id: unit,
      label: unitLabel(unit),
      meaning: Number.isNaN(value) ? '' : `would be ${withUnit(fixedText(value, 0), other)}`,
      corrects: [{ column: channel.column, unit }],
    };
  };
  return {
    id: idOf('oil-unit', [channel]),
    title: 'Which unit is the oil temperature in?',
    text: `${noUnitText(channel, 'temperature')}${Number.isNaN(median) ? '' : ` Its usual reading is ${fixedText(median, decimalsFor(median))}.`}`,
    toSay: 'which unit of temperature',
    choices: [
      choice('degC', 'degF'),
      choice('degF', 'degC'),
      {
        id: 'not-the-oil',
        label: 'Not the oil',
        meaning: 'leave the column out',
        corrects: [{ column: channel.column, role: 'ignored' }],
      },
    ],
  };
}
