import { expect, it } from 'vitest';
import { rigWith } from '#app/gauge-rig.ts';
import type { GaugeReadingsCheck } from '#formats/gauge-check.ts';
import type { Rig } from '#formats/rig.ts';
import { checkGauge } from '#relief/check-gauge.ts';
import { convert, type UnitName } from '#units/unit.ts';

/** Reads 2 % high and a bit off, with some scatter. */
function checked(unit: UnitName, references: readonly number[]): GaugeReadingsCheck {
  const reading = references.map((p, index) => 1.02 * p + 1 + (index % 3) * 0.2);
  const result = checkGauge({ unit, reference: references, reading }, { calibratedOn: '2026-03-02' });
  if (!result.ok) throw new Error('not checked');
  return result.value;
}
const rigIn = (unit: UnitName | undefined, role: 'pressure' | 'oil-temperature' = 'pressure'): Rig => ({
  format: 'overdrive-bench/rig',
  version: 1,
  name: 'Bench 1',
  channels: [{ column: 'P', role, ...(unit === undefined ? {} : { unit }), identification: 'G-07' }],
});
const psi = checked('psi', [0, 100, 200, 300, 400, 500]);

it.each(['psi', 'bar', 'kPa'] as const)('corrects a reading in %s as the check in psi does', (unit) => {
  const taken = rigWith(rigIn(unit), psi, 'G-07');
  if ('refused' in taken) throw new Error(taken.refused);
  const [channel] = taken.rig.channels ?? [];
  const line = psi.rigChannel?.correction;
  const at = (reading: number): number =>
    convert(
      (channel?.correction?.slope ?? NaN) * convert(reading, 'psi', unit) +
        (channel?.correction?.offset ?? NaN),
      unit,
      'psi',
    );
  for (const reading of [0, 410, 500])
    expect(at(reading)).toBeCloseTo((line?.slope ?? NaN) * reading + (line?.offset ?? NaN), 9);
  const stated = channel?.uncertainty;
  expect(
    stated !== undefined && 'expanded' in stated ? convert(stated.expanded ?? NaN, unit, 'psi') : NaN,
  ).toBeCloseTo(psi.rigChannel?.uncertainty.expanded ?? NaN, 9);
  expect(channel?.calibratedOn).toBe('2026-03-02');
});
it('knows that degrees Fahrenheit begin elsewhere', () => {
  const check = checked('degC', [0, 20, 40, 60, 80, 100]);
  const taken = rigWith(rigIn('degF', 'oil-temperature'), check, '');
  if ('refused' in taken) throw new Error(taken.refused);
  const { correction } = taken.rig.channels?.[0] ?? {};
  const line = check.rigChannel?.correction;
  // 60 °C read is 140 °F read.
  const corrected = (correction?.slope ?? NaN) * 140 + (correction?.offset ?? NaN);
  expect(convert(corrected, 'degF', 'degC')).toBeCloseTo(
    (line?.slope ?? NaN) * 60 + (line?.offset ?? NaN),
    9,
  );
});
it.each([
  [rigIn(undefined), 'G-07', 'names no unit'],
  [rigIn('degC'), 'G-07', 'the check is in psi'],
  [rigIn('psi', 'oil-temperature'), 'G-99', 'no channel of this gauge'],
])('refuses what it would have to guess', (rig, number, why) => {
  expect(rigWith(rig, psi, number)).toMatchObject({ refused: expect.stringContaining(why) as unknown });
});
