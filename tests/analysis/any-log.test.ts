import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess, readingsOf } from '#assessment/assess.ts';
import {
  answerApart,
  readingsApart,
  type CurrentApart,
  type CurrentQuestion,
  type HoldApart,
  type HoldQuestion,
} from '#assessment/read-apart.ts';
import { assessmentSchema } from '#formats/assessment.ts';
import type { Choice } from '#formats/judge.ts';
import { writeJson } from '#formats/number.ts';
import type { Smoothing } from '#formats/spec.ts';
import {
  gauge,
  makeLog,
  oilColumn,
  pressureColumn,
  rig,
  seeded,
  spec,
  type Column,
} from './synthetic-run.ts';

/** A log of nothing sensible: jumps, gaps, equal times, missing and faulty cells, values of any size. */
function senseless(seed: number, rows: number): ReturnType<typeof makeLog> {
  const random = seeded(seed);
  const step = [0.01, 0.5, 1, 60, 900][Math.floor(random() * 5)] ?? 1;
  const times: number[] = [];
  let t = 0;
  for (let i = 0; i < rows; i++) {
    times.push(Number(t.toFixed(3)));
    const luck = random();
    t += luck < 0.03 ? step * (5 + 50 * random()) : luck < 0.06 ? 0 : step;
  }
  const wild = (scale: number): Column['at'] => {
    let level = 0;
    return () => {
      const luck = random();
      if (luck < 0.03) level = scale * (random() - 0.2);
      if (luck > 0.97) return null;
      if (luck > 0.95) return 'fault';
      return level + 0.02 * scale * (random() - 0.5);
    };
  };
  return makeLog({
    times,
    columns: [
      pressureColumn(wild(500)),
      oilColumn(wild(120)),
      { column: 'Air', role: 'ambient-temperature', unit: 'degF', at: wild(100) },
      { column: 'Speed', role: 'shaft-speed', unit: 'rpm', at: wild(1500) },
      { column: 'I', role: 'solenoid-current', unit: 'mA', at: wild(900) },
      { column: 'On', role: 'solenoid-command', unit: '1', at: () => (random() < 0.9 ? 1 : 0) },
    ],
    clockSteps: rows > 40 ? [{ at_s: times[30] ?? 0, step_s: 3600, cuts: random() < 0.5 }] : [],
  });
}

describe('any log at all', () => {
  it('comes out in the shape of an assessment, with phases that tile it, and is not changed', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 2 ** 31 }),
        fc.oneof(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 13, max: 900 })),
        fc.constantFrom('raised-on-engage', 'held-charged'),
        fc.boolean(),
        (seed, rows, pressureBehaviour, withRig) => {
          const log = senseless(seed, rows);
          const before = log.channels.map(({ values, flags }) => [values.slice(), flags.slice()]);
          const result = assess({
            log,
            rig: withRig ? rig(gauge({ subtractZeroAtRest: seed % 2 === 0 })) : null,
            spec: spec({
              pressureBehaviour: pressureBehaviour === 'held-charged' ? 'held-charged' : 'raised-on-engage',
              operatingTemperature: { low: 30, unit: 'degC' },
              drift: { atMost: 5, unit: 'psi' },
              timeInBand: { atLeast: 0.9 },
              runLength: { atLeast_h: 1 },
              leakDown: { halfTimeAtLeast_s: 10 },
            }),
            judge: null,
            programVersion: '0',
          });
          if (!result.ok) throw new Error(JSON.stringify(result.problems));
          // Writing refuses any number that is not finite.
          const { phases } = assessmentSchema.parse(JSON.parse(writeJson(result.value.assessment)));
          phases.slice(1).forEach((phase, i) => expect(phase.start_s).toBe(phases[i]?.end_s));
          if (phases.length > 0) {
            expect(phases[0]?.start_s).toBe(0);
            expect(phases.at(-1)?.end_s).toBe(log.time_s.at(-1));
          }
          expect(log.channels.map(({ values, flags }) => [values, flags])).toEqual(before);
        },
      ),
      { numRuns: 150, seed: 4 },
    );
  });
  it('comes out the same where channels were read and quantities worked out apart, on a thread of their own', () => {
    let asked = 0;
    const answered = (question: CurrentQuestion | HoldQuestion, isLost: boolean) => {
      const sent = structuredClone(question);
      asked++;
      return () => (isLost ? null : structuredClone(answerApart(sent)));
    };
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 2 ** 31 }),
        fc.integer({ min: 1, max: 900 }),
        fc.constantFrom<Smoothing>({ method: 'median', window_s: 30 }, { method: 'mean', window_s: 90 }),
        fc.boolean(),
        (seed, rows, smoothing, withRig) => {
          const log = senseless(seed, rows);
          const given = {
            log,
            rig: withRig ? rig(gauge({ subtractZeroAtRest: seed % 2 === 0 })) : null,
            spec: spec({ operatingTemperature: { low: 30, unit: 'degC' }, smoothing }),
            judge: null,
            programVersion: '0',
          };
          // What a thread sends is a copy; the smoothing that it was told may be another.
          const told: Smoothing = seed % 3 === 0 ? { method: 'median', window_s: 60 } : smoothing;
          const apart = new Map(
            [...readingsApart(log, given.rig, told)].map((reading) => [
              reading.index,
              structuredClone(reading),
            ]),
          );
          expect(new Set(apart.keys())).toEqual(new Set([1, 2, 3]));
          const readings = readingsOf(log, given.rig, {
            awaitChannel: (index) => apart.get(index) ?? null,
            beginCurrent: (question) => answered(question, seed % 5 === 0) as () => CurrentApart | null,
            beginHold: (question) => answered(question, seed % 7 === 0) as () => HoldApart | null,
          });
          expect(assess({ ...given, readings })).toEqual(assess(given));
        },
      ),
      { numRuns: 60, seed: 5 },
    );
    // Of the others nothing is judged.
    expect(asked).toBeGreaterThan(20);
  });
  it('follows or refuses any choice, and never falls over it', () => {
    const kinds = ['join-engagements', 'gap-not-clock-step', 'hold-start', 'hold-end', 'leave-out'] as const;
    const second = fc.option(fc.integer({ min: -100, max: 2000 }), { nil: null });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 2 ** 31 }),
        fc.array(fc.tuple(fc.constantFrom(...kinds), second, second), { minLength: 1, maxLength: 3 }),
        (seed, made) => {
          const choices = made.map(([what, from_s, to_s]): Choice => ({
            what,
            from_s,
            to_s,
            by: 'test',
            why: 'test',
          }));
          const result = assess({
            log: senseless(seed, 400),
            rig: null,
            spec: spec(),
            judge: { format: 'overdrive-bench/judge', version: 1, choices },
            programVersion: '0',
          });
          if (result.ok) expect(() => writeJson(result.value.assessment)).not.toThrow();
          else expect(result.problems.every(({ code }) => code === 'judge-refused')).toBe(true);
        },
      ),
      { numRuns: 150, seed: 5 },
    );
  });
});
