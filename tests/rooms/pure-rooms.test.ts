import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { pureRooms, rooms } from '../../scripts/make-lint-config.mjs';

const files = (room: string): string[] =>
  readdirSync(path.join('src', room), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/u.test(name) && !name.endsWith('.d.ts'))
    .map((name) => path.join('src', room, name));

/** The code alone: comments and the contents of strings blanked, lines kept. */
function codeOf(file: string): string {
  return readFileSync(file, 'utf8')
    .replace(/\/\*[\s\S]*?\*\//gu, (comment) => comment.replace(/[^\n]/gu, ' '))
    .replace(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/gu, (text) => `'${' '.repeat(text.length - 2)}'`)
    .replace(/\/\/[^\n]*/gu, '');
}
const places = (file: string, pattern: RegExp): string[] =>
  codeOf(file)
    .split('\n')
    .flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1} ${line.trim()}`] : []));

describe.each(pureRooms)('%s', (room) => {
  it('has files', () => {
    expect(files(room).length).toBeGreaterThan(0);
  });
  // Engines differ in its last bit, so the JSON would differ between the app and the command line; small powers are multiplied out.
  it('raises nothing to a power but by a whole number that stands there', () => {
    expect(files(room).flatMap((file) => places(file, /\*\*(?!\s*[23]\b)/u))).toEqual([]);
  });
  it('uses no function of Math whose last bit hangs on the engine', () => {
    const allowed =
      /^(abs|ceil|floor|round|trunc|sign|min|max|sqrt|hypot|imul|clz32|fround|PI|E|LN2|LN10|SQRT2|SQRT1_2|LOG2E|LOG10E)$/u;
    const used = files(room).flatMap((file) =>
      [...codeOf(file).matchAll(/\bMath\.(\w+)/gu)].flatMap(([, name = '']) =>
        allowed.test(name) ? [] : [`${file}: Math.${name}`],
      ),
    );
    expect(used).toEqual([]);
  });
  it('takes nothing out of Math by another way', () => {
    expect(files(room).flatMap((file) => places(file, /\}\s*=\s*Math\b|\bMath\[/u))).toEqual([]);
  });
  it('says of every function that it exports what it does', () => {
    const bare = files(room).flatMap((file) => {
      const lines = readFileSync(file, 'utf8').split('\n');
      return lines.flatMap((line, index) => {
        if (!/^export (?:async )?(?:function\b|const \w+ = (?:\(|<)|class\b|interface\b)/u.test(line))
          return [];
        const before = lines[index - 1]?.trim() ?? '';
        return before.endsWith('*/') ? [] : [`${file}:${index + 1} ${line.slice(0, 70)}`];
      });
    });
    expect(bare).toEqual([]);
  });
});

describe.each(Object.keys(rooms))('%s', (room) => {
  it('names other rooms by their name, never by a path upwards', () => {
    const upwards = files(room).flatMap((file) =>
      [...readFileSync(file, 'utf8').matchAll(/(?:from|import)\s*\(?\s*'(\.\.\/[^']*)'/gu)].map(
        ([, from]) => `${file}: ${from}`,
      ),
    );
    expect(upwards).toEqual([]);
  });
});

describe('the check of a room', () => {
  it('sees a power that is not spelled out, and lets a square pass', () => {
    const power = /\*\*(?!\s*[23]\b)/u;
    expect(power.test('const y = x ** n')).toBe(true);
    expect(power.test('const y = x ** 0.5')).toBe(true);
    expect(power.test('const y = x ** 2')).toBe(false);
  });
});
