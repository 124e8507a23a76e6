import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { commands } from '#cli/commands.ts';
import { exitCode } from '#cli/exit-code.ts';
import { recordEndings } from '#cli/record-endings.ts';
import { readJudge, readRelief, readRig, readShop, readSpec } from '#formats/check.ts';
import { formatNames } from '#formats/json-schema.ts';
import { problemSentence, type Result } from '#formats/problem.ts';

const text = readFileSync('docs/command-line.md', 'utf8');
const usage = /```\n(overdrive-bench inspect[\s\S]*?)```/u.exec(text)?.[1] ?? '';
const examples = [...text.matchAll(/```json\n([\s\S]*?)```/gu)].map(([, json = '']) => json);

describe('docs/command-line.md', () => {
  it.each(commands.map((command) => [command.name, command] as const))(
    'names %s with all its options',
    (name, command) => {
      const [, ...parts] = usage.split(/^overdrive-bench (?=\w)/mu);
      const own = parts.filter((part) => part.startsWith(name)).join('\n');
      expect(own).not.toBe('');
      const named = new Set([...own.matchAll(/--([a-z-]+)/gu)].map(([, option = '']) => option));
      expect([...named].sort()).toEqual(Object.keys(command.options).sort());
    },
  );
  it('names no command that there is not', () => {
    const named = new Set([...usage.matchAll(/^overdrive-bench (\w+)/gmu)].map(([, name = '']) => name));
    expect([...named].sort()).toEqual(commands.map(({ name }) => name).sort());
  });
  it('names every exit code and every ending of a record', () => {
    for (const code of Object.values(exitCode)) expect(text).toContain(`| ${code} |`);
    for (const ending of recordEndings) expect(text).toContain(`\`${ending}\``);
  });
  it('names every format', () => {
    const lower = text.toLowerCase().replaceAll('-', ' ');
    for (const name of formatNames) expect(lower).toContain(name.replaceAll('-', ' '));
  });
  it.each([
    ['spec', readSpec],
    ['rig', readRig],
    ['judge', readJudge],
    ['relief', readRelief],
    ['shop', readShop],
  ] as [string, (json: string, file: string) => Result<unknown>][])(
    'shows a %s that is read',
    (name, read) => {
      const example = examples.find((json) => json.includes(`"overdrive-bench/${name}"`)) ?? '';
      const result = read(example, name);
      expect(result.ok ? [] : result.problems.map(problemSentence)).toEqual([]);
    },
  );
});
