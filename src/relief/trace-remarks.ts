import type { Assessment } from '#formats/assessment.ts';
import type { Remark } from '#formats/remark.ts';
import { signMeaning, signText } from '#formats/sign-text.ts';

/** Signs of something that a change of the setting does not mend, and may hide. */
const notTheSetting: ReadonlySet<string> = new Set([
  'in-band-cold-below-hot',
  'sags-with-heat',
  'falls-at-level-heat',
  'creeps-up',
  'settles-late',
  'never-settles',
  'dips-deep',
  'recovers-slowly',
  'rises-slowly',
  'engages-slower-and-slower',
  'releases-slowly',
  'releases-at-once',
  'pressure-left-when-released',
  'plateaus-spread',
  'leaks-down-quickly',
  'ripples-once-a-turn',
  'saw-tooth-once-a-turn',
  'step-that-stays',
  'zero-off-at-rest',
  'noise-without-a-period',
  'steps-with-the-solenoid',
]);
/** From this share of the low limit down a low pressure is farther off than a setting mostly is (our choice, no source). */
const FAR_SHARE = 0.9;

/**
 * What the trace shows beside a wrong setting: named before a shim is changed, for the change would not mend it.
 * @param low the band's low limit and the pressure found, in one unit
 */
export function traceRemarks(
  { signs }: Assessment,
  { value, low }: { value: number; low: number | null },
): Remark[] {
  const far = low !== null && value < FAR_SHARE * low;
  return signs
    .filter(({ id }) => notTheSetting.has(id) || (id === 'low-throughout' && far))
    .map((sign) => {
      const seen = signText(sign);
      const start = seen.slice(0, 1).toUpperCase() + seen.slice(1);
      return {
        code: 'look-first',
        text: `Look first: a change of the setting alone may hide it. ${start}. ${signMeaning(sign)}`,
      };
    });
}
