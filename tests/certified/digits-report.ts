import { afterAll, expect } from 'vitest';
import { matchingDigits } from './matching-digits.ts';

/** Holds results to a stated number of matching digits, and prints all of a test file's in one table at its end. */
export function digitsReport(
  title: string,
): (name: string, result: number, certified: number, floor: number) => void {
  const lines: string[] = [];
  afterAll(() => {
    console.log(`${title}: matching digits (floor)\n${lines.join('\n')}`);
  });
  return (name, result, certified, floor) => {
    const digits = matchingDigits(result, certified);
    lines.push(`  ${name.padEnd(48)} ${digits.toFixed(1).padStart(5)} (${floor})  ${certified}`);
    expect(digits, `${name}: ${result} against ${certified}`).toBeGreaterThanOrEqual(floor);
  };
}
