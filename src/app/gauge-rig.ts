import type { GaugeReadingsCheck } from '#formats/gauge-check.ts';
import type { Rig } from '#formats/rig.ts';
import { unitLabel } from '#units/number-text.ts';
import { convert, isPressureUnit, isTemperatureUnit, type UnitName } from '#units/unit.ts';

type Found = NonNullable<GaugeReadingsCheck['rigChannel']>;
/** A rig file with the check in it, or why there is none: the end of a sentence that begins with "channels". */
type Taken = { rig: Rig } | { refused: string };

/**
 * The rig with what was found in the channel of this gauge: by its number, else the only channel of the gauge's kind. A channel counts in
 * its own unit, so a check in another is converted; a channel that names none is not guessed at.
 */
export function rigWith(rig: Rig, check: GaugeReadingsCheck, identification: string): Taken {
  if (check.rigChannel === null) return { refused: 'cannot take over a check that gives no correction' };
  const number = identification.trim();
  const channels = rig.channels ?? [];
  const role = isTemperatureUnit(check.unit) ? 'oil-temperature' : 'pressure';
  const named = channels.filter((channel) => number !== '' && channel.identification === number);
  const found = named.length === 1 ? named : channels.filter((channel) => channel.role === role);
  const [own] = found;
  if (own === undefined || found.length !== 1)
    return {
      refused: 'has no channel of this gauge: give the channel its identification, or the role pressure',
    };
  if (own.unit === undefined)
    return {
      refused: `names no unit for ${own.column}: give the channel its unit, the check is in ${unitLabel(check.unit)}`,
    };
  if (
    isPressureUnit(own.unit) !== isPressureUnit(check.unit) ||
    !(isPressureUnit(own.unit) || isTemperatureUnit(own.unit))
  )
    return {
      refused: `has ${own.column} in ${unitLabel(own.unit)}, and the check is in ${unitLabel(check.unit)}`,
    };
  const { correction, uncertainty, calibratedOn, dueOn } = inUnitOf(check.rigChannel, check.unit, own.unit);
  return {
    rig: {
      ...rig,
      channels: channels.map((channel) =>
        channel === own
          ? {
              ...channel,
              correction,
              uncertainty,
              ...(number === '' ? {} : { identification: number }),
              ...(calibratedOn === undefined ? {} : { calibratedOn }),
              ...(dueOn === undefined ? {} : { dueOn }),
            }
          : channel,
      ),
    },
  };
}

/** The same line in another unit: with v′ = a·v + c, true′ = slope · reading′ + a·offset + c·(1 − slope). */
function inUnitOf(found: Found, from: UnitName, to: UnitName): Found {
  if (from === to) return found;
  const c = convert(0, from, to);
  const a = convert(1, from, to) - c;
  const { correction, uncertainty } = found;
  return {
    ...found,
    correction: { ...correction, offset: a * correction.offset + c * (1 - correction.slope) },
    uncertainty: { ...uncertainty, expanded: a * uncertainty.expanded },
  };
}
