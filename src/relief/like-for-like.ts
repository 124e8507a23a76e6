import type { Assessment } from '#formats/assessment.ts';
import { rounded } from '#formats/number.ts';
import { statedText, withUnit } from '#units/number-text.ts';
import { convert } from '#units/unit.ts';

/** Ten degrees of oil are several psi on a unit that thins; our own choice, no source. */
const APART_DEGC = 10;
/** Share by which shaft speeds may differ; our own choice, no source. */
const APART_SPEED = 0.05;

/**
 * In what a test and its re-test are not like for like: oil temperature, shaft speed, gauge. Then the change of the setting is not all
 * that moved the pressure. Null where they are alike, or where the logs cannot tell.
 */
export function unlikeness(before: Assessment, after: Assessment): string | null {
  const said = [warmth(before, after), speed(before, after), gauge(before, after)].filter(
    (part) => part !== null,
  );
  return said.length === 0 ? null : said.join('; ');
}

function warmth(before: Assessment, after: Assessment): string | null {
  const a = before.quantities.holdTemperature,
    b = after.quantities.holdTemperature;
  if (a.mean === null || b.mean === null) return null;
  const apart = rounded(convert(b.mean, b.unit, 'degC') - convert(a.mean, a.unit, 'degC'));
  return Math.abs(apart) <= APART_DEGC
    ? null
    : `the oil was ${withUnit(statedText(Math.round(Math.abs(apart))), 'degC')} ${apart > 0 ? 'warmer' : 'colder'} at the re-test`;
}

const channelOf = (assessment: Assessment, role: 'shaft-speed' | 'pressure') =>
  assessment.log.channels.find((channel) => channel.role === role) ?? null;

function speed(before: Assessment, after: Assessment): string | null {
  const a = channelOf(before, 'shaft-speed')?.median ?? null,
    b = channelOf(after, 'shaft-speed')?.median ?? null;
  if (a === null || b === null || a === 0) return null;
  return Math.abs(rounded(b / a - 1)) <= APART_SPEED
    ? null
    : `the shaft turned at ${statedText(Math.round(a))} rpm, then at ${statedText(Math.round(b))} rpm`;
}

function gauge(before: Assessment, after: Assessment): string | null {
  const name = ({ rig }: Assessment): string | null =>
    rig?.channels?.find(({ role }) => role === 'pressure')?.identification ?? null;
  const a = name(before),
    b = name(after);
  return a === null || b === null || a === b ? null : `read by gauge ${a}, then by ${b}`;
}
