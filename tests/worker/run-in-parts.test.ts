import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { unzipSync } from 'fflate';
import { openBrowserBook } from '#book/browser-store.ts';
import type { BookRun } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import { pdfAttachments } from '#record/pdf-attachments.ts';
import { PdfFile } from '#record/pdf-file.ts';
import type { Answers, LogFile, Reply, Request, RequestKind } from '#worker/messages.ts';
import { createSession } from '#worker/session.ts';
import { shortRun } from '../commands/run-command.ts';
import { fonts, spec } from './sample.ts';

const [heading = '', ...rows] = shortRun(1200).trim().split('\n');
const text = (from: number, to: number): string => `${[heading, ...rows.slice(from, to)].join('\n')}\n`;
const parts = [text(0, 500), text(500, 900), text(900, 1200)];
const part = (index: number): { key: string; blob: Blob; name: string } => ({
  key: `part ${index}`,
  blob: new Blob([parts[index] ?? '']),
  name: `part-${index + 1}.csv`,
});
/** The run of these parts, in the order in which they are given. */
const runOf = (key: string, first: number, ...more: number[]): LogFile => ({
  ...part(first),
  key,
  more: more.map(part),
});
const whole = runOf('whole', 0, 1, 2);
const reading = { rig: null, overrides: [] };
const judging = { spec: spec('example-pressure-only.json'), judge: null };

function begin(name: string) {
  const replies: Reply[] = [];
  const handle = createSession({
    programVersion: '0.0.0',
    fonts: () => Promise.resolve(fonts()),
    openBook: () => openBrowserBook(name, () => undefined),
    post: (reply) => void replies.push(reply),
  });
  let id = 0;
  type Question = Request extends infer R ? (R extends unknown ? Omit<R, 'id'> : never) : never;
  return async <K extends RequestKind>(question: Question & { kind: K }): Promise<Answers[K]> => {
    const own = ++id;
    await handle({ ...question, id: own });
    const last = replies.findLast((reply) => reply.id === own && reply.kind !== 'progress');
    if (last?.kind !== 'answer') throw new Error(JSON.stringify(last));
    return last.answer as Answers[K];
  };
}
const keep = (file: LogFile, at = '2026-03-06T10:00:00.000Z') =>
  ({ kind: 'keep', file, reading, judging, unitRecord: null, at, seen: null }) as const;
async function inBook<T>(name: string, look: (paths: string[], runs: BookRun[]) => T): Promise<T> {
  const opened = await openBrowserBook(name, () => undefined);
  if (!opened.ok) throw new Error('not opened');
  const { entries } = await opened.value.entries();
  const found = look(
    await opened.value.paths(),
    entries.filter((entry): entry is BookRun => entry.format === 'overdrive-bench/book-run'),
  );
  opened.value.close();
  return found;
}

describe('a run in several files', () => {
  it('is the run that one file with the same rows is, whichever order they come in', async () => {
    const ask = begin('same');
    const one = await ask({
      kind: 'assess',
      file: { key: 'one', blob: new Blob([text(0, 1200)]), name: 'one.csv' },
      reading,
      judging,
    });
    for (const file of [whole, runOf('turned', 2, 1, 0)]) {
      const { assessment } = await ask({ kind: 'assess', file, reading, judging });
      expect(assessment.quantities).toEqual(one.assessment.quantities);
      expect(assessment.quantities.operatingPressure.value).toBeCloseTo(410, 1);
      expect(assessment.log.sha256).toBeNull();
      expect(assessment.log.parts?.map(({ fileName }) => fileName)).toEqual([
        'part-1.csv',
        'part-2.csv',
        'part-3.csv',
      ]);
    }
  });

  it('shows the file that it begins with, and counts all bytes while reading', async () => {
    const ask = begin('shown');
    const { excerpt, inspection } = await ask({ kind: 'inspect', file: runOf('turned', 2, 0, 1), reading });
    expect(excerpt.lines[1]?.cells[0]).toBe('0');
    expect(inspection.log.rows).toBe(1200);
    expect(inspection.log.bytes).toBe(parts.reduce((sum, each) => sum + Buffer.byteLength(each), 0));
  });

  it('comes back out of the book with every file as it came, and judges the same', async () => {
    const ask = begin('kept');
    expect(await ask(keep(runOf('turned', 1, 2, 0)))).toMatchObject({ seen: { unitRecord: null } });
    const { run } = await begin('kept')({ kind: 'restore' });
    if (run === null) throw new Error('nothing kept');
    const files = [run.file, ...(run.file.more ?? [])];
    expect(await Promise.all(files.map(({ blob }) => blob.text()))).toEqual(parts);
    expect(files.map(({ name }) => name)).toEqual(['part-1.csv', 'part-2.csv', 'part-3.csv']);
    const again = await ask({ kind: 'assess', file: run.file, reading, judging });
    const before = await ask({ kind: 'assess', file: whole, reading, judging });
    expect(writeJson(again.assessment)).toBe(writeJson(before.assessment));
  });

  it('is another run than one of its files alone: neither gets the verdict of the other', async () => {
    const ask = begin('alone');
    await ask(keep(whole));
    await ask(keep({ ...part(0), key: 'alone' }));
    await ask(keep(runOf('again', 1, 2, 0), '2026-03-06T11:00:00.000Z'));
    await inBook('alone', (_, runs) => {
      const verdicts = new Map(runs.map(({ log, assessments }) => [log.parts.length, assessments.length]));
      expect(verdicts).toEqual(
        new Map([
          [3, 1],
          [0, 1],
        ]),
      );
    });
  });

  it('of which one file is damaged is told, that file named, and mended when all come again', async () => {
    const ask = begin('damaged');
    await ask(keep(whole));
    const opened = await openBrowserBook('damaged', () => undefined);
    if (!opened.ok) throw new Error('not opened');
    const path = (await opened.value.paths()).find((each) => each.endsWith('/log-2.gz')) ?? '';
    await opened.value.write([], [{ path, bytes: new Uint8Array([1, 2, 3]) }]);
    opened.value.close();
    expect(await ask({ kind: 'restore' })).toMatchObject({
      run: null,
      problem: { path, reason: expect.stringMatching(/^part 2 of the log/u) as string },
    });
    await ask(keep(whole));
    const { run } = await ask({ kind: 'restore' });
    expect(await run?.file.more?.[0]?.blob.text()).toBe(parts[1]);
  });

  it('has a record in the zip of many, with every file attached', async () => {
    const ask = begin('records');
    const kept = await ask(keep(runOf('turned', 2, 1, 0)));
    if ('problem' in kept) throw new Error(JSON.stringify(kept.problem));
    const answer = await ask({
      kind: 'records',
      runs: [kept.run],
      look: { date: '2026-03-06', paper: 'a4', language: 'en', leaveOut: [], logo: null, shop: {} },
      to: null,
    });
    if (!('blob' in answer) || answer.blob === null) throw new Error(JSON.stringify(answer));
    const [pdf] = Object.values(unzipSync(new Uint8Array(await answer.blob.arrayBuffer())));
    const attached = pdfAttachments(new PdfFile(pdf ?? new Uint8Array()));
    const logs = attached.filter(({ name }) => name.endsWith('.csv'));
    expect(logs.map(({ bytes }) => new TextDecoder().decode(bytes ?? new Uint8Array()))).toEqual(parts);
  });

  it('takes a correction of a column in the files that have it', async () => {
    const ask = begin('corrected');
    const bare = (index: number, heading: string): string =>
      (parts[index] ?? '').replace(/^.*\n/u, `${heading}\n`);
    const file = {
      key: 'bare',
      blob: new Blob([bare(0, 't (s),p,oil (°C)')]),
      name: 'part-1.csv',
      more: [
        { key: 'bare 2', blob: new Blob([bare(1, 't (s),p,oil (°C)')]), name: 'part-2.csv' },
        { key: 'bare 3', blob: new Blob([bare(2, 't (s),pressure (psi),oil (°C)')]), name: 'part-3.csv' },
      ],
    };
    const overrides = [{ column: 'p', role: 'pressure' as const, unit: 'psi' as const }];
    const { inspection } = await ask({ kind: 'inspect', file, reading: { rig: null, overrides } });
    expect(inspection.log.channels.filter(({ role }) => role === 'pressure')).toMatchObject([
      { column: 'p', unit: 'psi' },
    ]);
    expect(inspection.log.channels).toHaveLength(2);
  });

  it('counts a file that was given twice once', async () => {
    const ask = begin('twice');
    const kept = await ask(keep(runOf('twice', 0, 0, 1, 2)));
    expect(kept).not.toHaveProperty('problem');
    await inBook('twice', (paths) => {
      expect(paths.filter((each) => /log(-\d)?\.gz$/u.test(each))).toHaveLength(3);
    });
  });
});
