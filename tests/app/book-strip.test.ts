import { describe, expect, it } from 'vitest';
import { offPaper } from '#app/book-strip.tsx';

describe('a run that lies off the paper of its line', () => {
  const outline = (value: number, blips = 0) => ({
    unit: 'psi' as const,
    low: Array.from({ length: 200 }, (_, i) => (i < blips ? 410 : value)),
    high: Array.from({ length: 200 }, (_, i) => (i < blips ? 411 : value + 1)),
  });
  // 400 to 420 psi between 38 and 15.
  const y = (value: number): number => 38 - ((value - 400) / 20) * 23;

  it('is pointed to, above or below; one that is drawn is not', () => {
    expect(offPaper(outline(148), y)).toBe('below');
    expect(offPaper(outline(560), y)).toBe('above');
    expect(offPaper(outline(148, 10), y)).toBe('below');
    expect(offPaper(outline(148, 40), y)).toBeNull();
    expect(offPaper(outline(425), y)).toBeNull();
    expect(offPaper(null, y)).toBeNull();
  });
});
