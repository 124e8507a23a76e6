import { execFile } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pureRooms, rooms, text } from '../../scripts/make-lint-config.mjs';

interface Finding {
  code: string;
  message: string;
  filename: string;
}
const root = process.cwd();
let copy = '';

/** An empty house with the same lint rules: one file in each room, so that a finding can only come from what the test wrote. */
beforeAll(async () => {
  copy = await mkdtemp(path.join(os.tmpdir(), 'rooms-'));
  await writeFile(path.join(copy, '.oxlintrc.json'), text());
  await cp(path.join(root, 'package.json'), path.join(copy, 'package.json'));
  await cp(path.join(root, 'tsconfig.json'), path.join(copy, 'tsconfig.json'));
  await symlink(path.join(root, 'node_modules'), path.join(copy, 'node_modules'));
  for (const room of Object.keys(rooms)) {
    await mkdir(path.join(copy, 'src', room), { recursive: true });
    await writeFile(path.join(copy, 'src', room, 'thing.ts'), 'export const thing = 1;\n');
  }
});
afterAll(() => rm(copy, { recursive: true, force: true }));

/** What the lint says about these files, by their name. */
function lint(): Promise<Finding[]> {
  return new Promise((resolve, reject) => {
    execFile(
      path.join(root, 'node_modules', '.bin', 'oxlint'),
      ['--format', 'json', '.'],
      { cwd: copy, maxBuffer: 64 * 1024 * 1024 },
      (_, stdout) => {
        try {
          resolve((JSON.parse(stdout) as { diagnostics: Finding[] }).diagnostics);
        } catch (error) {
          reject(error instanceof Error ? error : new Error(String(error)));
        }
      },
    );
  });
}
const importing = (from: string): string =>
  `import { thing } from '${from}';\nexport const copied = thing;\n`;
const isWall = ({ code }: Finding): boolean => code.includes('no-restricted-imports');

describe('the import table', () => {
  const names = Object.keys(rooms);
  /** Every room's file towards every other room, a package and Node, in one go. */
  const cases = names.flatMap((room) => [
    ...names
      .filter((other) => other !== room)
      .map((other) => ({
        room,
        from: `#${other}/thing.ts`,
        allowed: rooms[room]?.rooms.includes(other) === true,
      })),
    { room, from: 'react', allowed: rooms[room]?.packages.includes('react') === true },
    { room, from: 'zod', allowed: rooms[room]?.packages.includes('zod') === true },
    { room, from: 'node:fs', allowed: rooms[room]?.packages.includes('node:') === true },
    { room, from: 'node:fs/promises', allowed: rooms[room]?.packages.includes('node:') === true },
    { room, from: '../units/thing.ts', allowed: false },
    { room, from: './thing.ts', allowed: true },
  ]);
  const fileOf = (index: number): string => `case-${index}.ts`;

  it('is what the lint enforces, for every room against every other', async () => {
    await Promise.all(
      cases.map(({ room, from }, index) =>
        writeFile(path.join(copy, 'src', room, fileOf(index)), importing(from)),
      ),
    );
    const refused = new Set((await lint()).filter(isWall).map(({ filename }) => path.basename(filename)));
    const wrong = cases.filter(({ allowed }, index) => refused.has(fileOf(index)) === allowed);
    expect(wrong).toEqual([]);
    expect(cases.filter(({ allowed }) => !allowed).length).toBeGreaterThan(150);
  });

  it('keeps a room closed until it stands in the table', async () => {
    await mkdir(path.join(copy, 'src', 'attic'));
    await writeFile(path.join(copy, 'src', 'attic', 'new.ts'), importing('#units/thing.ts'));
    const found = (await lint()).filter((finding) => finding.filename.includes('attic'));
    expect(found.some(isWall)).toBe(true);
  });

  it('lets only the chart know the chart library', async () => {
    await mkdir(path.join(copy, 'src', 'app', 'chart'), { recursive: true });
    await writeFile(path.join(copy, 'src', 'app', 'chart', 'strip.ts'), importing('uplot'));
    await writeFile(path.join(copy, 'src', 'app', 'page.ts'), importing('uplot'));
    const refused = (await lint()).filter(isWall).map(({ filename }) => path.basename(filename));
    expect(refused).toContain('page.ts');
    expect(refused).not.toContain('strip.ts');
  });

  it('keeps clock, chance, page, console and the functions that differ between engines out of the pure rooms', async () => {
    const lines = [
      'Date.now()',
      'Math.random()',
      'Math.exp(1)',
      'Math.pow(2, 0.5)',
      'Math.sin(1)',
      'window.name',
      'console.log(1)',
      'process.cwd()',
      'performance.now()',
    ];
    await Promise.all(
      pureRooms.flatMap((room) =>
        lines.map((line, index) =>
          writeFile(
            path.join(copy, 'src', room, `impure-${index}.ts`),
            `export const found: unknown = ${line};\n`,
          ),
        ),
      ),
    );
    const found = new Set(
      (await lint())
        .filter(({ code }) => /no-restricted-(globals|properties)|no-console/u.test(code))
        .map(({ filename }) => path.relative(copy, path.resolve(copy, filename))),
    );
    const missed = pureRooms.flatMap((room) =>
      lines.flatMap((line, index) =>
        found.has(path.join('src', room, `impure-${index}.ts`)) ? [] : [`${room}: ${line}`],
      ),
    );
    expect(missed).toEqual([]);
  });
});

describe('the rules on disk', () => {
  it('are the ones that the table makes (npm run lint-config writes them)', async () => {
    expect(await readFile('.oxlintrc.json', 'utf8')).toBe(text());
  });
  it('know every room, and every room has its line in package.json and in src/README.md', async () => {
    const there = (await readdir('src', { withFileTypes: true }))
      .filter((entry) => entry.isDirectory())
      .map((entry) => entry.name)
      .sort();
    expect(there).toEqual(Object.keys(rooms).sort());
    const { imports } = JSON.parse(await readFile('package.json', 'utf8')) as {
      imports: Record<string, string>;
    };
    const table = await readFile('src/README.md', 'utf8');
    for (const room of there) {
      expect(imports[`#${room}/*`]).toBe(`./src/${room}/*`);
      expect(table).toContain(`\n| ${room} |`);
    }
  });
  it('are the table that src/README.md prints', async () => {
    const rows = (await readFile('src/README.md', 'utf8'))
      .split('\n')
      .map((line) => line.split('|').map((cell) => cell.trim()))
      .filter((cells) => cells.length === 7);
    const names = (cell = ''): string[] => (cell === '–' ? [] : cell.split(', '));
    for (const [room, { rooms: may, packages }] of Object.entries(rooms)) {
      const row = rows.find((cells) => cells[1] === room);
      expect({ room, rooms: names(row?.[3]), packages: names(row?.[4]) }).toEqual({
        room,
        rooms: may,
        packages,
      });
    }
  });
});
