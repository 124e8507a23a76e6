import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { openBrowserBook } from '#book/browser-store.ts';
import { advise } from '#relief/advise.ts';
import type { Relief } from '#formats/relief.ts';
import type { BookAdjustment, BookUnit } from '#formats/book.ts';
import type { Answers, Reply, Request, RequestKind } from '#worker/messages.ts';
import { changesUpTo, firstTestOf } from '#app/relief-stock.ts';
import { createSession } from '#worker/session.ts';
import { fonts, logBytes, logFile, rig, spec, textFile } from './sample.ts';

type WithoutId<R> = R extends unknown ? Omit<R, 'id'> : never;
const reading = { rig: rig('bench-1.json'), overrides: [] };
const judging = { spec: spec('example-400-420.json'), judge: null };
const five = 'five-over-the-band.csv';

/** The sample run with its pressures lower while engaged, as after a change of the shims. */
function lowered(by: number) {
  const [head = '', ...rows] = new TextDecoder().decode(logBytes(five)).trimEnd().split('\n');
  const text = rows.map((row) => {
    const [time = '', pressure = '', ...others] = row.split(',');
    return [time, Number(pressure) > 300 ? (Number(pressure) - by).toFixed(1) : pressure, ...others].join(
      ',',
    );
  });
  return textFile(`lowered-${by}.csv`, [head, ...text].join('\n'));
}

let books = 0;
function begin() {
  const name = `trail-${++books}`;
  const replies: Reply[] = [];
  let id = 0;
  const handle = createSession({
    programVersion: '1.2.3',
    fonts: () => Promise.resolve(fonts()),
    openBook: () => openBrowserBook(name, () => undefined),
    post: (reply, transfer) => void replies.push(structuredClone(reply, { transfer })),
  });
  async function ask<K extends RequestKind>(question: WithoutId<Request> & { kind: K }): Promise<Answers[K]> {
    const request = { ...question, id: ++id } as Request;
    await handle(request);
    const last = replies.filter((reply) => reply.id === id && reply.kind !== 'progress').at(-1);
    if (last?.kind !== 'answer') throw new Error(JSON.stringify(last));
    return last.answer as Answers[K];
  }
  const keep = async (file: ReturnType<typeof lowered>, serial: string, at: string): Promise<string> => {
    const kept = await ask({
      kind: 'keep',
      file,
      reading,
      judging,
      unitRecord: {
        format: 'overdrive-bench/unit-record',
        version: 1,
        unit: { serial, type: 'Type A' },
      },
      at,
      seen: null,
    });
    if ('problem' in kept) throw new Error(JSON.stringify(kept.problem));
    return kept.run;
  };
  const trail = async (run: string) => {
    const answer = await ask({ kind: 'trail', run, at: '2026-03-09T08:00:00Z' });
    if ('problem' in answer) throw new Error(JSON.stringify(answer.problem));
    return answer;
  };
  return { ask, keep, trail };
}

const change = (id: string, unit: BookUnit, runBefore: string, notedAt: string): BookAdjustment => ({
  format: 'overdrive-bench/book-adjustment',
  version: 1,
  id,
  revision: 1,
  changedAt: notedAt,
  removedAt: null,
  unitId: unit.id,
  date: notedAt.slice(0, 10),
  notedAt,
  before_mm: [1, 0.45],
  after_mm: [0.5, 0.25],
  by: 'M. Example',
  why: 'five over',
  runBefore,
  runAfter: null,
  predicted: { value: 410.3, standardUncertainty: 1.9, unit: 'psi' },
});
const relief: Relief = {
  format: 'overdrive-bench/relief',
  version: 1,
  fitted_mm: [0.5, 0.25],
  stackAtMost_mm: 2,
  repeatability: { standardUncertainty: 1.5, unit: 'psi' },
};

describe('the trail of settings', () => {
  it('links the first later run that has a pressure, and takes both readings with their uncertainty', async () => {
    const { ask, keep, trail } = begin();
    const test = await keep(logFile(five), 'B-0417', '2026-03-04T08:00:00Z');
    const { unit } = await trail(test);
    if (unit === null) throw new Error('no unit');
    const noted = change('a1', unit, test, '2026-03-04T09:00:00Z');
    expect(await ask({ kind: 'edit', edits: [{ entry: noted }], at: noted.notedAt ?? '' })).toBeNull();
    expect((await trail(test)).steps).toMatchObject([{ adjustment: { runAfter: null }, change: null }]);
    // A run that never got warm has no pressure: it is no re-test.
    await keep(logFile('oil-never-warm.csv'), 'B-0417', '2026-03-04T10:00:00Z');
    const again = await keep(lowered(14.6), 'B-0417', '2026-03-05T08:00:00Z');
    const found = await trail(again);
    expect(found.steps[0]?.adjustment.runAfter).toBe(again);
    const [learned] = found.history?.adjustments ?? [];
    expect(learned?.pressureBefore.value).toBeCloseTo(425.27, 1);
    expect(learned?.pressureAfter.value).toBeCloseTo(410.67, 1);
    expect(learned?.pressureAfter.standardUncertainty).toBeGreaterThan(0.5);
    expect(learned).toMatchObject({ serial: 'B-0417', verdictBefore: 'fail', by: 'M. Example' });
    // The record of the re-test tells of the change and draws the test before it; that of the test knows of neither.
    expect(changesUpTo(found)).toMatchObject([{ before_mm: [1, 0.45], after_mm: [0.5, 0.25] }]);
    expect(firstTestOf(found)).toBe(test);
    const early = await trail(test);
    expect(changesUpTo(early)).toEqual([]);
    expect(firstTestOf(early)).toBeNull();
    // Linked for good: asked again it is the same.
    expect((await trail(test)).steps[0]?.adjustment).toMatchObject({ runAfter: again, revision: 2 });
  });

  it('tells a unit what others of its type taught, and offers their relief', async () => {
    const { ask, keep, trail } = begin();
    const first = await keep(logFile(five), 'B-0411', '2026-03-01T08:00:00Z');
    const { unit } = await trail(first);
    if (unit === null) throw new Error('no unit');
    const noted = change('b1', unit, first, '2026-03-01T09:00:00Z');
    await ask({
      kind: 'edit',
      edits: [
        { entry: noted },
        { path: `units/${unit.id}.json`, revision: unit.revision, change: { relief } },
      ],
      at: noted.notedAt ?? '',
    });
    await keep(lowered(14.6), 'B-0411', '2026-03-02T08:00:00Z');
    const other = await keep(lowered(3), 'B-0412', '2026-03-03T08:00:00Z');
    await trail(first);
    const found = await trail(other);
    expect(found.alike).toMatchObject({ serial: 'B-0411', relief: { fitted_mm: [0.5, 0.25] } });
    expect(found.steps).toEqual([]);
    expect(found.history).toMatchObject({ serial: 'B-0412', adjustments: [{ serial: 'B-0411' }] });
    const { advice } = await ask({
      kind: 'advise',
      file: lowered(3),
      reading,
      judging,
      relief,
      history: found.history,
      change_mm: null,
    });
    // 14.6 psi over 0.7 mm.
    expect(advice.pressurePerShim?.value).toBeCloseTo(14.6 / 0.7, 3);
    expect(advice.pressurePerShim?.from).toBe('type');
    expect(advice.remarks.map(({ code }) => code)).toContain('from-one-other-unit');
  });

  it('advises as the core does, and predicts a change that is not among the options', async () => {
    const { ask } = begin();
    const stated: Relief = {
      ...relief,
      pressurePerShim: { value: 22, unit: 'psi/mm', standardUncertainty: 1.2 },
    };
    const question = {
      kind: 'advise',
      file: logFile(five),
      reading,
      judging,
      relief: stated,
      history: null,
    } as const;
    const { advice, predicted } = await ask({ ...question, change_mm: -0.33 });
    const { assessment } = await ask({ kind: 'assess', file: logFile(five), reading, judging });
    expect(advise({ assessment, relief: stated, history: null })).toEqual({ ok: true, value: advice });
    expect(predicted?.value).toBeCloseTo(
      (assessment.quantities.operatingPressure.value ?? NaN) - 0.33 * 22,
      6,
    );
  });

  it('draws the test before a change into the record, and refuses one that is gone', async () => {
    const { ask, keep } = begin();
    const test = await keep(logFile(five), 'B-0417', '2026-03-04T08:00:00Z');
    const again = lowered(14.6);
    const record = async (firstTest: string | null) => {
      const choices = { unitRecord: null, date: null, paper: 'a4', firstTest } as const;
      const { bytes } = await ask({ kind: 'save', file: again, reading, judging, choices, as: 'html' });
      return new TextDecoder().decode(bytes);
    };
    expect(await record(test)).toContain(five);
    expect(await record(null)).not.toContain(five);
    await expect(record('gone')).rejects.toThrow('its run is not in the book any more');
    // Both on one scale: judged by this run's limits, whatever the test was judged by.
    const inBar = spec('example-400-420.json');
    const bar = { ...inBar, pressureBand: { low: 27.5, high: 29, unit: 'bar' as const } };
    const { bytes } = await ask({
      kind: 'save',
      file: again,
      reading,
      judging: { spec: bar, judge: null },
      choices: { unitRecord: null, date: null, paper: 'a4', firstTest: test },
      as: 'html',
    });
    const inOneUnit = new TextDecoder().decode(bytes);
    // 425.3 psi.
    expect(inOneUnit).toContain('29.32');
    expect(inOneUnit).not.toContain('425.3');
    const choices = { unitRecord: null, date: null, paper: 'a4', firstTest: test } as const;
    const { pages } = await ask({ kind: 'preview', file: again, reading, judging, choices });
    expect(pages.join('')).toContain('first test');
  });

  it('lays test and re-test over each other, from their engagement on', async () => {
    const { ask, keep } = begin();
    const test = await keep(logFile(five), 'B-0417', '2026-03-04T08:00:00Z');
    const again = await keep(lowered(14.6), 'B-0417', '2026-03-05T08:00:00Z');
    const laid = await ask({ kind: 'lay-over', runs: [test, again] });
    if ('problem' in laid) throw new Error(JSON.stringify(laid.problem));
    expect(laid).toMatchObject({ unit: 'psi', limits: { low: 400, high: 420 } });
    // A minute at rest before the engagement.
    expect(laid.runs.map(({ from_s }) => Math.round(from_s / 10))).toEqual([-6, -6]);
    const middle = laid.runs.map(({ outline }) => outline.low[400] ?? NaN);
    expect((middle[0] ?? NaN) - (middle[1] ?? NaN)).toBeCloseTo(14.6, 5);
    expect(laid.comparison?.runs.map(({ verdict }) => verdict)).toEqual(['fail', 'pass']);
    // Never another run in its place.
    expect(await ask({ kind: 'lay-over', runs: [test, 'gone'] })).toHaveProperty('problem');
  });
});
