import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readAdjustments, readJudge, readRelief, readRig, readSpec, readUnitRecord } from '#formats/check.ts';
import { problemSentence } from '#formats/problem.ts';

// Files of each version as they were written then; never edited. A shape that no longer reads them needs a new version.
it.each([
  ['version-1/spec.json', readSpec],
  ['version-1/rig.json', readRig],
  ['version-1/judge.json', readJudge],
  ['version-1/relief.json', readRelief],
  ['version-1/adjustments.json', readAdjustments],
  ['version-1/unit-record.json', readUnitRecord],
] as const)('%s stays readable', (file, read) => {
  const text = readFileSync(new URL(file, import.meta.url), 'utf8');
  const result = read(text, file);
  expect(result.ok ? [] : result.problems.map(problemSentence)).toEqual([]);
  expect(result.ok && JSON.parse(JSON.stringify(result.value))).toEqual(JSON.parse(text));
});
