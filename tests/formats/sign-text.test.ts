import { describe, expect, it } from 'vitest';
import { signFeatureText, signMeaning, signText } from '#formats/sign-text.ts';

const sign = (id: string, value: number, unit: string): Parameters<typeof signText>[0] => ({
  id,
  feature: { value, unit },
  mayPointTo: ['one thing', 'another', 'a third'],
  alsoShownBy: 'a second look',
});

describe('what was seen', () => {
  it.each([
    ['sags-with-heat', 20.2046577, 'psi', 'the pressure sags as the oil warms: 20.2 psi from cold to hot'],
    ['settles-late', 9220, 's', 'the pressure settles late: after 2 h 34 min'],
    ['dips-deep', 0.5026, '1', 'the pressure dips deep on engaging: by 50.3 %'],
    ['follows-speed', 0.97, '1', 'the pressure follows the shaft speed: exponent 0.97, 1 is in proportion'],
    ['falls-at-level-heat', -1.43075, 'psi/h', 'the pressure keeps falling at level heat: −1.43 psi/h'],
    ['step-that-stays', -5.1, 'psi', 'the pressure made a step that stayed: −5.1 psi'],
    ['solenoid-current-missing', 6, '1', 'the solenoid draws no current: 6 times'],
    [
      'would-not-get-warm',
      9.0134,
      'degC',
      'the oil would not get warm: its end lies 9.0 °C below operating temperature',
    ],
    ['some-later-sign', 3.25, 'psi', 'some later sign: 3.25 psi'],
  ])('%s', (id, value, unit, text) => {
    expect(signText(sign(id, value, unit))).toBe(text);
  });
  it('with the decimal mark of the language', () => {
    expect(signFeatureText(sign('creeps-up', 1.655, 'psi/h'), { decimal: ',' })).toBe('1,66 psi/h');
  });
});
it('what it may point to is a choice, never a diagnosis', () => {
  expect(signMeaning(sign('x', 1, 'psi'))).toBe(
    'May point to one thing, or to another, or to a third. Also shown by: a second look.',
  );
});
