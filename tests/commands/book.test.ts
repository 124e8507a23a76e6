import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { bookSchema, type BookRun } from '#formats/book.ts';
import { expectEqual } from '../log/expect-equal.ts';
import { ownFolder, run, shortRun } from './run-command.ts';

const folder = ownFolder();
const place = (name: string): string => path.join(folder, name);
const book = place('book');
const archive = place('book.zip');
const logs = { a: place('a.csv'), b: place('b.csv'), c: place('c.csv') };

/** Every file under a folder with its bytes, by path. */
const filesOf = (root: string): Map<string, Buffer> =>
  new Map(
    readdirSync(root, { recursive: true, encoding: 'utf8' })
      .sort()
      .filter((name) => statSync(path.join(root, name)).isFile())
      .map((name) => [name, readFileSync(path.join(root, name))]),
  );
/** A run's folder by its log. */
function runOf(root: string, log: string): { at: string; entry: BookRun } {
  for (const id of readdirSync(path.join(root, 'runs'))) {
    const at = path.join(root, 'runs', id);
    const entry = JSON.parse(readFileSync(path.join(at, 'run.json'), 'utf8')) as BookRun;
    if (entry.log.fileName === log) return { at, entry };
  }
  throw new Error(`no run of ${log}`);
}
let copies = 0;
/** A book of its own, to be harmed. */
function copyOfBook(): string {
  const to = place(`copy-${++copies}`);
  cpSync(book, to, { recursive: true });
  return to;
}

beforeAll(async () => {
  writeFileSync(logs.a, shortRun());
  writeFileSync(logs.b, shortRun(1000));
  writeFileSync(logs.c, shortRun(1100));
  const added = await run(['book', 'add', book, logs.a, '--band', '400..420 psi', '--unit', 'B-0417']);
  expect(added).toMatchObject({ code: 0, stderr: '' });
  expect((await run(['book', 'add', book, logs.b, '--band', '500..520 psi', '--unit', 'b-0417 '])).code).toBe(
    0,
  );
  expect((await run(['book', 'add', book, logs.c])).code).toBe(0);
  expect((await run(['book', 'export', book, archive])).code).toBe(0);
});

describe('a book in a folder', () => {
  it('is listed, in words and as data that its schema takes', async () => {
    const { code, stdout } = await run(['book', 'list', book]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^1 unit with 2 runs; 1 run not yet given to a unit\.\n/u);
    expect(stdout).toMatch(/B-0417 .*Fails/u);
    const { units, unassignedRuns } = bookSchema.parse(
      JSON.parse((await run(['book', 'list', book, '--json', '-'])).stdout),
    );
    expect(units[0]?.runs.map(({ fileName, kind }) => [fileName, kind])).toEqual([
      ['a.csv', 'test'],
      ['b.csv', 're-test'],
    ]);
    expect(unassignedRuns).toBe(1);
  });
  it('keeps the log unchanged, and the verdict as assess writes it', async () => {
    const { at, entry } = runOf(book, 'a.csv');
    expect(gunzipSync(readFileSync(path.join(at, 'log.gz'))).equals(readFileSync(logs.a))).toBe(true);
    const { stdout } = await run(['assess', logs.a, '--band', '400..420 psi', '--json', '-']);
    expect(readFileSync(path.join(at, 'assessment-1.json'), 'utf8')).toBe(stdout);
    expect(entry.outline?.low).toHaveLength(200);
    expect(entry.outline?.high.at(100)).toBeCloseTo(410, 0);
  });
  it('recognises a log that it has, and adds nothing', async () => {
    const before = filesOf(book);
    const again = place('renamed.csv');
    writeFileSync(again, readFileSync(logs.a));
    const same = await run(['book', 'add', book, again, '--unit', 'B-0417']);
    expect(same.code).toBe(0);
    expect(same.stdout).toContain('in the book already');
    expect((await run(['book', 'add', book, again, '--unit', 'C-0001'])).code).toBe(1);
    expectEqual(filesOf(book), before);
  });
  it('knows a run by all its files: one of them alone is a run of its own, and that is said', async () => {
    const own = place('in-parts');
    const [heading = '', ...rows] = shortRun(1200).trim().split('\n');
    const [first, second] = [place('part-1.csv'), place('part-2.csv')];
    writeFileSync(first, [heading, ...rows.slice(0, 700), ''].join('\n'));
    writeFileSync(second, [heading, ...rows.slice(700), ''].join('\n'));
    expect((await run(['book', 'add', own, second, first])).code).toBe(0);
    const { at, entry } = runOf(own, 'part-1.csv');
    expect(entry.log.parts.map(({ fileName, file }) => [fileName, file])).toEqual([
      ['part-1.csv', 'log.gz'],
      ['part-2.csv', 'log-2.gz'],
    ]);
    expect(gunzipSync(readFileSync(path.join(at, 'log-2.gz'))).equals(readFileSync(second))).toBe(true);
    const again = await run(['book', 'add', own, first, second]);
    expect(again.stdout).toContain('in the book already');
    const alone = await run(['book', 'add', own, second]);
    expect(alone.code).toBe(0);
    expect(alone.stdout).toContain(`Another run of the book, ${entry.id}, was made of some of these files`);
    expect((await run(['book', 'verify', own])).stdout).toContain('2 runs checked: every log');
  });
  it('is found whole, and so is its archive', async () => {
    for (const which of [book, archive])
      expect(await run(['book', 'verify', which])).toEqual({
        code: 0,
        stdout: '3 runs checked: every log and every verdict is as it was kept.\n',
        stderr: '',
      });
  });
});

describe('copies', () => {
  it('the same book gives the same archive', async () => {
    expect((await run(['book', 'export', book, place('again.zip')])).code).toBe(0);
    expect(readFileSync(place('again.zip')).equals(readFileSync(archive))).toBe(true);
  });
  it('an archive into an empty folder is the same book, byte for byte', async () => {
    expect((await run(['book', 'import', archive, place('other')])).code).toBe(0);
    expectEqual(filesOf(place('other')), filesOf(book));
  });
  it('says what would change, and with --dry-run changes nothing', async () => {
    const { code, stdout } = await run(['book', 'import', archive, place('not-made'), '--dry-run']);
    expect(code).toBe(0);
    expect(stdout).toContain('Add unit B-0417\n');
    expect(stdout).toContain('Would add 4, would replace 0 older');
    expect(existsSync(place('not-made'))).toBe(false);
    expect((await run(['book', 'import', archive, book])).stdout).toContain('4 are the same');
  });
  it('two books that each judged a run again keep both verdicts, and say so', async () => {
    const [one, two] = [copyOfBook(), copyOfBook()];
    const grow = (root: string, decidedAt: string, end: string): string => {
      const { at, entry } = runOf(root, 'a.csv');
      const text = `${readFileSync(path.join(at, 'assessment-1.json'), 'utf8')}${end}`;
      const [first] = entry.assessments;
      if (first === undefined) throw new Error('no verdict');
      const sha256 = createHash('sha256').update(text).digest('hex');
      const assessments = [first, { ...first, decidedAt, sha256, file: 'assessment-2.json' }];
      writeFileSync(path.join(at, 'assessment-2.json'), text);
      writeFileSync(
        path.join(at, 'run.json'),
        JSON.stringify({ ...entry, assessments, revision: 2, changedAt: decidedAt }),
      );
      return text;
    };
    const here = grow(one, '2030-03-05T09:00:00Z', '\n');
    const there = grow(two, '2030-03-06T09:00:00Z', ' \n');
    expect((await run(['book', 'export', two, place('two.zip')])).code).toBe(0);
    const dry = await run(['book', 'import', place('two.zip'), one, '--dry-run']);
    expect(dry.stdout).toContain('would join 1, nothing of either lost');
    const { code, stdout } = await run(['book', 'import', place('two.zip'), one]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Join run a\.csv.*: 1 verdict comes in, the 2 here stay$/mu);
    expect(stdout).toContain('assessment-2.json of the archive is kept as assessment-3.json');
    const { at, entry } = runOf(one, 'a.csv');
    expect(readFileSync(path.join(at, 'assessment-2.json'), 'utf8')).toBe(here);
    expect(readFileSync(path.join(at, 'assessment-3.json'), 'utf8')).toBe(there);
    expect(entry.assessments.map(({ file }) => file)).toEqual([
      'assessment-1.json',
      'assessment-2.json',
      'assessment-3.json',
    ]);
    expect((await run(['book', 'verify', one])).code).toBe(0);
  });
  it('a whole archive mends a damaged and a missing log, and says so first', async () => {
    const harmed = copyOfBook();
    const [a, b] = [runOf(harmed, 'a.csv').at, runOf(harmed, 'b.csv').at];
    const text = gunzipSync(readFileSync(path.join(a, 'log.gz'))).toString();
    writeFileSync(path.join(a, 'log.gz'), gzipSync(text.replace('410.0', '411.0')));
    rmSync(path.join(b, 'log.gz'));
    expect((await run(['book', 'verify', harmed])).stdout).toContain('2 things do not agree');
    const before = filesOf(harmed);
    const dry = await run(['book', 'import', archive, harmed, '--dry-run']);
    expect(dry.stdout).toMatch(/^Mend run a\.csv.*: the log is damaged here and comes whole$/mu);
    expect(dry.stdout).toMatch(/^Mend run b\.csv.*: the log is missing here and comes whole$/mu);
    expect(dry.stdout).toContain(
      'would replace 0 older, would mend 2 damaged or missing; 0 in the book are newer',
    );
    expectEqual(filesOf(harmed), before);
    const { code, stdout } = await run(['book', 'import', archive, harmed]);
    expect(code).toBe(0);
    expect(stdout).toContain('Added 0, replaced 0 older, mended 2 damaged or missing; ');
    for (const at of [a, b])
      expect(
        gunzipSync(readFileSync(path.join(at, 'log.gz'))).equals(
          gunzipSync(readFileSync(path.join(book, 'runs', path.basename(at), 'log.gz'))),
        ),
      ).toBe(true);
    expect((await run(['book', 'verify', harmed])).code).toBe(0);
  });
  it('a serial of which each book made a unit of its own is named', async () => {
    const other = place('own-unit');
    expect((await run(['book', 'add', other, logs.a, '--unit', 'B-0417'])).code).toBe(0);
    const dry = await run(['book', 'import', archive, other, '--dry-run']);
    expect(dry.stdout).toContain('Twice: B-0417 is a unit of the book and another one of the archive');
    expect((await run(['book', 'import', archive, place('none-yet'), '--dry-run'])).stdout).not.toContain(
      'Twice',
    );
  });
  it('a damaged archive is written over no whole log', async () => {
    const [one, two] = [copyOfBook(), copyOfBook()];
    const { at } = runOf(two, 'a.csv');
    writeFileSync(path.join(at, 'log.gz'), gzipSync('another log'));
    expect((await run(['book', 'export', two, place('worse.zip')])).code).toBe(0);
    const { code, stdout } = await run(['book', 'import', place('worse.zip'), one]);
    expect(code).toBe(1);
    expect(stdout).toContain('is not the log that was brought in');
    expectEqual(filesOf(one), filesOf(book));
  });
  it('a damaged archive gives what is whole in it and names the rest', async () => {
    const whole = readFileSync(archive);
    const harmed = Buffer.from(whole);
    const { at, entry } = runOf(book, 'b.csv');
    // One bit in the middle of a log that is stored in the zip as it is.
    const start = whole.indexOf(readFileSync(path.join(at, 'log.gz')));
    expect(start).toBeGreaterThan(0);
    const middle = start + 200;
    harmed.writeUInt8((whole[middle] ?? 0) ^ 1, middle);
    writeFileSync(place('harmed.zip'), harmed);
    expect((await run(['book', 'verify', place('harmed.zip')])).code).toBe(1);
    const { code, stdout } = await run(['book', 'import', place('harmed.zip'), place('saved')]);
    expect(code).toBe(1);
    expect(stdout).toContain(`Left out: runs/${entry.id}/log.gz`);
    const whatCame = filesOf(place('saved'));
    expect([...whatCame.keys()].some((name) => name.includes(entry.id))).toBe(false);
    for (const [name, bytes] of whatCame)
      expect(bytes.equals(readFileSync(path.join(book, name)))).toBe(true);
    expect(readdirSync(path.join(place('saved'), 'runs'))).toHaveLength(2);
    expect((await run(['book', 'verify', place('saved')])).code).toBe(0);
  });
  it('an archive cut short is told, and what came before the cut is saved', async () => {
    const whole = readFileSync(archive);
    writeFileSync(place('cut.zip'), whole.subarray(0, Math.floor(whole.length * 0.7)));
    const { code, stdout } = await run(['book', 'import', place('cut.zip'), place('from-cut')]);
    expect(code).toBe(1);
    expect(stdout).toContain('ends before its end');
    expect((await run(['book', 'list', place('from-cut')])).code).toBe(0);
    expect((await run(['book', 'verify', place('from-cut')])).stdout).not.toContain('SHA-256');
  });
  it('goes over an archive whole, and leaves nothing half-written beside it', async () => {
    writeFileSync(place('old.zip'), 'an older copy');
    expect((await run(['book', 'export', book, place('old.zip')])).code).toBe(0);
    expect(readFileSync(place('old.zip')).equals(readFileSync(archive))).toBe(true);
    expect(readdirSync(folder).filter((name) => name.includes('unfinished'))).toEqual([]);
  });
});

describe('one changed digit is found (exit 1)', () => {
  it.each([
    [
      'in a log',
      (at: string) => {
        const text = gunzipSync(readFileSync(path.join(at, 'log.gz'))).toString();
        writeFileSync(path.join(at, 'log.gz'), gzipSync(text.replace('410.0', '411.0')));
      },
      'is not the log that was brought in',
    ],
    [
      'in an assessment',
      (at: string) => {
        const file = path.join(at, 'assessment-1.json');
        writeFileSync(file, readFileSync(file, 'utf8').replace('"high": 420', '"high": 421'));
      },
      'was changed after it was decided',
    ],
    [
      'in the number that the list shows',
      (at: string) => {
        const file = path.join(at, 'run.json');
        const entry = JSON.parse(readFileSync(file, 'utf8')) as BookRun;
        for (const each of entry.assessments) each.operatingPressure = 411;
        writeFileSync(file, JSON.stringify(entry));
      },
      'was changed by hand: it says 411 for the operating pressure',
    ],
  ])('%s', async (_, harm, sentence) => {
    const copy = copyOfBook();
    const { at } = runOf(copy, 'a.csv');
    const before = filesOf(at);
    harm(at);
    expect(filesOf(at)).not.toEqual(before);
    const { code, stdout } = await run(['book', 'verify', copy]);
    expect(code).toBe(1);
    expect(stdout).toContain(sentence);
    expect(stdout).toContain('3 runs checked: 1 thing does not agree.');
  });
});

describe('what is no book, or no place for one (exit 3)', () => {
  it.each([
    ['a folder of something else', ['verify', folder], 'no book.json in this folder'],
    ['a file of something else', ['verify', logs.a], 'it is not an archive of a book'],
    ['nothing', ['verify', place('nothing')], 'there is no such file or folder'],
    ['adding to a folder of other things', ['add', folder, logs.a], 'holds other things and no book'],
    ['bringing back into a file', ['import', archive, logs.a], 'it is a file'],
    ['an archive inside of no folder', ['export', book, place('none/x.zip')], 'there is no folder'],
    ['exporting no book', ['export', folder, place('none.zip')], 'no book.json'],
  ])('%s', async (_, argv, sentence) => {
    const { code, stdout, stderr } = await run(['book', ...argv]);
    expect({ code, stdout }).toEqual({ code: 3, stdout: '' });
    expect(stderr).toContain(sentence);
    expect(existsSync(place('none.zip'))).toBe(false);
  });
  it('a log that cannot be read leaves the book as it was', async () => {
    const before = filesOf(book);
    writeFileSync(place('letter.csv'), 'Dear customer,\n');
    expect((await run(['book', 'add', book, place('letter.csv')])).code).toBe(3);
    expectEqual(filesOf(book), before);
  });
});

it('what a crash left half-written is passed over, and told where it is in the way', async () => {
  const copy = copyOfBook();
  mkdirSync(path.join(copy, 'runs', 'half'));
  writeFileSync(path.join(copy, 'runs', 'half', 'log.gz.123.unfinished'), 'half');
  writeFileSync(path.join(copy, 'runs', 'half', 'log.gz'), gzipSync('time_s,psi\n'));
  const { code, stdout } = await run(['book', 'verify', copy]);
  expect(code).toBe(0);
  expect(stdout).toContain('runs/half/log.gz belongs to no entry');
  expect(stdout).not.toContain('unfinished');
  expect((await run(['book', 'list', copy])).stdout).toContain('1 unit with 2 runs');
});

describe('called wrongly (exit 4)', () => {
  it.each([
    [['book'], 'one of list, verify'],
    [['book', 'burn', book], 'there is no "burn"'],
    [['book', 'list'], 'list takes PLACE'],
    [['book', 'export', book], 'export takes FOLDER ARCHIVE'],
    [['book', 'add', book], 'add takes FOLDER LOG'],
    [['book', 'verify', book, '--json', '-'], 'verify has no option --json'],
    [['book', 'add', book, logs.a, '--spec', 'a.json', '--band', '400..420 psi'], 'not both'],
  ])('%j', async (argv, sentence) => {
    const { code, stdout, stderr } = await run(argv);
    expect({ code, stdout }).toEqual({ code: 4, stdout: '' });
    expect(stderr).toContain(sentence);
  });
});
