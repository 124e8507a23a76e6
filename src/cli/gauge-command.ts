import path from 'node:path';
import { specFromBand } from '#formats/band.ts';
import { writeJson } from '#formats/number.ts';
import { readTable } from '#log/read-table.ts';
import { checkGauge, gaugeBandCheck, type GaugeCheckOptions } from '#relief/check-gauge.ts';
import { gaugeReadingsOf } from '#relief/gauge-table.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { convert, unitKind, type UnitName } from '#units/unit.ts';
import type { Command, Given, Outcome } from './command.ts';
import { exitCode } from './exit-code.ts';
import { gaugeBandText, gaugeReadingsText } from './gauge-text.ts';
import { checkFiles, giveOut } from './give-out.ts';
import { readBytes, STANDARD } from './input-file.ts';
import { bandOption, jsonOption } from './judging-options.ts';
import type { Terminal } from './terminal.ts';

export const gaugeCommand: Command = {
  name: 'gauge',
  summary: 'Holds a gauge against a reference, or says what a gauge leaves of a band.',
  forms: [
    'gauge READINGS.csv [--range "0..600 psi" --accuracy PERCENT_OF_SPAN] [--checked-on DATE] [--due-on DATE] [--json FILE|-]',
    'gauge --range "0..1000 psi" --accuracy PERCENT_OF_SPAN --band BAND [--json FILE|-]',
  ],
  options: {
    range: { value: 'RANGE', help: 'range of the gauge, "0..1000 psi"' },
    accuracy: { value: 'PERCENT', help: 'its limits of error, ± per cent of the span' },
    band: bandOption,
    'checked-on': { value: 'YYYY-MM-DD', help: 'day of the check, for the rig file' },
    'due-on': { value: 'YYYY-MM-DD', help: 'day of the next check, for the rig file' },
    json: jsonOption,
  },
  notes: [
    'READINGS.csv has the columns reference and reading with one unit of pressure or temperature in the heading, and optionally direction (up, down).',
    'The correction found can be pasted into a rig file.',
  ],
  async run(given, terminal) {
    if (given.operands.length > 0) return heldAgainstReference(given, terminal);
    return ['range', 'accuracy', 'band'].some((name) => given.option(name) !== null)
      ? againstBand(given, terminal)
      : { usage: 'name the file of readings, or give --range, --accuracy and --band' };
  },
};

async function heldAgainstReference(given: Given, terminal: Terminal): Promise<Outcome> {
  const [name, ...more] = given.operands;
  if (name === undefined || more.length > 0) return { usage: 'one file of readings at a time' };
  if (given.option('band') !== null)
    return { usage: 'a file of readings, or --range, --accuracy and --band, not both' };
  if ((given.option('range') === null) !== (given.option('accuracy') === null))
    return { usage: 'the class that the gauge is said to hold: --range and --accuracy go together' };
  const dates = ['checked-on', 'due-on'].map((option) => [option, given.option(option)] as const);
  for (const [option, day] of dates)
    if (day !== null && (!/^\d{4}-\d{2}-\d{2}$/.test(day) || Number.isNaN(Date.parse(day))))
      return { usage: `--${option} ${day}: a day is written like 2026-03-04` };
  const json = given.option('json');
  const refused = checkFiles({ inputs: [name], json, records: [] });
  if (refused) return refused;
  const bytes = await readBytes(name);
  if (!bytes.ok) return bytes;
  const file = name === STANDARD ? null : path.basename(name);
  const table = readTable(bytes.value, { fileName: file });
  if (!table.ok) return table;
  const readings = gaugeReadingsOf(table.value, file);
  if (!readings.ok) return readings;
  const stated = statedClass(given, readings.value.unit);
  if (stated !== null && !('range' in stated)) return stated;
  const [calibratedOn, dueOn] = dates.map(([, day]) => day);
  const found = checkGauge(readings.value, {
    file,
    ...(stated === null ? {} : { stated }),
    ...(calibratedOn === null || calibratedOn === undefined ? {} : { calibratedOn }),
    ...(dueOn === null || dueOn === undefined ? {} : { dueOn }),
  });
  if (!found.ok) return found;
  const stopped = await giveOut(
    { json, data: writeJson(found.value), text: () => gaugeReadingsText(found.value, terminal) },
    [],
    terminal,
  );
  return stopped ?? { exit: exitCode.done };
}

/** The class that the gauge is said to hold, in the unit of its readings; null where none is said. */
function statedClass(
  given: Given,
  unit: UnitName,
): NonNullable<GaugeCheckOptions['stated']> | Exclude<Outcome, { exit: number }> | null {
  const range = given.option('range'),
    accuracy = given.option('accuracy');
  if (range === null || accuracy === null) return null;
  const read = gaugeStatement(range, accuracy);
  if (!('range' in read)) return read;
  if (unitKind(unit) !== 'pressure')
    return { usage: `--range ${range}: the readings are in ${unit}, which is no pressure` };
  const { low, high } = read.range;
  return {
    percentOfSpan: read.percentOfSpan,
    range: { low: convert(low, read.range.unit, unit), high: convert(high, read.range.unit, unit) },
  };
}

function gaugeStatement(
  rangeText: string,
  accuracyText: string,
):
  | { range: { low: number; high: number; unit: PressureUnit }; percentOfSpan: number }
  | Exclude<Outcome, { exit: number }> {
  const percentOfSpan = Number(accuracyText);
  if (!/^\d+(?:\.\d+)?$/.test(accuracyText) || percentOfSpan <= 0)
    return { usage: `--accuracy ${accuracyText}: a number above 0, per cent of the span, such as 1 or 0.25` };
  const range = specFromBand(rangeText);
  if (!range.ok) return range;
  const { low, high, unit } = range.value.pressureBand;
  if (low === null || low === undefined || high === null || high === undefined)
    return { usage: `--range ${rangeText}: both ends are needed, "0..1000 psi"` };
  return { range: { low, high, unit }, percentOfSpan };
}

async function againstBand(given: Given, terminal: Terminal): Promise<Outcome> {
  const [rangeText, accuracyText, bandText] = [
    given.option('range'),
    given.option('accuracy'),
    given.option('band'),
  ];
  if (rangeText === null || accuracyText === null || bandText === null)
    return { usage: '--range, --accuracy and --band go together' };
  const gauge = gaugeStatement(rangeText, accuracyText);
  if (!('range' in gauge)) return gauge;
  const band = specFromBand(bandText);
  if (!band.ok) return band;
  const json = given.option('json');
  const refused = checkFiles({ inputs: [], json, records: [] });
  if (refused) return refused;
  const limits = band.value.pressureBand;
  const found = gaugeBandCheck(
    { range: gauge.range, accuracyPercentOfSpan: gauge.percentOfSpan },
    { low: limits.low ?? null, high: limits.high ?? null, unit: limits.unit },
  );
  const stopped = await giveOut(
    { json, data: writeJson(found), text: () => gaugeBandText(found, band.value, terminal) },
    [],
    terminal,
  );
  return stopped ?? { exit: exitCode.done };
}
