/** Whether something that was put aside still has these fields as texts; another version may have put it aside. */
export const hasTexts = <K extends string>(
  value: unknown,
  fields: readonly K[],
): value is Record<K, string> =>
  typeof value === 'object' &&
  value !== null &&
  fields.every((field) => typeof Object.entries(value).find(([key]) => key === field)?.[1] === 'string');
