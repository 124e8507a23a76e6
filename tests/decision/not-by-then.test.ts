import { describe, expect, it } from 'vitest';
import type { Engagement, Quantities } from '#formats/assessment.ts';
import type { Spec } from '#formats/spec.ts';
import { decide } from '#decision/decide.ts';
import { factsWithoutRig } from '#decision/facts.ts';
import { band, tidyQuantities } from './sample-quantities.ts';

const engagement = (change: Partial<Engagement>): Engagement => ({
  start_s: 60,
  end_s: 400,
  rise_s: 1,
  plateau: { value: 411, unit: 'psi' },
  peak: { value: 415, unit: 'psi' },
  overshoot: 0,
  fall_s: 5,
  dip: 0.2,
  recovery_s: 1,
  ...change,
});
const one = (quantities: Partial<Quantities>, limits: Partial<Spec>, id: string) =>
  decide(tidyQuantities(quantities), band(400, 420, limits), factsWithoutRig()).criteria.find(
    (criterion) => criterion.id === id,
  );

describe('a bound', () => {
  it('is never said kinder than it is', () => {
    const within = (riseAtMost_s: number, atMost_s: number) =>
      one(
        { engagements: [engagement({ rise_s: null, riseAtMost_s })] },
        { engagementRise: { atMost_s } },
        'engagement-rise',
      )?.reason;
    expect(within(0.35, 0.5)).toContain('rose within 0.4 s, inside the 0.5 s allowed');
    expect(within(0.35, 0.3)).toContain('rose within 0.4 s, but the readings are too far apart');
    expect(within(0.3, 0.5)).toContain('rose within 0.3 s');
    expect(within(12.2, 20)).toContain('rose within 13 s');
    const hanging = engagement({ fall_s: null, fallAtLeast_s: 55.8 });
    expect(
      one({ engagements: [hanging] }, { fallAfterRelease: { atMost_s: 20 } }, 'fall-after-release')?.reason,
    ).toContain('55 s later');
  });
});

describe('a charged unit without an engagement found', () => {
  it('may have engaged all the same: the reason says that none was found', () => {
    for (const [id, engagementDip] of [
      ['engagement-dip', { atMost: 0.4 }],
      ['engagement-recovery', { recovered_s: 2 }],
    ] as const)
      expect(
        one({ engagements: [] }, { pressureBehaviour: 'held-charged', engagementDip }, id),
      ).toMatchObject({
        verdict: 'not-assessed',
        reason: expect.stringContaining('no engagement was found: without a solenoid channel'),
      });
  });
});

describe('a peak beyond the gauge', () => {
  const beyond = (atMost: number) =>
    one(
      {
        peakPressure: {
          value: null,
          unit: 'psi',
          atLeast: 600,
          at_s: 300,
          reason: 'how high it went is not known',
        },
      },
      { peakPressure: { atMost, unit: 'psi' } },
      'peak-pressure',
    );
  it('fails where the end of the range is beyond the limit already', () => {
    expect(beyond(480)).toMatchObject({
      verdict: 'fail',
      value: null,
      reason:
        "the pressure stood at the end of the gauge's range: at least 600 psi, 120 psi more than the 480 psi allowed",
    });
  });
  it('is not assessed where the limit lies beyond the range, never passed', () => {
    for (const atMost of [600, 700])
      expect(beyond(atMost)).toMatchObject({
        verdict: 'not-assessed',
        reason: 'how high it went is not known',
      });
  });
});

describe('what had not happened when the record ended', () => {
  it('fails a fall that is known to last longer than its limit, and names it as the worst', () => {
    const hanging = engagement({ fall_s: null, fallAtLeast_s: 55 });
    const found = one(
      { engagements: [engagement({}), hanging] },
      { fallAfterRelease: { atMost_s: 20 } },
      'fall-after-release',
    );
    expect(found).toMatchObject({ verdict: 'fail', value: null });
    expect(found?.reason).toContain('had not fallen to a tenth 55 s later');
    expect(found?.reason).toContain('20 s allowed');
  });
  it('leaves it not assessed where it was not watched for long enough to tell', () => {
    expect(
      one(
        { engagements: [engagement({ fall_s: null, fallAtLeast_s: 12, reason: 'the record ends' })] },
        { fallAfterRelease: { atMost_s: 20 } },
        'fall-after-release',
      ),
    ).toMatchObject({ verdict: 'not-assessed', reason: 'the record ends' });
  });
  it('fails a recovery that did not come', () => {
    const found = one(
      { engagements: [engagement({ recovery_s: null, recoveryAtLeast_s: 60 })] },
      { engagementDip: { recovered_s: 2 } },
      'engagement-recovery',
    );
    expect(found).toMatchObject({ verdict: 'fail' });
    expect(found?.reason).toContain('was not back 1 min later');
  });
  it('passes a pressure that was watched for long enough without falling to half', () => {
    const held = (watched: number) =>
      one(
        { leakDown: { halfTime_s: null, halfTimeAtLeast_s: watched, reason: 'the record ends' } },
        { leakDown: { halfTimeAtLeast_s: 20 } },
        'leak-down',
      );
    expect(held(300)).toMatchObject({ verdict: 'pass', value: null });
    expect(held(300)?.reason).toContain(
      'still above half of what it was 5 min after stopping, 20 s asked for',
    );
    expect(held(19)).toMatchObject({ verdict: 'not-assessed', reason: 'the record ends' });
  });
});
