import { describe, expect, it } from 'vitest';
import { createDesk } from '#app/desk.ts';
import type { Problem } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Outcome, WorkerClient } from '#worker/client.ts';
import type { Understood } from '#worker/messages.ts';

interface Pending {
  question: { kind: string } & Record<string, unknown>;
  settle: (outcome: Outcome<never>) => void;
}

function begin() {
  const pending: Pending[] = [];
  const putDown: { name: string; text: string }[] = [];
  const client: WorkerClient = {
    ask(question) {
      const entry: Pending = { question: { ...question }, settle: () => undefined };
      const outcome = new Promise<Outcome<never>>((settle) => (entry.settle = settle));
      pending.push(entry);
      return { outcome, stop: () => undefined };
    },
    end: () => undefined,
  };
  const desk = createDesk(client, {
    now: () => new Date('2026-03-06T10:00:00Z'),
    putDown: (name, bytes) => void putDown.push({ name, text: new TextDecoder().decode(bytes) }),
    showPlace: () => undefined,
  });
  const last = (kind: string): Pending => {
    const found = pending.findLast(({ question }) => question.kind === kind);
    if (found === undefined) throw new Error(`nothing of kind ${kind} was asked`);
    return found;
  };
  const settled = () => new Promise((resolve) => setTimeout(resolve, 0));
  return {
    desk,
    putDown,
    reading: () => last('inspect').question['reading'] as { rig: Rig | null; overrides: unknown[] },
    async answer(kind: string, answer: unknown): Promise<void> {
      last(kind).settle({ kind: 'answer', answer } as Outcome<never>);
      await settled();
    },
    async refuse(problem: Problem): Promise<void> {
      last('inspect').settle({ kind: 'refused', problems: [problem] });
      await settled();
    },
    draft() {
      const { draft } = desk.state();
      if (draft === null) throw new Error('no draft');
      return draft;
    },
  };
}
const understood = {
  inspection: { log: { channels: [{ column: 'P', role: 'pressure', unit: 'psi', median: 425, max: 430 }] } },
  excerpt: { delimiter: ',', columns: ['P'], lines: [] },
  firstRows: [],
  outlines: [],
} as unknown as Understood;
const bench: Rig = { format: 'overdrive-bench/rig', version: 1, name: 'Bench 1' };
const bringIn = ({ desk }: ReturnType<typeof begin>): void => desk.bringIn([new File(['x'], 'a.csv')]);

describe('a log whose logger is remembered', () => {
  it('is read again with its rig', async () => {
    const test = begin();
    bringIn(test);
    await test.answer('inspect', understood);
    await test.answer('recognise', { rig: bench });
    expect(test.draft().rig).toEqual({ rig: bench, from: 'kept' });
    expect(test.reading().rig).toEqual(bench);
  });
  it('is left as it is where something was said by hand meanwhile', async () => {
    const test = begin();
    bringIn(test);
    await test.answer('inspect', understood);
    test.desk.correct({ column: 'P', unit: 'bar' });
    await test.answer('recognise', { rig: bench });
    expect(test.draft().rig).toBeNull();
  });
});

describe('a log without a time', () => {
  it('is shown as samples a second apart until the interval is said, and never judged so', async () => {
    const test = begin();
    bringIn(test);
    await test.refuse({ code: 'no-usable-time', file: 'a.csv', line: null, text: null });
    expect(test.reading().rig?.time).toEqual({ form: 'sample-number', interval_s: 1 });
    await test.answer('inspect', understood);
    expect(test.draft()).toMatchObject({ timeMissing: true, layout: {} });
    test.desk.layOut({ time: { form: 'sample-number', interval_s: 2 } });
    expect(test.reading().rig?.time).toEqual({ form: 'sample-number', interval_s: 2 });
  });
});

describe('a layout put right', () => {
  it('leaves out what was said of columns that the table lacks, and has it back with them', async () => {
    const test = begin();
    bringIn(test);
    await test.answer('inspect', understood);
    test.desk.correct({ column: 'P', unit: 'bar' });
    await test.answer('inspect', understood);
    test.desk.layOut({ dialect: { headerLine: null } });
    await test.refuse({ code: 'column-not-in-log', file: 'a.csv', column: 'P', columns: ['column 1'] });
    expect(test.reading()).toMatchObject({ rig: { dialect: { headerLine: null } }, overrides: [] });
    await test.answer('inspect', understood);
    test.desk.layOutAsFound();
    expect(test.reading()).toEqual({ rig: null, overrides: [{ column: 'P', unit: 'bar' }] });
  });
  it('saved as a rig file is what the log is read with from then on', async () => {
    const test = begin();
    bringIn(test);
    await test.answer('inspect', understood);
    test.desk.layOut({ time: { dateOrder: 'day-month-year' } });
    await test.answer('inspect', understood);
    test.desk.correct({ column: 'P', unit: 'bar' });
    await test.answer('inspect', understood);
    test.desk.saveRig('Logger: A');
    const [file] = test.putDown;
    expect(file?.name).toBe('Logger- A rig.json');
    expect(test.reading()).toEqual({ rig: JSON.parse(file?.text ?? '') as Rig, overrides: [] });
    expect(test.reading().rig).toMatchObject({
      time: { dateOrder: 'day-month-year' },
      channels: [{ column: 'P', unit: 'bar' }],
    });
  });
  it('that cannot be kept is said, and stays as it was said by hand', async () => {
    const test = begin();
    bringIn(test);
    await test.answer('inspect', understood);
    test.desk.correct({ column: 'P', unit: 'bar' });
    await test.answer('inspect', understood);
    void test.desk.rememberLogger('A');
    await test.answer('remember', { problem: { code: 'no-room' } });
    expect(test.draft().remembered).toContain('Save it as a rig file instead');
    expect(test.draft()).toMatchObject({ rig: null, corrections: [{ column: 'P', unit: 'bar' }] });
  });
});
