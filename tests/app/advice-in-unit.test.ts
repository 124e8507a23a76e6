import { expect, it } from 'vitest';
import { adviceInUnit } from '#app/advice-in-unit.ts';
import { instruction, optionReason, perMillimetreText, readingText } from '#formats/advice-words.ts';
import { advise } from '#relief/advise.ts';
import { assessedAt } from '../relief/sample-assessment.ts';

const advised = advise({
  assessment: assessedAt(425.1),
  relief: {
    format: 'overdrive-bench/relief',
    version: 1,
    pressurePerShim: { value: 21.4, unit: 'psi/mm', standardUncertainty: 1.2 },
    repeatability: { standardUncertainty: 1.5, unit: 'psi' },
    fitted_mm: [1, 0.45],
    stock: [{ thickness_mm: 0.25, count: null }],
    stackAtMost_mm: 2,
  },
  history: null,
});
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

it('says in bar what was advised in psi, chances and stacks as they were', () => {
  if (!advised.ok) throw new Error('not advised');
  const bar = adviceInUnit(advised.value, 'bar');
  // 1 psi is 0.0689476 bar (NIST SP 811): 425.1 psi = 29.310 bar, ± 3.5 psi = ± 0.24 bar; 21.4 psi/mm = 1.475 bar/mm.
  expect(plain(readingText(bar))).toBe('29.31 ± 0.24 bar');
  expect(plain(perMillimetreText(bar))).toBe('1.48 ± 0.17 bar/mm');
  const [best] = bar.options;
  if (best === undefined) throw new Error('no option');
  expect(plain(instruction(best, [1, 0.45]))).toMatch(/should give 28\.\d+ ± 0\.\d+ bar/u);
  for (const option of bar.options) expect(plain(optionReason(option, bar))).not.toContain('psi');
  const same = ({ fit_mm, probabilityOfPass }: typeof best): object => ({ fit_mm, probabilityOfPass });
  expect(bar.options.map(same)).toEqual(advised.value.options.map(same));
  expect(adviceInUnit(advised.value, 'psi')).toBe(advised.value);
});
