/** A sentence as the assessment says it, and as another language does; see {@link saidIn} for the slots. */
export type Saying = readonly [english: string, other: string];

type Piece = string | { kind: 'q' | 'c' | 't'; name: string };
interface Pattern {
  pieces: readonly Piece[];
  other: string;
}

const NUMBER = '[−-]?\\d[\\d\\u00a0]*(?:\\.\\d+)?';
const UNIT =
  '(?:psi|kPa|MPa|Pa|mbar|bar|kgf/cm²|mH₂O|cmH₂O|inHg|mmHg|atm|°C|°F|K|rpm|Hz|mA|A|mV|V|min|s|h|%)';
/** "425.1 ± 3.5 psi", "5 h 18 min", "99.7 %", "0.11 psi/°C", "23", "2026-03-05". */
const quantity = new RegExp(
  `^(?:\\d{4}-\\d{2}-\\d{2}|(?:± )?${NUMBER}(?: ± ${NUMBER})?(?: ${UNIT}(?:/${UNIT})?)?(?: ${NUMBER} ${UNIT})*)$`,
  'u',
);

function patternOf([english, other]: Saying): Pattern {
  const pieces = english
    .split(/(\{[qct]\d\})/u)
    .filter((piece) => piece !== '')
    .map((piece): Piece => {
      const slot = /^\{([qct])\d\}$/u.exec(piece);
      return slot ? { kind: slot[1] as 'q' | 'c' | 't', name: piece } : piece;
    });
  return { pieces, other };
}

/**
 * Says the sentences of an assessment in another language, from one list. An assessment says them in English with its numbers in them, and
 * keeps them so in its file; a record in another language says the same from here. Slots of a saying: `{q1}` a quantity, whose decimal mark
 * is changed; `{c1}` a clause that is in the list itself; `{t1}` a text that stays, such as the name of a column. What the list does not
 * hold stays as it is.
 * @param sayings English without capital and full stop
 */
export function saidIn(sayings: readonly Saying[], decimal: '.' | ','): (text: string) => string {
  const patterns = sayings.map(patternOf);
  const known = new Map<string, string | null>();

  const quantityIn = (text: string): string | null =>
    quantity.test(text) ? text.replace(/(\d)\.(\d)/gu, `$1${decimal}$2`) : null;

  function slot(kind: 'q' | 'c' | 't', text: string): string | null {
    if (text === '') return null;
    if (kind === 't') return text;
    return quantityIn(text) ?? (kind === 'c' ? clause(text) : null);
  }

  /** The slots of a pattern filled from a text, or null; every place where a piece between slots stands is tried. */
  function filled(pieces: readonly Piece[], text: string): Map<string, string> | null {
    const [first, second, ...rest] = pieces;
    if (first === undefined) return text === '' ? new Map() : null;
    if (typeof first === 'string')
      return text.startsWith(first) ? filled(pieces.slice(1), text.slice(first.length)) : null;
    if (second === undefined) {
      const said = slot(first.kind, text);
      return said === null ? null : new Map([[first.name, said]]);
    }
    if (typeof second !== 'string') return null;
    for (let at = text.indexOf(second, 1); at >= 0; at = text.indexOf(second, at + 1)) {
      // The rest first: it is cheaper to fail on than a clause of its own.
      const others = filled(rest, text.slice(at + second.length));
      const own = others && slot(first.kind, text.slice(0, at));
      if (others && own !== null) return others.set(first.name, own);
    }
    return null;
  }

  function clause(text: string): string | null {
    const before = known.get(text);
    if (before !== undefined) return before;
    known.set(text, null);
    let said: string | null = null;
    for (const { pieces, other } of patterns) {
      if (!pieces.every((piece) => typeof piece !== 'string' || text.includes(piece))) continue;
      const slots = filled(pieces, text);
      if (slots === null) continue;
      said = other.replace(/\{[qct]\d\}/gu, (name) => slots.get(name) ?? name);
      break;
    }
    known.set(text, said);
    return said;
  }

  /** A clause or a sentence, with its capital and its full stop. */
  function sentence(text: string): string | null {
    const stop = text.endsWith('.') ? '.' : '';
    const bare = text.slice(0, text.length - stop.length);
    const lower = bare.slice(0, 1).toLowerCase() + bare.slice(1);
    const said = clause(bare) ?? clause(lower);
    if (said === null) return null;
    // A sentence that begins with a number may begin with a word in the other language.
    const capital =
      bare !== lower || (stop !== '' && /^[\d±−]/u.test(bare))
        ? said.slice(0, 1).toUpperCase() + said.slice(1)
        : said;
    return capital + stop;
  }

  return (text) => {
    const whole = sentence(text);
    if (whole !== null) return whole;
    // Sentences one by one; a full stop within a number or a name ends none.
    const parts = text.split(/(?<=[.?]) (?=[A-Z±0-9"])/u);
    return parts.length < 2 ? text : parts.map((part) => sentence(part) ?? part).join(' ');
  };
}
