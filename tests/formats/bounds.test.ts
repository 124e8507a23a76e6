import { describe, expect, it } from 'vitest';
import { readJudge, readRig, readSpec } from '#formats/check.ts';
import { problemSentence, type Result } from '#formats/problem.ts';

const told = (result: Result<unknown>): string =>
  result.ok ? '' : result.problems.map(problemSentence).join(' ');
const rig = (channel: Record<string, unknown>): string =>
  told(
    readRig(
      JSON.stringify({
        format: 'overdrive-bench/rig',
        version: 1,
        name: 'made up',
        channels: [{ column: 'P', unit: 'psi', range: { low: 0, high: 600 }, ...channel }],
      }),
      'rig.json',
    ),
  );
const judge = (choice: Record<string, unknown>): string =>
  told(
    readJudge(
      JSON.stringify({
        format: 'overdrive-bench/judge',
        version: 1,
        choices: [{ what: 'leave-out', from_s: 1, to_s: 2, by: 'N. N.', why: 'hose changed', ...choice }],
      }),
      'judge.json',
    ),
  );
const spec = (more: Record<string, unknown>): string =>
  told(
    readSpec(
      JSON.stringify({
        format: 'overdrive-bench/spec',
        version: 1,
        name: 'made up',
        pressureBand: { low: 400, high: 420, unit: 'psi' },
        ...more,
      }),
      'spec.json',
    ),
  );

describe('numbers that no bench has are refused by their key', () => {
  it.each([
    ['absolute', { uncertainty: { absolute: 1e200 } }],
    ['percentOfSpan', { uncertainty: { percentOfSpan: 1e6 } }],
    ['coverageFactor', { uncertainty: { expanded: 1, coverageFactor: 1e-300 } }],
    ['slope', { correction: { offset: 0, slope: 1e300 } }],
    ['slope', { correction: { offset: 0, slope: 1e-300 } }],
    ['offset', { correction: { offset: -1e300, slope: 1 } }],
    ['high', { range: { low: 0, high: 1e300 } }],
    ['resolution', { resolution: 1e300 }],
  ])('%s of a rig', (key, channel) => {
    expect(rig(channel)).toContain(key);
  });
  it('usual ones are not', () => {
    expect(rig({ uncertainty: { absolute: 1.5 }, correction: { offset: -0.4, slope: 1.002 } })).toBe('');
  });
  it('a smoothing window longer than ten minutes, a tolerance over the limit itself', () => {
    const smoothing = (window_s: number) => ({ smoothing: { method: 'median', window_s } });
    expect(spec(smoothing(1e9))).toContain('window_s');
    expect(spec(smoothing(600))).toBe('');
    expect(spec({ settling: { tolerance: 1e9, unit: 'psi' } })).toContain('tolerance');
    expect(spec({ settling: { tolerance: 30, unit: 'bar' } })).toContain('tolerance');
    expect(spec({ settling: { tolerance: 8, unit: 'psi' } })).toBe('');
  });
});

describe('who, when and why of a choice made by hand', () => {
  it('must say something', () => {
    expect(judge({})).toBe('');
    expect(judge({ why: '   ' })).toContain('why');
    expect(judge({ by: ' ' })).toContain('by');
  });
  it('must be on a day that there is', () => {
    for (const on of ['2026-99-99', '2026-02-29', '2100-02-29', '2026-04-31', '2026-00-01'])
      expect(judge({ on })).toContain('on');
    for (const on of ['2024-02-29', '2000-02-29', '2026-12-31']) expect(judge({ on })).toBe('');
  });
});

describe('the interval of a log without times', () => {
  const interval = (interval_s: number): string =>
    told(
      readRig(
        JSON.stringify({ format: 'overdrive-bench/rig', version: 1, name: 'made up', time: { interval_s } }),
        'rig.json',
      ),
    );
  it.each([1e-6, 0.25, 60, 86_400])('%s s is one', (seconds) => expect(interval(seconds)).toBe(''));
  it.each([
    [0, 'at least 0.000001'],
    [1e-10, 'at least 0.000001'],
    [86_401, 'at most 86400'],
    [1e300, 'at most 86400'],
  ])('%s s is refused', (seconds, reason) => {
    expect(interval(seconds)).toContain('time.interval_s');
    expect(interval(seconds)).toContain(reason);
  });
});
