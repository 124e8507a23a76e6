import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '#assessment/assess.ts';
import { readRig, readSpec } from '#formats/check.ts';
import { readLog } from '#log/read-log.ts';

// What a run may show follows from how sample-runs/generate.mjs makes it, never from what the program printed.
const root = new URL('../../sample-runs/', import.meta.url);

/** The signs of a sample run, judged as sample-runs/README.md lists it. */
function signsOf(log: string, spec: string, rig: string): string[] {
  const specRead = readSpec(readFileSync(new URL(`specs/${spec}.json`, root), 'utf8'), spec);
  const rigRead = readRig(readFileSync(new URL(`rigs/${rig}.json`, root), 'utf8'), rig);
  if (!specRead.ok || !rigRead.ok) throw new Error('a sample spec or rig is refused');
  const read = readLog(readFileSync(new URL(`logs/${log}.csv`, root)), {
    fileName: `${log}.csv`,
    rig: rigRead.value,
    sha256: null,
  });
  if (!read.ok) throw new Error('a sample log is refused');
  const assessed = assess({
    log: read.value,
    rig: rigRead.value,
    spec: specRead.value,
    judge: null,
    programVersion: '0.0.0',
  });
  if (!assessed.ok) throw new Error('a sample is not assessed');
  for (const sign of assessed.value.assessment.signs) {
    // Never without its measured feature, what else would show it, and words that leave it open.
    expect(Number.isFinite(sign.feature.value)).toBe(true);
    expect(sign.mayPointTo.length).toBeGreaterThan(0);
    expect(sign.alsoShownBy).not.toBe('');
  }
  return assessed.value.assessment.signs.map(({ id }) => id);
}
const known = new Map<string, string[]>();
const signs = (log: string, spec = 'example-400-420', rig = 'bench-1'): string[] => {
  const key = `${log} ${spec} ${rig}`;
  const found = known.get(key) ?? signsOf(log, spec, rig);
  known.set(key, found);
  return found;
};
const fast = (log: string): string[] => signs(log, 'example-cycled', 'bench-1-fast');

describe('each signature has a sample run that shows it, and one that does not', () => {
  const tidy = (): string[] => signs('clean-pass', 'example-400-420', 'bench-1-clock');
  const tidyFast = (): string[] => fast('falls-at-once-after-release');
  it.each<[string, () => string[], () => string[]]>([
    ['sags-with-heat', () => signs('sags-as-the-oil-warms'), tidy],
    ['settles-late', () => signs('settles-late'), tidy],
    ['creeps-up', () => signs('creeps-over-the-band'), tidy],
    ['falls-at-level-heat', () => signs('keeps-falling-at-level-heat'), () => signs('sags-as-the-oil-warms')],
    ['step-that-stays', () => signs('step-that-stays', 'example-pressure-only'), tidy],
    ['saw-tooth-once-a-turn', () => fast('saw-tooth-at-shaft-order'), tidyFast],
    ['noise-without-a-period', () => fast('foaming-oil'), () => fast('saw-tooth-at-shaft-order')],
    ['rises-slowly', () => fast('rises-slowly'), tidyFast],
    ['engages-slower-and-slower', () => fast('engages-more-slowly-each-time'), () => fast('rises-slowly')],
    [
      'dips-deep',
      () => signs('held-charged-deep-slow-dip', 'example-held-charged'),
      () => signs('held-charged-dips-and-recovers', 'example-held-charged'),
    ],
    [
      'recovers-slowly',
      () => signs('held-charged-deep-slow-dip', 'example-held-charged'),
      () => signs('held-charged-dips-and-recovers', 'example-held-charged'),
    ],
    ['releases-at-once', () => fast('falls-at-once-after-release'), () => fast('rises-slowly')],
    ['solenoid-current-high', () => fast('solenoid-draws-too-much'), tidyFast],
    ['solenoid-current-missing', () => signs('solenoid-current-missing', 'example-cycled'), tidyFast],
    ['zero-off-at-rest', () => signs('zero-off-at-rest'), tidy],
    ['clipped-gauge', () => signs('sensor-at-its-end', 'example-400-420', 'bench-1-400-range'), tidy],
    [
      'follows-speed',
      () => signs('speed-sweep-in-proportion', 'example-cycled'),
      () => signs('speed-sweep-level', 'example-cycled'),
    ],
    ['steps-with-the-solenoid', () => signs('supply-sags-with-the-solenoid'), tidy],
  ])('%s', (id, shows, doesNot) => {
    expect(shows()).toContain(id);
    expect(doesNot()).not.toContain(id);
  });
  it('a tidy run suggests nothing', () => expect(tidy()).toEqual([]));
});
