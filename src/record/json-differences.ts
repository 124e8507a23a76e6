import type { RecordDifference } from '#formats/verification.ts';

/** Where two pieces of plain data differ, place by place, in the order of the first. @param at name of the whole, put before each place */
export function jsonDifferences(recorded: unknown, found: unknown, at: string): RecordDifference[] {
  const differences: RecordDifference[] = [];
  compare(recorded, found, '', (place, a, b) =>
    differences.push({ where: place === '' ? at : `${at}: ${place}`, recorded: shown(a), found: shown(b) }),
  );
  return differences;
}

type Report = (place: string, recorded: unknown, found: unknown) => void;

function compare(a: unknown, b: unknown, place: string, report: Report): void {
  if (Array.isArray(a) && Array.isArray(b)) {
    for (let i = 0; i < Math.max(a.length, b.length); i++) compare(a[i], b[i], `${place}[${i}]`, report);
    return;
  }
  if (isObject(a) && isObject(b)) {
    const left = new Map(Object.entries(a)),
      right = new Map(Object.entries(b));
    for (const key of new Set([...left.keys(), ...right.keys()]))
      compare(left.get(key), right.get(key), place === '' ? key : `${place}.${key}`, report);
    return;
  }
  if (!Object.is(a, b)) report(place, a, b);
}

const isObject = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const MOST_LETTERS = 120;
function shown(value: unknown): string | null {
  if (value === undefined) return null;
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > MOST_LETTERS ? `${text.slice(0, MOST_LETTERS)}…` : text;
}
