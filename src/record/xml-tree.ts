/** An element of an XML text with what is within it; texts are kept where a style sheet needs them. */
export interface XmlElement {
  name: string;
  attributes: ReadonlyMap<string, string>;
  children: XmlElement[];
  text: string;
}

const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
const DEEPEST = 60;

/** Character references and the five names that XML has by itself; others are none. */
function decoded(text: string): string {
  return text.replace(
    /&(?:#(\d{1,7})|#x([\da-f]{1,6})|(\w+));/giu,
    (whole, ten?: string, hex?: string, name?: string) => {
      const code = ten !== undefined ? Number(ten) : hex !== undefined ? Number.parseInt(hex, 16) : null;
      if (code !== null) return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '';
      return entities[name ?? ''] ?? whole;
    },
  );
}

/**
 * A small XML reader: elements, attributes, text and CDATA. Comments, instructions and a document type without entities of its own are
 * passed over; no name is ever looked up outside.
 * @returns the root, or null where the text is not whole XML or declares entities
 */
export function xmlTree(text: string): XmlElement | null {
  const token =
    /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<!\[CDATA\[([\s\S]*?)\]\]>|<!DOCTYPE(?:[^<>[\]]|\[[^<>]*\])*>|<(\/?)([A-Za-z_][\w.:-]*)((?:\s+[\w.:-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>|([^<]+)/giuy;
  const open: XmlElement[] = [];
  let root: XmlElement | null = null;
  while (token.lastIndex < text.length) {
    const found = token.exec(text);
    if (found === null) return null;
    const [, data, closes, name, attributes = '', empty, plain] = found;
    const parent = open.at(-1);
    if (plain !== undefined || data !== undefined) {
      if (parent) parent.text += data ?? decoded(plain ?? '');
      else if ((data ?? plain ?? '').replace('\ufeff', '').trim() !== '') return null;
      continue;
    }
    if (name === undefined) continue;
    if (closes === '/') {
      if (parent?.name !== name) return null;
      open.pop();
      continue;
    }
    const element: XmlElement = { name, attributes: attributesOf(attributes), children: [], text: '' };
    if (parent) parent.children.push(element);
    else if (root === null) root = element;
    else return null;
    if (empty !== '/') open.push(element);
    if (open.length > DEEPEST) return null;
  }
  return open.length === 0 ? root : null;
}

function attributesOf(text: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const [, name = '', double, single] of text.matchAll(/([\w.:-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/gu))
    found.set(name, decoded(double ?? single ?? ''));
  return found;
}
