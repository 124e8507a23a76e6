import { SetAside } from '#formats/log.ts';
import { fixedText, statedText, withUnit } from '#units/number-text.ts';
import { convertTemperature, type TemperatureUnit } from '#units/temperature.ts';
import { extentsOf } from '#statistics/extents.ts';
import type { Check } from './finding.ts';
import { flagStuck } from './set-aside.ts';
import type { Band } from './time-in-band.ts';
import { eachMarked } from './marked-rows.ts';
import { at, span_s, splitAtBreaks, type Rows } from './timeline.ts';

// What is worth a word, and from when a sensor gives nothing to judge: common practice, no source.

/** Oil that reads one value for so long is worth a word; so long from the log's first to its last reading, and it is no reading. */
const FROZEN_s = 600;
const SINGLE_s = 3600;
/** Frozen for more than this share of the hold: nothing is left to judge. */
const GRAVE_SHARE = 0.5;
/** Part of the hold below operating temperature that is worth a word: so long, and such a share. */
const COLD_s = 60;
const COLD_SHARE = 0.01;
/** Hotter than this is said by a check of its own. */
const HOTTEST_degC = 150;
/** So many readings at the end of a range are no chance. */
const CLIPPED_FROM = 3;

/** Share of some rows of which something holds. */
function shareOf(pieces: readonly Rows[], holds: (row: number) => boolean): number {
  let rows = 0,
    found = 0;
  for (const { from, to } of pieces)
    for (let row = from; row < to; row++) {
      rows++;
      if (holds(row)) found++;
    }
  return rows > 0 ? found / rows : 0;
}

/** The oil's column without a unit of temperature: it is there, and of no use. */
export const oilWithoutUnit: Check = ({ readings, oil }) => {
  const column = readings.find(({ channel }) => channel.role === 'oil-temperature')?.channel;
  if (oil || !column || column.unit !== null) return null;
  return {
    remark: {
      code: 'oil-without-unit',
      text: `Column "${column.column}" is the oil temperature and has no unit in the log, so nothing is judged by it. Say °C or °F in the rig file.`,
    },
  };
};

/** A probe that stands still tells nothing, least of all that the oil was warm. */
export const oilFrozen: Check = ({ oil, run, hold, timeline }, _found, words) => {
  if (!oil || !run) return null;
  const { channel } = oil,
    flags = channel.flags.slice();
  const pieces = run.pieces.flatMap((piece) => splitAtBreaks(timeline, piece));
  const { single, longest_s, count } = flagStuck(timeline, channel, flags, pieces);
  const log_s = span_s(timeline, [timeline.part]);
  if (single && log_s >= FROZEN_s)
    return {
      remark: {
        code: 'oil-single-value',
        text: `The oil temperature holds one single value from the first reading to the last: the probe or the logger is not working, or the value was typed in.`,
      },
      ...(log_s >= SINGLE_s ? { grave: ['hold-temperature'] } : {}),
    };
  if (count === 0 || longest_s < FROZEN_s) return null;
  const share = hold === null ? 0 : shareOf(hold.pieces, (row) => flags[row] === SetAside.stuck);
  const grave = share > GRAVE_SHARE;
  return {
    remark: {
      code: 'oil-frozen',
      text: `The oil temperature reads the same to the digit for up to ${words.duration(longest_s)}${grave ? `, ${words.share(share)} of the hold in all` : ''}: the probe or the logger may have stuck. Nothing was set aside for it.`,
    },
    ...(grave ? { grave: ['hold-temperature'] } : {}),
  };
};

/** A hold that the oil left again, or that a hand began too early: cold is not a result. */
export const holdPartlyCold: Check = ({ oil, hold, timeline }, _found, words) => {
  const low = oil?.operating.low ?? null;
  if (!oil || !hold || low === null) return null;
  let cold_s = 0,
    read_s = 0,
    lowest = Infinity;
  for (const { from, to } of hold.pieces)
    for (let i = from; i + 1 < to; i++) {
      const value = at(oil.smoothed, i);
      if (Number.isNaN(value)) continue;
      const lasts_s = at(timeline.time_s, i + 1) - at(timeline.time_s, i);
      read_s += lasts_s;
      if (value >= low) continue;
      cold_s += lasts_s;
      if (value < lowest) lowest = value;
    }
  if (cold_s < COLD_s || cold_s < COLD_SHARE * read_s) return null;
  return {
    remark: {
      code: 'hold-partly-cold',
      text: `For ${words.duration(cold_s)} of the hold the oil was below operating temperature (${words.temperature(low)}), ${words.temperature(lowest)} at the lowest. Cold is not a result: leave that time out, or run on with warm oil.`,
    },
  };
};

/** Readings of the oil at the end of its sensor's range, or beyond it, within the hold. */
export const oilBeyondRange: Check = ({ oil, hold }, _found, words) => {
  if (!oil || !hold) return null;
  let beyond = 0;
  for (const { from, to } of hold.pieces)
    eachMarked(oil.flags, from, to, (row) => {
      if (oil.flags[row] === SetAside.outOfRange && oil.channel.flags[row] === SetAside.kept) beyond++;
    });
  const range = oil.rigChannel?.range;
  if (beyond < CLIPPED_FROM || !range) return null;
  return {
    remark: {
      code: 'oil-out-of-range',
      text: `${words.count(beyond, 'oil reading stands', 'oil readings stand')} at the end of the range in the rig file (${statedText(range.low)} to ${withUnit(statedText(range.high), oil.channel.unit ?? '')}), or beyond it, and were set aside within the hold: the oil's mean leaves them out.`,
    },
  };
};

const inside = (value: number, { low, high }: Band): boolean =>
  (low === null || value >= low) && (high === null || value <= high);

/** °C and °F mistaken for each other: a question where the other one would be at operating temperature and the stated one is not. */
export const celsiusOrFahrenheit: Check = ({ oil, run }, _found, words) => {
  if (!oil || !run || (oil.operating.low === null && oil.operating.high === null)) return null;
  const { unit } = oil;
  const other: TemperatureUnit | null = unit === 'degC' ? 'degF' : unit === 'degF' ? 'degC' : null;
  const level = extentsOf(oil.smoothed).of(run.pieces)?.max ?? null;
  if (other === null || level === null || convertTemperature(level, unit, 'degC') > HOTTEST_degC) return null;
  const otherwise = convertTemperature(level, other, unit);
  if (inside(level, oil.operating) || !inside(otherwise, oil.operating)) return null;
  const label = (of: TemperatureUnit): string => (of === 'degF' ? '°F' : '°C');
  return {
    remark: {
      code: 'celsius-or-fahrenheit',
      text: `Is the oil temperature really in ${label(unit)}? At its hottest it reads ${words.temperature(level)}, which is outside of operating temperature; as ${label(other)} it would be ${withUnit(fixedText(otherwise, 1), unit)}, within it. State the unit in the rig file.`,
    },
  };
};
