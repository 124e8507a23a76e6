import { describe, expect, it } from 'vitest';
import { createBorderMove, borderPlace } from '#app/border-move.ts';
import { withSaid } from '#app/run-steps.ts';
import type { Run, State } from '#app/state.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { Outcome, WorkerClient } from '#worker/client.ts';
import type { Judging } from '#worker/messages.ts';

const assessed = (verdict: string, start_s = 3000) => ({
  assessment: {
    verdict,
    phases: [
      { kind: 'warm-up', start_s: 60, end_s: start_s },
      { kind: 'hold', start_s, end_s: 9000 },
      { kind: 'gap', start_s: 9000, end_s: 9100 },
      { kind: 'hold', start_s: 9100, end_s: 20_000 },
    ],
  },
  series: {},
});

function begin() {
  let run = {
    file: { key: 'k' },
    reading: {},
    judging: { spec: null, judge: null } satisfies Judging,
    judged: assessed('fail'),
    trial: null,
    undo: [],
    redo: [],
  } as unknown as Run;
  const asked: { judging: Judging; settle: (outcome: Outcome<never>) => void }[] = [];
  const kept: Judging[] = [];
  const client = {
    ask: ({ judging }: { judging: Judging }) => ({
      outcome: new Promise((settle) => asked.push({ judging, settle })),
      stop: () => undefined,
    }),
  } as unknown as WorkerClient;
  const borders = createBorderMove({
    client,
    state: () => ({ run }) as State,
    setRun: (patch) => void (run = { ...run, ...patch }),
    say: () => undefined,
    keep: (now) => Promise.resolve(void kept.push(now.judging)),
    today: () => '2026-03-06',
  });
  const reply = async (outcome: unknown): Promise<void> => {
    asked.at(-1)?.settle(outcome as Outcome<never>);
    await new Promise((resolve) => setTimeout(resolve, 0));
  };
  const setRun = (patch: Partial<Run>): void => void (run = { ...run, ...patch });
  return { borders, asked, kept, reply, run: () => run, setRun };
}
const answer = (verdict: string) => ({ kind: 'answer', answer: assessed(verdict, 4200) });

describe('moving a border', () => {
  it('begins where the hold was worked out, and ends where its last piece ends', () => {
    const { run } = begin();
    expect(borderPlace(run(), 'hold-start')).toBe(3000);
    expect(borderPlace(run(), 'hold-end')).toBe(20_000);
  });

  it('shows what would come of it and keeps nothing by itself', async () => {
    const { borders, reply, run, kept } = begin();
    borders.move('hold-start', 4200);
    expect(run().trial).toMatchObject({ from_s: 3000, to_s: 4200, judging: true });
    await reply(answer('pass'));
    expect(run().trial).toMatchObject({ judging: false, judged: { assessment: { verdict: 'pass' } } });
    expect(run().judged.assessment.verdict).toBe('fail');
    borders.putBackMove();
    expect(run().trial).toBeNull();
    expect(run().judging.judge).toBeNull();
    expect(kept).toEqual([]);
  });

  it('while the hand moves on, asks once more for the last place only', async () => {
    const { borders, asked, reply, run } = begin();
    for (const to_s of [3100, 3200, 3300, 4200]) borders.move('hold-start', to_s);
    expect(asked).toHaveLength(1);
    await reply(answer('pass'));
    expect(asked).toHaveLength(2);
    expect(asked[1]?.judging.judge?.choices).toMatchObject([{ what: 'hold-start', to_s: 4200 }]);
    expect(run().trial).toMatchObject({ judging: true, judged: null });
  });

  it('keeps who, when and why, and is undone and done again in one step each', async () => {
    const { borders, reply, run, kept } = begin();
    borders.move('hold-start', 4200);
    await reply(answer('pass'));
    void borders.keepMove('E. Example', 'cold oil was let in');
    await reply(answer('pass'));
    const choice = {
      what: 'hold-start',
      from_s: 3000,
      to_s: 4200,
      by: 'E. Example',
      on: '2026-03-06',
      why: 'cold oil was let in',
    };
    expect(run()).toMatchObject({ trial: null, judging: { judge: { choices: [choice] } } });
    expect(kept).toHaveLength(1);
    void borders.undo();
    await reply(answer('fail'));
    expect(run().judging.judge).toBeNull();
    void borders.redo();
    await reply(answer('pass'));
    expect(run().judging.judge?.choices).toEqual([choice]);
    expect(kept).toHaveLength(3);
  });

  it('what was said of the unit goes back too, in the order in which it was done, and alone', async () => {
    const { borders, reply, run, kept, setRun } = begin();
    const record = (more: object): UnitRecord => ({
      format: 'overdrive-bench/unit-record',
      version: 1,
      ...more,
    });
    const concession = { reason: 'firm', agreedBy: 'E. Example', on: '2026-03-06' };
    const given = record({ customer: 'Sample', concession });
    setRun({ unitRecord: record({ customer: 'Sample' }) });
    setRun({ unitRecord: given, ...withSaid(run(), given) });
    // The same once more is no step.
    expect(withSaid(run(), structuredClone(given))).toEqual({});
    void borders.judgeByLimits(null);
    await reply(answer('not-assessed'));
    void borders.undo();
    await reply(answer('fail'));
    expect(run().unitRecord).toEqual(given);
    // Noted since, elsewhere: stays.
    setRun({ unitRecord: { ...given, notes: 'later' } });
    await borders.undo();
    expect(run().unitRecord).toEqual(record({ customer: 'Sample', notes: 'later' }));
    await borders.redo();
    expect(run().unitRecord).toEqual(record({ customer: 'Sample', notes: 'later', concession }));
    expect(kept).toHaveLength(4);
  });

  it('moved again it still says where it was worked out', async () => {
    const { borders, reply, run } = begin();
    borders.move('hold-start', 4200);
    await reply(answer('pass'));
    void borders.keepMove('E. Example', 'first');
    await reply(answer('pass'));
    borders.move('hold-start', 5000);
    expect(run().trial).toMatchObject({ from_s: 3000, to_s: 5000 });
  });

  it('says why it cannot stand there', async () => {
    const { borders, reply, run } = begin();
    borders.move('hold-end', 3100);
    const problems = [{ code: 'judge-refused', choice: 0, reason: 'it leaves less than 10 min of hold' }];
    await reply({ kind: 'refused', problems });
    expect(run().trial).toMatchObject({ judging: false, trouble: { kind: 'problems', problems } });
  });
});
