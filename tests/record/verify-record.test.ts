import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { assess } from '#assessment/assess.ts';
import { writeJson } from '#formats/number.ts';
import { problemSentence, type Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import type { RecordCheck, Verification } from '#formats/verification.ts';
import { joinLogs } from '#log/join-logs.ts';
import { readLog } from '#log/read-log.ts';
import { cleanedLogo } from '#record/logo.ts';
import type { RecordInput } from '#record/record-input.ts';
import { recordPdf } from '#record/record-pdf.ts';
import { verifyRecord, type RunAgain, type VerifyTools } from '#record/verify-record.ts';
import { shortRun } from '../commands/run-command.ts';
import { withAttachment, withObject, withPage } from './altered-pdf.ts';
import { fontsOnDisk } from './fonts-on-disk.ts';
import { fullUnitRecord } from './unit-records.ts';

const VERSION = '0.1.0';
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const value = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(result.problems.map(problemSentence).join(' '));
  return result.value;
};
async function judge(run: RunAgain): ReturnType<VerifyTools['judge']> {
  const logs = run.logs.map(({ bytes, fileName, sha256: hash }) =>
    value(readLog(bytes, { fileName, rig: run.rig, overrides: run.columns, sha256: hash })),
  );
  return assess({ ...run, log: value(joinLogs(logs)) });
}
const tools: VerifyTools = { programVersion: VERSION, fonts: fontsOnDisk, sha256, judge };

const spec: Spec = {
  format: 'overdrive-bench/spec',
  version: 1,
  name: 'Example',
  source: 'an example',
  pressureBand: { low: 400, high: 420, unit: 'psi' },
};
const rig: Rig = {
  format: 'overdrive-bench/rig',
  version: 1,
  name: 'Bench 1',
  channels: [
    {
      column: 'pressure (psi)',
      role: 'pressure',
      unit: 'psi',
      range: { low: 0, high: 600 },
      uncertainty: { percentOfSpan: 0.25, distribution: 'rectangular' },
    },
  ],
};
const log = Buffer.from(shortRun(600));

async function made(
  bytes: Uint8Array,
  more: Partial<RecordInput> = {},
  version = VERSION,
): Promise<Uint8Array> {
  const files = [{ fileName: 'run.csv', sha256: sha256(bytes), bytes }];
  const judged = value(
    await judge({
      logs: files,
      rig,
      spec,
      judge: null,
      columns: more.columns?.map(({ column, unit }) => ({ column, ...(unit ? { unit } : {}) })) ?? [],
      programVersion: version,
      complete: true,
    }),
  );
  return recordPdf({
    ...judged,
    logs: files,
    unitRecord: fullUnitRecord,
    date: '2026-03-06',
    paper: 'a4',
    language: 'en',
    fonts: fontsOnDisk,
    assessmentSha256: sha256(Buffer.from(writeJson(judged.assessment))),
    ...more,
  });
}
const record = await made(log);
/** Made by an earlier version of the program. */
const earlierRecord = await made(log, {}, '0.0.9');
const verify = async (
  bytes: Uint8Array,
  named: Uint8Array[] = [],
  with_: Partial<VerifyTools> = {},
): Promise<Result<Verification>> =>
  verifyRecord(
    { fileName: 'record.pdf', bytes },
    named.map((each) => ({ fileName: 'copy.csv', bytes: each })),
    { ...tools, ...with_ },
  );
const verified = async (...given: Parameters<typeof verify>): Promise<Verification> =>
  value(await verify(...given));
const named = ({ checks }: Verification, id: RecordCheck['id']): RecordCheck | undefined =>
  checks.find((check) => check.id === id);
const differing = ({ checks }: Verification): string[] =>
  checks.filter(({ result }) => result === 'differs').map(({ id }) => id);

describe('an untouched record agrees in everything', () => {
  test.each<[string, Partial<RecordInput>]>([
    ['plain', {}],
    ['Letter, German', { paper: 'letter', language: 'de' }],
    ['in other units', { units: { pressure: 'bar', temperature: 'degF' } }],
    [
      'a drawn logo',
      { logo: value(cleanedLogo(Buffer.from('<svg viewBox="0 0 9 9"><path d="M0 0H9V9Z"/></svg>'), null)) },
    ],
    ['without date and unit record', { date: null, unitRecord: null }],
    ['sections left out', { leaveOut: ['work', 'instruments', 'later'] }],
    ['a column corrected by hand', { columns: [{ column: 'oil (°C)', unit: 'degF' }] }],
  ])('%s', async (_, more) => {
    const verification = await verified(Object.keys(more).length === 0 ? record : await made(log, more));
    expect(verification.checks.map(({ result }) => result)).toEqual(Array(5).fill('agrees'));
    expect(verification.agrees).toBe(true);
  });
  test('the log beside it too', async () => {
    const verification = await verified(record, [log]);
    expect(named(verification, 'named-log')?.result).toBe('agrees');
    expect(verification.agrees).toBe(true);
  });
  test.each<[string, RunAgain['columns']]>([
    ['a first test', []],
    ['a first test whose columns were corrected by hand', [{ column: 'oil (°C)', unit: 'degF' }]],
  ])('%s in it too', async (_, columns) => {
    const first = {
      ...value(
        await judge({
          logs: [{ fileName: 'first.csv', sha256: sha256(log), bytes: log }],
          rig,
          spec,
          judge: null,
          columns,
          programVersion: VERSION,
          complete: true,
        }),
      ),
      columns: columns.map(({ column, unit }) => ({ column, unit })),
      logs: [{ fileName: 'first.csv', bytes: log }],
    };
    const verification = await verified(await made(Buffer.from(shortRun(700)), { earlier: first }));
    expect(verification.agrees).toBe(true);
    expect(verification.checks).toHaveLength(7);
  });
});

describe('what was altered is named', () => {
  test('one digit in the log', async () => {
    const altered = withAttachment(record, 'run.csv', (bytes) => {
      bytes[bytes.indexOf('410.1')] = 0x35;
      return bytes;
    });
    const verification = await verified(altered);
    expect(differing(verification)).toEqual(['log']);
    expect(named(verification, 'log')?.differences[0]?.where).toBe('run.csv');
    expect(named(verification, 'assessment')?.result).toBe('not-checked');
    // With the true log beside it the rest can be checked, and agrees.
    const again = await verified(altered, [log]);
    expect(differing(again)).toEqual(['log']);
    expect(named(again, 'assessment')?.result).toBe('agrees');
    expect(named(again, 'printed')?.result).toBe('agrees');
  });
  test('one digit in the assessment', async () => {
    const altered = withAttachment(record, 'assessment.json', (bytes) =>
      Buffer.from(bytes.toString().replace('"value": 410', '"value": 411')),
    );
    const verification = await verified(altered);
    expect(differing(verification)).toEqual(['assessment']);
    const [difference] = named(verification, 'assessment')?.differences ?? [];
    expect(difference?.where).toBe('assessment.json: quantities.operatingPressure.value');
    expect(difference?.recorded).toMatch(/^411/u);
    expect(difference?.found).toMatch(/^410/u);
    expect(named(verification, 'printed')?.result).toBe('agrees');
  });
  test('the verdict in the assessment', async () => {
    const altered = withAttachment(record, 'assessment.json', (bytes) =>
      Buffer.from(
        bytes.toString().replace(/"verdict": "pass",\n {2}"signs"/u, '"verdict": "fail",\n  "signs"'),
      ),
    );
    expect(named(await verified(altered), 'assessment')?.differences).toEqual([
      { where: 'assessment.json: verdict', recorded: 'fail', found: 'pass' },
    ]);
  });
  test('numbers the same, written otherwise', async () => {
    const altered = withAttachment(record, 'assessment.json', (bytes) =>
      Buffer.from(JSON.stringify(JSON.parse(bytes.toString()))),
    );
    expect(differing(await verified(altered))).toEqual(['assessment']);
  });
  test('limits and bench', async () => {
    for (const [name, from, to, where] of [
      ['spec.json', '400', '300', 'spec.json: pressureBand.low'],
      ['rig.json', '0.25', '0.05', 'rig.json: channels[0].uncertainty.percentOfSpan'],
    ] as const) {
      const altered = withAttachment(record, name, (bytes) =>
        Buffer.from(bytes.toString().replace(from, to)),
      );
      const verification = await verified(altered);
      expect(differing(verification)).toEqual(['limits-and-bench']);
      expect(named(verification, 'limits-and-bench')?.differences).toEqual([
        { where, recorded: to, found: from },
      ]);
    }
  });
  test('a name in what the record was made from: it is not the one that is printed', async () => {
    const altered = withAttachment(record, 'record.json', (bytes) =>
      Buffer.from(bytes.toString().replace(/"serial": "[^"]*"/u, '"serial": "X-1"')),
    );
    const verification = await verified(altered);
    expect(differing(verification)).toEqual(['printed']);
    expect(named(verification, 'printed')?.differences.some(({ found }) => found === 'X-1')).toBe(true);
  });
  test('a printed figure', async () => {
    // Letters of a subset have numbers of their own: the last of a page's texts is put in place of the first.
    const altered = withPage(record, 1, (orders) => {
      const shown = [...orders.matchAll(/\[<[0-9a-f]+>[^\]]*\] TJ/gu)].map(([text]) => text);
      return orders.replace(shown[4] ?? '', shown[5] ?? '');
    });
    const verification = await verified(altered);
    expect(differing(verification)).toEqual(['printed']);
    expect(named(verification, 'printed')?.differences).toMatchObject([{ where: 'page 1' }]);
  });
  test('a line of the chart', async () => {
    const altered = withPage(record, 1, (orders) => orders.replace(/(\d+\.\d+) l\n/u, '1.5 l\n'));
    expect(named(await verified(altered), 'printed')?.differences).toEqual([
      { where: 'page 1', recorded: 'the same words, but drawn otherwise than its log gives', found: null },
    ]);
  });
  test('another log beside it, and from which line on', async () => {
    const other = Buffer.from(shortRun(600).replace('410.1', '410.7'));
    const verification = await verified(record, [other]);
    expect(differing(verification)).toEqual(['named-log']);
    expect(named(verification, 'named-log')?.differences[0]?.where).toMatch(/^copy\.csv, from line \d+ on$/u);
  });
  test('anything added behind its end', async () => {
    const altered = withObject(record, 99_999, Buffer.from('(a note)'));
    expect(differing(await verified(altered))).toEqual(['file']);
  });
});

describe('another version of the program', () => {
  test('that makes the same agrees, and its version is told', async () => {
    const verification = await verified(earlierRecord);
    expect(verification.agrees).toBe(true);
    expect(verification.record.madeBy).toBe('0.0.9');
  });
  test('that laid its pages out otherwise: hashes are looked for, the rest is not called checked', async () => {
    const older = withPage(earlierRecord, 1, (orders) => orders.replace(/(\d+\.\d+) l\n/u, '1.5 l\n'));
    const verification = await verified(older);
    expect(verification.agrees).toBeNull();
    expect(named(verification, 'printed')?.result).toBe('not-checked');
  });
  test('that judged otherwise', async () => {
    const verification = await verified(earlierRecord, [], {
      judge: async (run) =>
        judge({ ...run, spec: { ...spec, pressureBand: { low: 300, high: 320, unit: 'psi' } } }),
    });
    expect(differing(verification)).toContain('assessment');
  });
});

describe('a record without its log', () => {
  const bare = made(log, { logs: [] });
  test('cannot be checked alone', async () => {
    const verification = await verified(await bare);
    expect(verification.agrees).toBeNull();
    expect(named(verification, 'log')?.reason).toContain('name the log');
  });
  test('is checked with the log beside it', async () => {
    expect((await verified(await bare, [log])).agrees).toBe(true);
  });
});

describe('what is no record is refused with its reason', () => {
  test.each<[string, () => Uint8Array, RegExp]>([
    ['nothing', () => new Uint8Array(), /no PDF file/u],
    ['a log', () => log, /no PDF file/u],
    ['cut off', () => record.subarray(0, 50_000), /cut off/u],
    ['cut off by a byte of its end', () => record.subarray(0, record.length - 4), /cut off|follows/u],
    [
      'with something behind its end',
      () => Buffer.concat([record, Buffer.alloc(3000, 32), Buffer.from('x')]),
      /cut off|follows its end/u,
    ],
    [
      'its table of objects shifted',
      () => Buffer.concat([record.subarray(0, 400), Buffer.from('x '), record.subarray(400)]),
      /table/u,
    ],
  ])('%s', async (_, bytes, reason) => {
    const result = await verify(bytes());
    expect(result.ok ? '' : result.problems.map(problemSentence).join(' ')).toMatch(reason);
  });
  test('a PDF of another program, without attachments', async () => {
    const objects = ['<</Type/Catalog/Pages 2 0 R>>', '<</Type/Pages/Count 0/Kids[]>>'];
    let text = '%PDF-1.4\n';
    const places = objects.map((object, index) => {
      const at = text.length;
      text += `${index + 1} 0 obj\n${object}\nendobj\n`;
      return at;
    });
    const table = text.length;
    text += `xref\n0 3\n0000000000 65535 f \n${places.map((at) => `${String(at).padStart(10, '0')} 00000 n \n`).join('')}trailer\n<</Size 3/Root 1 0 R>>\nstartxref\n${table}\n%%EOF\n`;
    const result = await verify(Buffer.from(text));
    expect(result.ok ? '' : result.problems.map(problemSentence).join(' ')).toContain('nothing is attached');
  });
});

test('any flipped byte is found or refused, and never stops the program', async () => {
  // Small steps of a fixed walk over the file.
  const found: (boolean | null | string)[] = [];
  for (let step = 1; step <= 12; step++) {
    const at = (step * 104_729) % record.length;
    const altered = record.slice();
    altered[at] = (altered[at] ?? 0) ^ 0x01;
    const result = await verify(altered);
    found.push(result.ok ? result.value.agrees : 'refused');
  }
  expect(found.filter((each) => each === true)).toEqual([]);
  expect(found.filter((each) => each === false).length).toBeGreaterThan(2);
});
