import {
  durationText,
  fixedText,
  decimalsForStep,
  POINT_STYLE,
  shareText,
  withUnit,
  type NumberStyle,
} from '#units/number-text.ts';
import type { Assessment } from './assessment.ts';

type Sign = Assessment['signs'][number];

/** What was seen, in one clause with its measured feature, by the sign's name. */
const seen: Readonly<Record<string, (value: string) => string>> = {
  'in-band-cold-below-hot': (value) => `in the band cold and below it hot: ${value} lost on the way`,
  'sags-with-heat': (value) => `the pressure sags as the oil warms: ${value} from cold to hot`,
  'falls-at-level-heat': (value) => `the pressure keeps falling at level heat: ${value}`,
  'creeps-up': (value) => `the pressure creeps up: ${value}`,
  'low-throughout': (value) => `the pressure is low from cold to hot: ${value} from the low limit`,
  'high-and-level': (value) => `the pressure is high and level: ${value} above the high limit`,
  'follows-speed': (value) => `the pressure follows the shaft speed: exponent ${value}, 1 is in proportion`,
  'settles-late': (value) => `the pressure settles late: after ${value}`,
  'never-settles': (value) => `the pressure never settles: it moves by ${value}`,
  'would-not-get-warm': (value) =>
    `the oil would not get warm: its end lies ${value} below operating temperature`,
  'dips-deep': (value) => `the pressure dips deep on engaging: by ${value}`,
  'recovers-slowly': (value) => `the pressure comes back slowly after engaging: ${value}`,
  'rises-slowly': (value) => `the pressure rises slowly on engaging: ${value}`,
  'engages-slower-and-slower': (value) =>
    `engaging takes longer each time: the last take ${value} times as long as the first`,
  'releases-slowly': (value) => `the pressure hangs after release: ${value}`,
  'releases-at-once': (value) => `the pressure is gone at once after release: within ${value}`,
  'pressure-left-when-released': (value) => `pressure is left when released: ${value}`,
  'plateaus-spread': (value) => `engagements end at different pressures: ${value} apart`,
  'leaks-down-quickly': (value) => `the pressure is lost quickly after stopping: half in ${value}`,
  'ripples-once-a-turn': (value) =>
    `the pressure ripples once a turn of the shaft: ${value} from peak to peak`,
  'saw-tooth-once-a-turn': (value) =>
    `a saw-tooth once a turn of the shaft: falling takes ${value} times as long as rising`,
  'step-that-stays': (value) => `the pressure made a step that stayed: ${value}`,
  'solenoid-current-high': (value) => `the solenoid draws too much: ${value}`,
  'solenoid-current-missing': (value) => `the solenoid draws no current: ${value}`,
  'zero-off-at-rest': (value) =>
    `before the first rise, at rest if the shaft stood still, the gauge does not read zero: ${value}`,
  'clipped-gauge': (value) => `the gauge stands at the end of its range: ${value} of the hold`,
  'noise-without-a-period': (value) => `the pressure is noisy without a period: ${value} about its line`,
  'steps-with-the-solenoid': (value) =>
    `the pressure steps in the very reading in which the solenoid switches: ${value}`,
};
/** Features of these are shares and read as per cent; other bare numbers are ratios or counts. */
const shares = new Set(['dips-deep', 'clipped-gauge']);

/** The measured feature for people: three digits, a duration, a share. */
export function signFeatureText({ id, feature }: Sign, style: NumberStyle = POINT_STYLE): string {
  const { value, unit } = feature;
  if (unit === 's') return durationText(value, false, style);
  if (unit === '1' && shares.has(id)) return shareText(value, 1, style);
  if (unit === '1' && Number.isInteger(value)) return `${value} ${value === 1 ? 'time' : 'times'}`;
  return withUnit(fixedText(value, decimalsForStep(Math.abs(value) / 50), style), unit);
}

/** What was seen, as a clause: "the pressure sags as the oil warms: 20.2 psi from cold to hot". */
export function signText(sign: Sign, style: NumberStyle = POINT_STYLE): string {
  const value = signFeatureText(sign, style);
  return seen[sign.id]?.(value) ?? `${sign.id.replaceAll('-', ' ')}: ${value}`;
}

/** What it may point to and what else would show it, as two sentences; never a diagnosis. */
export function signMeaning({ mayPointTo, alsoShownBy }: Sign): string {
  const last = mayPointTo.at(-1) ?? '';
  const causes = mayPointTo.length > 1 ? `${mayPointTo.slice(0, -1).join(', or to ')}, or to ${last}` : last;
  return `May point to ${causes}. Also shown by: ${alsoShownBy}.`;
}
