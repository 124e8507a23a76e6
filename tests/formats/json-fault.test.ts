import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonFault } from '#formats/json-fault.ts';

describe('where a text stops being JSON', () => {
  it.each([
    ['{\n "low": 400,\n}', 3, 'a key in double quotes is expected, found "}"'],
    ['{\n "format": \n}', 3, 'a value is expected, found "}"'],
    ['{ "low" 400 }', 1, '":" is expected, found "4"'],
    ['{ "low": 400\n "high": 420 }', 2, '"," or "}" is expected, found """'],
    ['[1, 2', 1, '"," or "]" is expected, found the end'],
    ['{ "low": 1,5 }', 1, 'a key in double quotes is expected, found "5"'],
    ['{ "name": "Bench\n1" }', 1, 'this text has no end, or a sign that must be escaped'],
    ["{ 'low': 1 }", 1, 'a key in double quotes is expected, found "\'"'],
    ['{ "low": 01 }', 1, '"," or "}" is expected, found "1"'],
    ['{} // limits', 1, 'nothing more is expected, found "/"'],
    ['', 1, 'a value is expected, found the end'],
    ['{ "low": NaN }', 1, 'a value is expected, found "N"'],
  ])('%j', (text, line, reason) => {
    expect(jsonFault(text)).toEqual({ line, reason });
  });

  const isJson = (text: string): boolean => {
    try {
      JSON.parse(text);
      return true;
    } catch {
      return false;
    }
  };
  it('agrees with JSON.parse on what is JSON', () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        expect(jsonFault(text)).toBeNull();
      }),
      { seed: 1 },
    );
    fc.assert(
      fc.property(
        fc.json(),
        fc.nat(),
        fc.constantFrom('', ',', '"', '}', ']', ':', '\\', '0', '-', 'e', '\n', '\t', 't', '.'),
        (text, where, mark) => {
          const at = where % (text.length + 1);
          const broken = text.slice(0, at) + mark + text.slice(at + (where % 2));
          expect(jsonFault(broken) === null).toBe(isJson(broken));
        },
      ),
      { numRuns: 2000, seed: 1 },
    );
  });
});
