/** Where a text stops being JSON. */
export interface JsonFault {
  /** From 1. */
  line: number;
  /** What is wrong there, as the end of a sentence. */
  reason: string;
}

class Fault {
  readonly at: number;
  readonly reason: string;
  constructor(at: number, reason: string) {
    this.at = at;
    this.reason = reason;
  }
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
/** Quotes, and between them no control character and only the escapes of RFC 8259, 7. */
// oxlint-disable-next-line no-control-regex -- they are what must not stand in a text
const TEXT = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const WORD = /true|false|null/y;
const BLANKS = /[ \t\n\r]*/y;

/**
 * The first place where a text is not JSON (RFC 8259), in the same words in every engine; engines' own messages name no line, and differ.
 * @returns null for a text that is JSON
 * @example jsonFault('{\n "low": 400,\n}') // { line: 3, reason: 'a key in double quotes is expected, found "}"' }
 */
export function jsonFault(text: string): JsonFault | null {
  let at = 0;
  const skip = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    const found = pattern.exec(text);
    if (found === null) return false;
    at = pattern.lastIndex;
    return true;
  };
  const next = (): string => {
    skip(BLANKS);
    return text.charAt(at);
  };
  const expected = (what: string): Fault =>
    new Fault(at, `${what} is expected, found ${at < text.length ? `"${text.charAt(at)}"` : 'the end'}`);
  const list = (close: string, item: () => void): void => {
    at++;
    if (next() === close) return void at++;
    for (;;) {
      item();
      const mark = next();
      if (mark === close) return void at++;
      if (mark !== ',') throw expected(`"," or "${close}"`);
      at++;
    }
  };
  const value = (): void => {
    const mark = next();
    if (mark === '{')
      return list('}', () => {
        if (next() !== '"' || !skip(TEXT)) throw expected('a key in double quotes');
        if (next() !== ':') throw expected('":"');
        at++;
        value();
      });
    if (mark === '[') return list(']', value);
    if (mark === '"') {
      if (!skip(TEXT)) throw new Fault(at, 'this text has no end, or a sign that must be escaped');
    } else if (!skip(NUMBER) && !skip(WORD)) throw expected('a value');
  };
  try {
    value();
    if (next() !== '') throw expected('nothing more');
    return null;
  } catch (fault) {
    if (!(fault instanceof Fault)) throw fault;
    return { line: text.slice(0, fault.at).split('\n').length, reason: fault.reason };
  }
}
