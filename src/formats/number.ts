/** Significant digits of every number in our files (contract, "Numbers and units"). */
export const SIGNIFICANT_DIGITS = 12;

/**
 * A number as our files hold it: 12 significant digits, no negative zero. Every decision is taken on numbers so rounded,
 * since the last bits of some functions differ between JavaScript engines. Idempotent.
 * @param value finite
 * @returns the nearest double to the 12-digit decimal
 */
export function rounded(value: number): number {
  const result = Number(value.toPrecision(SIGNIFICANT_DIGITS));
  return result === 0 ? 0 : result;
}

/**
 * JSON text of plain data, every number rounded to 12 digits, two blanks of indent, a line feed at the end.
 * @throws RangeError naming the path when a number is not finite: a mistake of ours, never written.
 */
export function writeJson(data: unknown): string {
  return `${JSON.stringify(roundedData(data, '$'), null, 2)}\n`;
}

/** Deep copy of plain data with every number rounded; keys with undefined are left out. */
export function roundedData<T>(data: T, path = '$'): T {
  return copy(data, path) as T;
}

function copy(data: unknown, path: string): unknown {
  if (typeof data === 'number') {
    if (!Number.isFinite(data)) throw new RangeError(`${path} is ${data}`);
    return rounded(data);
  }
  if (Array.isArray(data)) return data.map((item, index) => copy(item, `${path}[${index}]`));
  if (typeof data === 'object' && data !== null) {
    const result: Record<string, unknown> = {};
    for (const [key, value] of Object.entries(data))
      if (value !== undefined) result[key] = copy(value, `${path}.${key}`);
    return result;
  }
  return data;
}
