import type { CriterionId } from '#formats/assessment.ts';
import { SetAside } from '#formats/log.ts';
import type { Remark } from '#formats/remark.ts';
import { median } from '#statistics/median.ts';
import { fixedText, statedText, unitLabel, withUnit } from '#units/number-text.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { convertTemperature, temperatureDifferenceFactor } from '#units/temperature.ts';
import { isPressureUnit, isTemperatureUnit } from '#units/unit.ts';
import { EXTENT_ROWS, extentsOf } from '#statistics/extents.ts';
import { sustainedLevel } from './engaged-level.ts';
import type { Check, GraveFinding } from './finding.ts';
import { pressureParts } from './hold-quantities.ts';
import {
  celsiusOrFahrenheit,
  holdPartlyCold,
  oilBeyondRange,
  oilFrozen,
  oilWithoutUnit,
} from './oil-plausibility.ts';
import type { Found } from './quantities.ts';
import { wordsFor } from './remark-text.ts';
import type { Situation } from './situation.ts';
import { eachMarked } from './marked-rows.ts';
import { combinedTypeB } from './type-b.ts';
import { at, type Rows } from './timeline.ts';

/** Set aside for more than this share of the hold: nothing is left to judge. */
const GRAVE_SHARE = 0.5;
/** A level outside of these factors of the band is looked at for another unit. */
const FAR_LOW = 0.3;
const FAR_HIGH = 3;
/** …which then has to bring it within these factors. */
const NEAR_LOW = 0.8;
const NEAR_HIGH = 1.25;
const usualUnits: readonly PressureUnit[] = ['psi', 'bar', 'kPa', 'MPa', 'kgf/cm2', 'mbar'];
/** No oil on a bench is hotter: that is no temperature, or another unit. Common practice, no source. */
const HOTTEST_degC = 150;
/** Oil this near to the air of the shop, for most of the hold, is air. */
const LIKE_AIR_degC = 1.5;
/** Oil cannot jump like this from one reading to the next. */
const JUMP_degC = 0.5;
const EDGE_SAMPLES = 5;
/** Oil that falls by so much within a minute while the unit is engaged was not oil any more. */
const FALL_degC = 8;
const FALL_s = 60;
/** …and where it stays down for so long, its mean and what the pressure does with it are of no use. */
const OUT_FROM_s = 600;
/** So many spikes, and so large a share of them, in two channels at once. */
const SPIKES_TOGETHER = 3;
const SPIKES_SHARE = 0.5;
/** Without a stated uncertainty a zero is off from this share of the band on. */
const ZERO_SHARE = 0.02;

/** A sensor that gave nothing for most of the hold: that is no fault of the unit, and no missing record either. */
const noReadings: GraveFinding['reach'][] = ['pressure', 'record-coverage'];
/** Criteria on the warm hold, other than the oil's own. */
const needHold: readonly CriterionId[] = ['operating-pressure', 'time-in-band', 'drift'];
/** The column is not the pressure that it should be: neither how long the unit ran nor how much of it is on record can be told. */
const notPressure: GraveFinding['reach'][] = ['pressure', 'run-length', 'record-coverage'];

/** Share of the hold's rows (without a hold the run's, without a run the log's) with a flag. */
function shareSetAside(
  { hold, run, timeline, reading }: Situation,
  flag: number,
): { count: number; share: number } {
  const pieces: readonly Rows[] = hold?.pieces ?? run?.pieces ?? [timeline.part];
  let count = 0,
    rows = 0;
  for (const { from, to } of pieces) {
    rows += to - from;
    eachMarked(reading.flags, from, to, (row) => (count += reading.flags[row] === flag ? 1 : 0));
  }
  return { count, share: rows > 0 ? count / rows : 0 };
}

const clipped: Check = (situation, _found, words) => {
  const { reading } = situation;
  const total = reading.clipped.upper + reading.clipped.lower;
  if (total === 0 || !reading.range) return null;
  const { share } = shareSetAside(situation, SetAside.outOfRange);
  const end = reading.clipped.upper >= reading.clipped.lower ? reading.range.high : reading.range.low;
  const where = withUnit(String(end), reading.channel.unit ?? '');
  const grave = share > GRAVE_SHARE;
  return {
    remark: {
      code: 'clipped',
      text: `${words.count(total, 'pressure reading stands', 'pressure readings stand')} at the end of the gauge's range (${where}) and ${total === 1 ? 'was' : 'were'} set aside${grave ? `: ${words.share(share)} of what would be judged` : ''}. What the pressure really was there is not known; take a gauge with a wider range.`,
    },
    ...(grave ? { grave: noReadings } : {}),
  };
};

/** Readings beyond the gauge's range, other than those that stand at its ends. */
const beyondRange: Check = (situation, _found, words) => {
  const { reading } = situation;
  const { range, channel } = reading;
  if (!range) return null;
  let beyond = 0;
  eachMarked(reading.flags, 0, reading.flags.length, (i) => {
    if (
      reading.flags[i] === SetAside.outOfRange &&
      channel.flags[i] === SetAside.kept &&
      !(at(channel.values, i) >= range.low && at(channel.values, i) <= range.high)
    )
      beyond++;
  });
  const { count, share } = shareSetAside(situation, SetAside.outOfRange);
  const grave = share > GRAVE_SHARE && beyond > 0.5 * count;
  // A few at the edges are counted beside the column; a remark is for what takes readings from the judgement.
  if (beyond === 0 || (!grave && count === 0)) return null;
  return {
    remark: {
      code: 'out-of-range',
      text: `${words.count(beyond, 'pressure reading lies', 'pressure readings lie')} outside of the gauge's range in the rig file (${statedText(range.low)} to ${withUnit(statedText(range.high), channel.unit ?? '')}) and ${beyond === 1 ? 'was' : 'were'} set aside${grave ? `: ${words.share(share)} of what would be judged` : ''}. What the pressure really was there is not known; check the range in the rig file, or take a gauge with a wider one.`,
    },
    ...(grave ? { grave: noReadings } : {}),
  };
};

const frozen: Check = (situation, _found, words) => {
  const { reading } = situation;
  const { stuck } = reading;
  if (stuck.single)
    return {
      remark: {
        code: 'single-value',
        text: 'The pressure column holds one single value from the first reading to the last: the sensor or the logger is not working.',
      },
      grave: noReadings,
    };
  if (stuck.tooCoarse)
    return {
      remark: {
        code: 'resolution-too-coarse',
        text: `The pressure reads the same to the digit for up to ${words.duration(stuck.longest_s)}, but its steps are too coarse to tell a stuck sensor from a steady unit. Nothing was set aside for it.`,
      },
    };
  if (stuck.count === 0) return null;
  const { share } = shareSetAside(situation, SetAside.stuck);
  const grave = share > GRAVE_SHARE;
  return {
    remark: {
      code: 'pressure-frozen',
      text: `The pressure reads the same to the digit for up to ${words.duration(stuck.longest_s)}: ${words.count(stuck.count, 'reading was', 'readings were')} set aside as stuck${grave ? `, ${words.share(share)} of what would be judged` : ''}.`,
    },
    ...(grave ? { grave: noReadings } : {}),
  };
};

/**
 * Highest level that the oil column held for 10 s, in °C as labelled; readings out of the rig's range count, for they are the sign. Null
 * where that cannot be too hot.
 */
function sustainedOil_degC({ readings, timeline }: Situation): number | null {
  const oil = readings.find(({ channel }) => channel.role === 'oil-temperature'),
    unit = oil?.channel.unit ?? null;
  if (!oil || !isTemperatureUnit(unit)) return null;
  // What no reading reached was not held either.
  const highest = extentsOf(oil.values).of([timeline.part])?.max ?? -Infinity;
  if (!(convertTemperature(highest, unit, 'degC') > HOTTEST_degC)) return null;
  const level = sustainedLevel(timeline, oil.values, timeline.part);
  return level === null ? null : convertTemperature(level, unit, 'degC');
}

const swapped: Check = (situation, _found, words) => {
  const { reading } = situation;
  const hottest = sustainedOil_degC(situation);
  if (hottest === null || hottest <= HOTTEST_degC) return null;
  const level = reading.level.sustained;
  const shown = withUnit(fixedText(hottest, 0), 'degC');
  const low = situation.band?.low ?? situation.band?.high ?? null;
  const looksSwapped = level !== null && (low === null || level < FAR_LOW * low) && level < hottest;
  return looksSwapped
    ? {
        remark: {
          code: 'channels-look-swapped',
          text: `The oil temperature holds ${shown} and the pressure no more than ${words.pressure(level)}: the two columns look swapped. Correct their roles.`,
        },
        grave: [...notPressure, 'oil-temperature'],
      }
    : {
        remark: {
          code: 'oil-temperature-implausible',
          text: `The oil temperature holds ${shown}, which no oil on a bench does: check the column and its unit.`,
        },
        grave: ['oil-temperature'],
      };
};

const wrongUnit: Check = (situation, found, words) => {
  const { reading, band, unit } = situation;
  // What is left of a sensor at the end of its range says nothing of its unit.
  if (clipped(situation, found, words)?.grave || beyondRange(situation, found, words)?.grave) return null;
  const level = reading.level.sustained,
    logged = reading.channel.unit;
  if (level === null || !band || !isPressureUnit(logged)) return null;
  const low = band.low ?? band.high ?? 0,
    high = band.high ?? band.low ?? 0;
  if (level >= FAR_LOW * low && level <= FAR_HIGH * high) return null;
  for (const other of usualUnits) {
    if (other === logged) continue;
    const value = level * (pressureFactor(other, unit) / pressureFactor(logged, unit));
    if (value < NEAR_LOW * low || value > NEAR_HIGH * high) continue;
    return {
      remark: {
        code: 'unit-looks-wrong',
        text: `As ${unitLabel(logged)} the pressure is ${words.pressure(level)}; as ${unitLabel(other)} it would be ${words.pressure(value)}, near the band. The unit looks wrong: nothing is judged until it is right.`,
      },
      grave: notPressure,
    };
  }
  return null;
};

/** bar and kgf/cm² differ by 2 %, which values alone never tell: a question where it would decide. */
const barOrKgf: Check = ({ reading, band, unit }, { quantities }, words) => {
  const { unit: logged, unitFrom } = reading.channel;
  const value = quantities.operatingPressure.value;
  if (value === null || !band || unitFrom === 'rig' || unitFrom === 'user') return null;
  if (logged !== 'bar' && logged !== 'kgf/cm2') return null;
  const other = logged === 'bar' ? 'kgf/cm2' : 'bar';
  const otherwise = value * (pressureFactor(other, unit) / pressureFactor(logged, unit));
  const inside = (p: number): boolean =>
    (band.low === null || p >= band.low) && (band.high === null || p <= band.high);
  return inside(value) === inside(otherwise)
    ? null
    : {
        remark: {
          code: 'bar-or-kgf',
          text: `Is the gauge really in ${unitLabel(logged)}? In ${unitLabel(other)} the same readings would be ${words.pressure(otherwise)} instead of ${words.pressure(value)}, on the other side of a limit. State the unit in the rig file.`,
        },
      };
};

const likeAir: Check = ({ oil, ambient, hold, run }, _found, words) => {
  const pieces = hold?.pieces ?? run?.pieces;
  if (!oil || !ambient || !pieces) return null;
  let near = 0,
    rows = 0;
  for (const { from, to } of pieces)
    for (let i = from; i < to; i++) {
      const difference =
        at(oil.smoothed, i) - convertTemperature(at(ambient.kept, i), ambient.unit, oil.unit);
      if (Number.isNaN(difference)) continue;
      rows++;
      if (Math.abs(difference) <= LIKE_AIR_degC * temperatureDifferenceFactor('degC', oil.unit)) near++;
    }
  return rows > 0 && near > GRAVE_SHARE * rows
    ? {
        remark: {
          code: 'oil-like-air',
          text: `The oil temperature equals that of the air for ${words.share(near / rows)} of what is judged: the probe has fallen out, or sits in the wrong place.`,
        },
        grave: ['oil-temperature'],
      }
    : null;
};

/** Whether oil that fell stayed at least half as much lower, for ten minutes or more: what is read then is no oil. */
function staysOut(
  smoothed: Float64Array,
  time_s: Float64Array,
  before: number,
  after: Rows,
  fall: number,
): boolean {
  return (
    at(time_s, after.to - 1) - at(time_s, after.from) >= OUT_FROM_s &&
    at(smoothed, before) - median(smoothed.subarray(after.from, after.to)) >= 0.5 * fall
  );
}

const oilFell: Check = ({ oil, run, timeline }, _found, words) => {
  if (!oil || !run) return null;
  const fall = FALL_degC * temperatureDifferenceFactor('degC', oil.unit);
  const { time_s } = timeline,
    { smoothed } = oil,
    extents = extentsOf(smoothed);
  for (const piece of run.pieces) {
    let earlier = piece.from,
      fell = -1,
      // From here on back the readings are older than a minute.
      oldest = Math.floor(piece.from / EXTENT_ROWS);
    extents.inBlocks(piece, (from, to, block) => {
      if (fell >= 0) return;
      // Where the highest of the minute before is no such fall above the lowest, no row needs a look.
      while (oldest < block && at(time_s, from) - at(time_s, (oldest + 1) * EXTENT_ROWS - 1) > FALL_s)
        oldest++;
      let highest = -Infinity;
      for (let each = oldest; each <= block; each++) highest = Math.max(highest, extents.most(each));
      if (!(highest - extents.least(block) >= fall)) return;
      let first = earlier;
      for (let i = from; i < to; i++) {
        while (at(time_s, i) - at(time_s, first) > FALL_s) first++;
        if (!(at(smoothed, first) - at(smoothed, i) >= fall)) continue;
        fell = i;
        break;
      }
      earlier = first;
    });
    if (fell >= 0)
      return {
        ...(staysOut(oil.smoothed, time_s, earlier, { from: fell, to: piece.to }, fall)
          ? { grave: ['oil-temperature'] }
          : {}),
        remark: {
          code: 'oil-temperature-fell',
          text: `${words.place(at(time_s, fell))} the oil temperature fell by ${withUnit(fixedText(at(smoothed, earlier) - at(smoothed, fell), 1), oil.unit)} within a minute while engaged: the probe may have come out.`,
        },
      };
  }
  return null;
};

const supplySag: Check = ({ oil, solenoid }) => {
  if (!oil || !solenoid || solenoid.edges.length < 2) return null;
  const jump = JUMP_degC * temperatureDifferenceFactor('degC', oil.unit);
  const jumps = solenoid.edges.map(({ row, on }) => {
    const before = median(oil.kept.subarray(Math.max(0, row - EDGE_SAMPLES), row)),
      after = median(oil.kept.subarray(row, row + EDGE_SAMPLES));
    return (on ? 1 : -1) * (after - before);
  });
  const typical = median(jumps);
  return jumps.every((size) => Math.abs(size) >= jump && size * typical > 0)
    ? {
        remark: {
          code: 'supply-sags-with-solenoid',
          text: `Each time the solenoid switches on, the oil temperature ${typical < 0 ? 'drops' : 'jumps'} by about ${withUnit(fixedText(Math.abs(typical), 1), oil.unit)} in the same reading, and back when it switches off. Oil cannot do that: the supply of the sensors sags, and the pressure is then wrong by its share too.`,
        },
      }
    : null;
};

/** Whether another channel has a spike in a row or in a neighbour of it. */
function spikeAbout(readings: Situation['readings'], row: number): boolean {
  return readings.some(({ flags }) => [row - 1, row, row + 1].some((each) => flags[each] === SetAside.spike));
}

const spikesTogether: Check = ({ reading, readings }, _found, words) => {
  let spikes = 0,
    together = 0;
  eachMarked(reading.flags, 0, reading.flags.length, (row) => {
    if (reading.flags[row] !== SetAside.spike) return;
    spikes++;
    if (spikeAbout(readings, row)) together++;
  });
  return together >= SPIKES_TOGETHER && together >= SPIKES_SHARE * spikes
    ? {
        remark: {
          code: 'spikes-in-all-channels',
          text: `${words.count(together, 'spike comes', 'spikes come')} in more than one channel at once: electrical noise (a motor drive, a relay, ignition), not the unit.`,
        },
      }
    : null;
};

/** Too many or too long for spikes: what the unit really did, or a gauge that is not to be trusted. In every channel. */
const swings: Check = ({ reading, readings }, _found, words) => {
  const said = [reading, ...readings].flatMap(({ channel, putBack }): string[] => {
    if (putBack === null) return [];
    const { stretches, readings: count, longest_s, many, among } = putBack;
    return [
      ...(many > 0
        ? [
            `${words.count(many, `reading of "${channel.column}" stands`, `readings of "${channel.column}" stand`)} far from the readings about them, ${words.share(many / among)} of that part of the log: too many for spikes, so they count. The ${channel.role === 'pressure' ? 'pressure' : 'reading'} really swings, or the gauge or its wiring is noisy: look at the trace.`,
          ]
        : []),
      ...(stretches > 0
        ? [
            `${words.count(stretches, 'time', 'times')} "${channel.column}" stands apart for longer than a spike (more than three readings or 2 s): ${words.count(count, 'reading counts', 'readings count')}, for up to ${words.duration(longest_s)} together. The unit did that, or a wire was loose: look at the trace.`,
          ]
        : []),
    ];
  });
  return said.length > 0 ? { remark: { code: 'no-spikes', text: said.join(' ') } } : null;
};

const zeroOff: Check = (situation, { quantities: { zeroAtRest } }, words) => {
  const { band, reading, shaft } = situation;
  const zero = zeroAtRest.value;
  if (zero === null) return null;
  const stated = reading.rigChannel?.uncertainty !== undefined;
  const allowed = stated
    ? 2 * combinedTypeB(pressureParts(situation, 0))
    : ZERO_SHARE * Math.abs(band?.low ?? band?.high ?? reading.level.sustained ?? 0);
  return Math.abs(zero) > allowed
    ? {
        remark: {
          code: 'zero-off',
          text: `${shaft ? 'At rest' : 'Before the first rise (at rest, if the shaft stood still)'} the gauge reads ${words.pressure(zero)} instead of 0${stated ? `, more than its stated uncertainty (± ${words.pressure(allowed)})` : ''}.${reading.rigChannel?.subtractZeroAtRest === true ? '' : ' Nothing was taken off; check the zero of the gauge.'}`,
        },
      }
    : null;
};

const checks: readonly Check[] = [
  swapped,
  clipped,
  beyondRange,
  wrongUnit,
  barOrKgf,
  frozen,
  likeAir,
  oilFell,
  oilFrozen,
  oilBeyondRange,
  holdPartlyCold,
  celsiusOrFahrenheit,
  oilWithoutUnit,
  supplySag,
  spikesTogether,
  swings,
  zeroOff,
];

/** What looks implausible before any verdict: remarks with what was seen, and what leaves nothing to judge. */
export function plausibility(
  situation: Situation,
  found: Found,
): { remarks: Remark[]; grave: GraveFinding[] } {
  const words = wordsFor(situation);
  const seen = checks.flatMap((check) => check(situation, found, words) ?? []);
  // What a wrong column says of the zero is of no use.
  const wrong = seen.some(({ grave }) => grave?.includes('run-length') === true);
  const findings = wrong ? seen.filter(({ grave }) => grave !== undefined) : seen;
  const grave = findings.flatMap(({ remark, grave: reaches }) =>
    (reaches ?? []).map((reach): GraveFinding => ({ reach, reason: reasonOf(remark) })),
  );
  return {
    remarks: findings.map(({ remark }) => remark),
    grave: [...grave, ...withoutHold(situation, grave)],
  };
}

/** There is no hold because of a sensor: then that is the reason for everything that needs one, not that the oil stayed cold. */
function withoutHold({ hold, unjudged }: Situation, grave: readonly GraveFinding[]): GraveFinding[] {
  if (hold !== null) return [];
  const oil = grave.find(({ reach }) => reach === 'oil-temperature'),
    pressure = grave.find(({ reach }) => reach === 'pressure');
  return [
    ...(oil && unjudged === 'never-warm'
      ? needHold.map((reach): GraveFinding => ({ reach, reason: oil.reason }))
      : []),
    ...(pressure ? [{ reach: 'hold-temperature' as const, reason: pressure.reason }] : []),
  ];
}

/** The first sentence of a remark as a clause. */
function reasonOf({ text }: Remark): string {
  const first = text.split(/\.(?= |$)/)[0] ?? text;
  return first.slice(0, 1).toLowerCase() + first.slice(1);
}
