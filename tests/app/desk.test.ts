import { describe, expect, it, vi } from 'vitest';
import { createDesk, type Page } from '#app/desk.ts';
import { specFromBand } from '#formats/band.ts';
import type { Outcome, WorkerClient } from '#worker/client.ts';
import type { Judged, Understood } from '#worker/messages.ts';

interface Pending {
  question: { kind: string } & Record<string, unknown>;
  settle: (outcome: Outcome<never>) => void;
  stopped: boolean;
}

/** A client that answers when the test says so. */
function begin(others: Partial<Page> = {}) {
  const pending: Pending[] = [];
  const client: WorkerClient = {
    ask(question) {
      const entry: Pending = { question: { ...question }, settle: () => undefined, stopped: false };
      const outcome = new Promise<Outcome<never>>((settle) => (entry.settle = settle));
      pending.push(entry);
      return { outcome, stop: () => void (entry.stopped = true) };
    },
    end: () => undefined,
  };
  const putDown = vi.fn<Page['putDown']>();
  const desk = createDesk(client, {
    now: () => new Date('2026-03-06T10:00:00Z'),
    putDown,
    showPlace: () => undefined,
    ...others,
  });
  const last = (kind: string): Pending => {
    const found = pending.findLast(({ question }) => question.kind === kind);
    if (found === undefined) throw new Error(`nothing of kind ${kind} was asked`);
    return found;
  };
  const settled = () => new Promise((resolve) => setTimeout(resolve, 0));
  async function reply(kind: string, answer: unknown): Promise<void> {
    last(kind).settle({ kind: 'answer', answer } as Outcome<never>);
    await settled();
  }
  return { desk, pending, last, reply, putDown, settled };
}

const understood = (unit: string | null): Understood =>
  ({
    inspection: {
      log: { channels: [{ column: 'P', role: 'pressure', unit, unitFrom: null, median: 425, max: 430 }] },
    },
    excerpt: { delimiter: ',', columns: [], lines: [] },
    outlines: [],
  }) as unknown as Understood;
const judgedAs = (verdict: string): Judged => ({ assessment: { verdict }, series: {} }) as unknown as Judged;
const band = specFromBand('400..420 psi');
const limits = { spec: band.ok ? band.value : null, from: 'typed', fileName: null } as const;
const file = (name: string): File => new File(['x'], name);

describe('desk', () => {
  it('brings in, asks, judges, keeps', async () => {
    const { desk, reply, last } = begin();
    desk.bringIn([file('a.csv')]);
    expect(desk.state()).toMatchObject({ place: 'bring-in', draft: { stage: 'reading' } });
    await reply('inspect', understood(null));
    desk.answer('pressure-unit:P', 'bar');
    expect(last('inspect').question['reading']).toEqual({
      rig: null,
      overrides: [{ column: 'P', unit: 'bar' }],
    });
    await reply('inspect', understood('bar'));
    desk.setLimits(limits);
    void desk.judge();
    expect(last('assess').question).toMatchObject({
      reading: { overrides: [{ column: 'P', unit: 'bar' }] },
      judging: { spec: limits.spec },
    });
    await reply('assess', judgedAs('pass'));
    expect(desk.state()).toMatchObject({ place: 'run', draft: null, run: { kept: 'keeping' } });
    expect(last('keep').question).toMatchObject({ at: '2026-03-06T10:00:00.000Z' });
    await reply('keep', { run: 'r1', seen: { verdict: 'v1', unitRecord: null } });
    expect(desk.state().run?.kept).toBe('kept');
  });

  it('says on the sheet that a run is not kept, and loses nothing of it', async () => {
    const { desk, reply } = begin();
    desk.bringIn([file('a.csv')]);
    await reply('inspect', understood('psi'));
    desk.setLimits(limits);
    void desk.judge();
    await reply('assess', judgedAs('fail'));
    await reply('keep', { problem: { code: 'no-room' } });
    expect(desk.state().run).toMatchObject({ kept: { code: 'no-room' }, judged: judgedAs('fail') });
  });

  it('does not judge before limits are said', async () => {
    const { desk, reply, pending } = begin();
    desk.bringIn([file('a.csv')]);
    await reply('inspect', understood('psi'));
    await desk.judge();
    expect(pending.some(({ question }) => question.kind === 'assess')).toBe(false);
  });

  it('takes several files one after another', async () => {
    const { desk, reply, last } = begin();
    desk.bringIn([file('a.csv'), file('b.csv')]);
    expect(desk.state().batch.map(({ state }) => state)).toEqual(['asked', 'waiting']);
    await reply('inspect', understood('psi'));
    desk.setLimits(limits);
    void desk.judge();
    await reply('assess', judgedAs('fail'));
    expect(desk.state().batch.map(({ verdict }) => verdict)).toEqual(['Fails', null]);
    expect(desk.askNext()).toBe(true);
    expect(last('inspect').question).toMatchObject({ file: { name: 'b.csv' } });
    desk.putBack();
    expect(desk.state()).toMatchObject({ draft: null, place: 'run' });
    expect(desk.state().batch.map(({ state }) => state)).toEqual(['judged', 'put-back']);
    expect(desk.askNext()).toBe(false);
  });

  it('stops the reading of a file that is put back, and a late answer changes nothing', async () => {
    const { desk, reply, last } = begin();
    desk.bringIn([file('a.csv')]);
    const first = last('inspect');
    desk.putBack();
    expect(first.stopped).toBe(true);
    await reply('inspect', understood('psi'));
    expect(desk.state()).toMatchObject({ draft: null, place: 'book' });
  });

  it('shows what could not be read where it is, in words', async () => {
    const { desk, last, settled } = begin();
    desk.bringIn([file('a.csv')]);
    last('inspect').settle({ kind: 'refused', problems: [{ code: 'empty-file', file: 'a.csv' }] });
    await settled();
    expect(desk.state().draft?.trouble).toEqual({
      kind: 'problems',
      problems: [{ code: 'empty-file', file: 'a.csv' }],
    });
  });

  it('opens the last run again; one that is being brought in meanwhile stays', async () => {
    const kept = { file: { key: 'k', name: 'a.csv' }, reading: {}, judging: {}, unitRecord: null };
    const early = begin();
    void early.desk.open('run');
    await early.reply('restore', { run: kept, problem: null });
    await early.reply('assess', judgedAs('pass'));
    expect(early.desk.state()).toMatchObject({ place: 'run', opening: false, run: { kept: 'kept' } });
    const busy = begin();
    void busy.desk.open('run');
    busy.desk.bringIn([file('b.csv')]);
    await busy.reply('restore', { run: kept, problem: null });
    expect(busy.desk.state()).toMatchObject({ place: 'bring-in', run: null, opening: false });
  });

  it('keeps a judged run once the page is at rest, also where another run came onto the sheet meanwhile', async () => {
    let rests = (): void => undefined;
    const atRest = (): Promise<void> => new Promise((resolve) => (rests = resolve));
    const { desk, reply, last, pending, settled } = begin({ atRest });
    desk.bringIn([file('a.csv')]);
    await reply('inspect', understood('psi'));
    desk.setLimits(limits);
    void desk.judge();
    await reply('assess', judgedAs('fail'));
    expect(pending.some(({ question }) => question.kind === 'keep')).toBe(false);
    void desk.openRun('other');
    await reply('restore', {
      run: { file: { key: 'k', name: 'b.csv' }, reading: {}, judging: {}, unitRecord: null },
      problem: null,
    });
    await reply('assess', judgedAs('pass'));
    rests();
    await settled();
    expect(last('keep').question).toMatchObject({ file: { name: 'a.csv' } });
    // Of the other one nothing is being kept.
    expect(desk.state().run).toMatchObject({ file: { name: 'b.csv' }, kept: 'kept' });
  });

  it('saves under the unit’s name', async () => {
    const { desk, reply, putDown } = begin();
    desk.bringIn([file('a.csv')]);
    await reply('inspect', understood('psi'));
    desk.setLimits(limits);
    void desk.judge();
    await reply('assess', judgedAs('pass'));
    void desk.save('json', { unitRecord: null, date: null, paper: 'a4' });
    await reply('save', { bytes: new Uint8Array([123]), type: 'application/json' });
    expect(putDown).toHaveBeenCalledExactlyOnceWith(
      'a assessment.json',
      new Uint8Array([123]),
      'application/json',
    );
    expect(desk.state().saving).toEqual({ as: 'json', state: 'done' });
  });

  it('reads a spec, rig or unit file by what it says it is, and names what is wrong in one', async () => {
    const { desk, reply } = begin();
    desk.bringIn([file('a.csv')]);
    await reply('inspect', understood('psi'));
    await desk.takeFile(new File([JSON.stringify(limits.spec)], 'my-spec.json'));
    expect(desk.state().draft?.limits).toMatchObject({ from: 'file', fileName: 'my-spec.json' });
    await desk.takeFile(
      new File(['{"format":"overdrive-bench/spec","version":1,"name":"x","bnad":1}'], 'bad.json'),
    );
    expect(desk.state().draft?.fileTrouble).toMatchObject({ kind: 'problems' });
    await desk.takeFile(
      new File(['{"format":"overdrive-bench/rig","version":1,"name":"Bench"}'], 'rig.json'),
    );
    expect(desk.state().draft).toMatchObject({
      rig: { from: 'file', rig: { name: 'Bench' } },
      fileTrouble: null,
    });
  });

  it('asks for the next log once, however often it is pressed, and goes back to one that was begun', async () => {
    const { desk, reply } = begin();
    desk.bringIn([file('a.csv'), file('b.csv'), file('c.csv')]);
    await reply('inspect', understood('bar'));
    desk.setLimits(limits);
    const judged = desk.judge();
    await reply('assess', judgedAs('pass'));
    await judged;
    const states = (): unknown => desk.state().batch.map((each) => [each.file.name, each.state]);
    expect(desk.state()).toMatchObject({ place: 'run', draft: null });
    for (let press = 0; press < 2; press++) desk.askNext();
    expect(desk.state()).toMatchObject({ place: 'bring-in', draft: { file: { name: 'b.csv' } } });
    expect(states()).toEqual([
      ['a.csv', 'judged'],
      ['b.csv', 'asked'],
      ['c.csv', 'waiting'],
    ]);
    desk.answer('pressure-unit:P', 'bar');
    desk.goTo('run');
    desk.askNext();
    expect(desk.state()).toMatchObject({ place: 'bring-in', draft: { file: { name: 'b.csv' } } });
    expect(desk.state().draft?.answers.get('pressure-unit:P')).toBe('bar');
  });
});
