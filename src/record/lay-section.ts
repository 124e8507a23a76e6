import { BLACK, line, POINT_MM, text, type Item, type TextWidth } from '#drawing/display-list.ts';
import type { Block, Section } from './content.ts';
import { layTable } from './lay-table.ts';
import {
  baselineIn,
  faceOf,
  leadingOf,
  lineItems,
  paragraph,
  placed,
  rule,
  space,
  strong,
  verdictMark,
  wrapped,
  type Laid,
  type Node,
} from './lay.ts';
import { codeItems } from './square-code.ts';

/** A piece that is never split. Pieces of one table, or of one list, stand under one tag. */
export interface Part {
  laid: Laid;
  group?: { id: string; tag: 'Table' | 'L' | 'P' };
  /** Put before the piece when it is the first on a new page. */
  repeat?: Laid;
}
/** A section laid out in pieces; the first is its heading. */
export interface LaidSection {
  key: string;
  place: Section['place'];
  parts: Part[];
  boxed: boolean;
}

const NUMBER_WIDTH = 6.5;
const GAP_AFTER = 2.3;
export const BLANK_ROW = 6.6;
const BULLET_INDENT = 4.2;
/** Room above a signature's line. */
const SIGNATURE_ROOM = 8;
const BOX_PAD = 2.7;
/** A paragraph of more lines than this may go on on the next page. */
const LONG_PARAGRAPH = 8;

export function laySection(
  section: Section,
  width: number,
  measure: TextWidth,
  blankRows: number,
  endOfRecord: string | null,
): LaidSection {
  const inner = section.boxed === true ? width - 2 * BOX_PAD : width;
  const parts: Part[] = [{ laid: heading(section, inner, measure) }];
  const code = section.blocks.find((block) => block.kind === 'code');
  for (const block of section.blocks) {
    if (code && (block.kind === 'code' || block.kind === 'paragraph')) {
      if (block.kind === 'paragraph') parts.push({ laid: besideCode(block, code, inner, measure) });
      continue;
    }
    parts.push(...blockParts(block, section.key + parts.length, inner, measure, blankRows));
  }
  if (endOfRecord !== null) parts.push({ laid: endWords(endOfRecord, inner, measure) });
  return { key: section.key, place: section.place, parts, boxed: section.boxed === true };
}

function heading(section: Section, width: number, measure: TextWidth): Laid {
  const face = faceOf.heading;
  // The blanks keep number, title and mark apart for whoever hears them.
  const number = `${section.number} `;
  const words = section.mark ? `${section.title} ` : section.title;
  const title = paragraph('H2', [{ text: words }], face, width - NUMBER_WIDTH, measure);
  const top = 0.9;
  const items: Item[] = [
    text(0, top + baselineIn(face), number, { size_pt: face.size, weight: face.weight }),
  ];
  const at = placed(title, NUMBER_WIDTH, top);
  for (const node of at.nodes) items.push(...(node.items ?? []));
  if (section.mark) {
    const mark = verdictMark(
      section.mark.verdict,
      section.mark.word,
      strong({ ...face, leading: face.leading }),
      measure,
    );
    const x = NUMBER_WIDTH + measure(section.title, face.size, face.weight) + 1.4;
    items.push(...placed({ height: 0, artifacts: mark.items, nodes: [] }, x, top).artifacts);
  }
  return {
    height: top + title.height + 0.5,
    // Under the head's own rule the first section needs none.
    artifacts: section.boxed === true || section.number === 1 ? [] : [line(0, 0, width, 0, rule.section)],
    nodes: [{ tag: 'H2', items }],
  };
}

function blockParts(block: Block, id: string, width: number, measure: TextWidth, blankRows: number): Part[] {
  switch (block.kind) {
    case 'table': {
      const table = layTable(block.columns, block.rows, width, block.rowHeads === true, measure);
      return tableParts(table.head, table.rows, id);
    }
    case 'log-table': {
      const table = layTable(block.columns, [block.first], width, false, measure);
      const blank: Laid = {
        height: BLANK_ROW,
        artifacts: [line(0, BLANK_ROW, width, BLANK_ROW, rule.row)],
        nodes: [],
      };
      return [
        ...tableParts(table.head, table.rows, id),
        ...Array.from({ length: blankRows }, () => ({ laid: blank, group: { id, tag: 'Table' as const } })),
      ];
    }
    case 'paragraph': {
      const face = block.small === true ? faceOf.small : faceOf.tableTwo;
      const lines = wrapped(block.spans, face, width, measure);
      if (lines.length > LONG_PARAGRAPH)
        return lines.map((one) => ({
          laid: {
            height: leadingOf(face),
            artifacts: [],
            nodes: [{ tag: 'P', items: lineItems([one], face, width, false, measure) }],
          },
          group: { id, tag: 'P' },
        }));
      const laid = paragraph('P', block.spans, face, width, measure);
      return [{ laid: { ...placed(laid, 0, 0.5), height: laid.height + 0.7 } }];
    }
    case 'bullets':
      return block.items.map((item) => ({ laid: bullet(item, width, measure), group: { id, tag: 'L' } }));
    case 'terms':
      return block.terms.map(({ label, value }) => ({
        laid: term(label, value, width, measure),
        group: { id, tag: 'L' },
      }));
    case 'signatures':
      return [{ laid: signatures(block.labels, block.names, width, measure) }];
    case 'code':
      return [];
  }
}

function tableParts(head: Laid, rows: readonly Laid[], id: string): Part[] {
  const group = { id, tag: 'Table' as const };
  return [{ laid: head, group }, ...rows.map((laid) => ({ laid, group, repeat: head }))];
}

function bullet(words: string, width: number, measure: TextWidth): Laid {
  const face = faceOf.tableTwo;
  const body = placed(
    paragraph('LBody', [{ text: words }], face, width - BULLET_INDENT, measure),
    BULLET_INDENT,
    0.15,
  );
  const dot: Item = {
    kind: 'dot',
    x: 0.9,
    y: 0.15 + baselineIn(face) - 0.35 * face.size * POINT_MM,
    radius: 0.5,
    fill: BLACK,
  };
  return { height: body.height + 0.3, artifacts: [dot], nodes: [{ tag: 'LI', children: body.nodes }] };
}

const TERM_LABEL = 31;
function term(label: string, value: string, width: number, measure: TextWidth): Laid {
  const face = faceOf.tableTwo;
  const left = placed(paragraph('Lbl', [{ text: label }], face, TERM_LABEL - 2, measure), 0, 0.35);
  const right = placed(
    paragraph('LBody', [{ text: value }], face, width - TERM_LABEL, measure),
    TERM_LABEL,
    0.35,
  );
  const height = Math.max(left.height, right.height) + 0.75;
  return {
    height,
    artifacts: [line(0, height, width, height, rule.row)],
    nodes: [{ tag: 'LI', children: [...left.nodes, ...right.nodes] }],
  };
}

/** Three lines to write on, with what is known already printed above them. */
function signatures(
  labels: readonly string[],
  names: readonly (string | null)[],
  width: number,
  measure: TextWidth,
): Laid {
  const gap = 5;
  const each = (width - gap * (labels.length - 1)) / labels.length;
  const face = faceOf.small;
  const artifacts: Item[] = [];
  const nodes: Node[] = [];
  const printed = names.map((name) =>
    name === null || name === '' ? null : paragraph('P', [{ text: name }], faceOf.tableTwo, each, measure),
  );
  const lineAt = Math.max(SIGNATURE_ROOM, ...printed.map((name) => (name === null ? 0 : name.height + 1)));
  let deepest = 0;
  labels.forEach((label, index) => {
    const x = index * (each + gap);
    artifacts.push(line(x, lineAt, x + each, lineAt, rule.signature));
    const above = printed[index];
    const under = placed(paragraph('P', [{ text: label }], face, each, measure), x, lineAt + 0.3);
    deepest = Math.max(deepest, under.height);
    if (above) nodes.push(...placed(above, x, lineAt - above.height - 0.3).nodes);
    nodes.push(...under.nodes);
  });
  return { height: lineAt + 0.3 + deepest, artifacts, nodes };
}

/** The hash lines with the square code at their right: it reaches into the room above the signatures. */
function besideCode(
  block: Extract<Block, { kind: 'paragraph' }>,
  code: Extract<Block, { kind: 'code' }>,
  width: number,
  measure: TextWidth,
): Laid {
  const drawn = codeItems(code.text);
  const laid = placed(paragraph('P', block.spans, faceOf.small, width - drawn.size - 4, measure), 0, 0.5);
  return {
    height: Math.max(laid.height + 0.7, drawn.size - SIGNATURE_ROOM + 2),
    artifacts: [],
    nodes: [
      ...laid.nodes,
      {
        tag: 'Figure',
        alt: code.alt,
        box: { x: width - drawn.size, y: 0.4, width: drawn.size, height: drawn.size },
        items: placed({ height: 0, artifacts: drawn.items, nodes: [] }, width - drawn.size, 0.4).artifacts,
      },
    ],
  };
}

function endWords(words: string, width: number, measure: TextWidth): Laid {
  const face = strong(faceOf.tableTwo);
  const x = (width - measure(words, face.size, 600)) / 2;
  return {
    height: leadingOf(face) + 1.6,
    artifacts: [],
    nodes: [
      { tag: 'P', items: [text(x, 1.2 + baselineIn(face), words, { size_pt: face.size, weight: 600 })] },
    ],
  };
}

/** Pieces one under the other, rows under their table and points under their list, with the frame of a boxed section. */
export function composed(parts: readonly Part[], boxed: boolean, width: number): Laid {
  const pad = boxed ? BOX_PAD : 0;
  let y = boxed ? 1.4 : 0;
  const artifacts: Item[] = [],
    nodes: Node[] = [];
  let open: { id: string; node: Node } = { id: '', node: { tag: 'P' } };
  for (const part of parts) {
    const at = placed(part.laid, pad, y);
    y += part.laid.height;
    artifacts.push(...at.artifacts);
    if (!part.group) {
      open = { id: '', node: { tag: 'P' } };
      nodes.push(...at.nodes);
      continue;
    }
    if (open.id !== part.group.id) {
      open = { id: part.group.id, node: { tag: part.group.tag } };
      nodes.push(open.node);
    }
    // Lines of one paragraph are one piece of text; rows and points are children.
    if (part.group.tag === 'P')
      open.node.items = [...(open.node.items ?? []), ...at.nodes.flatMap(({ items }) => items ?? [])];
    else open.node.children = [...(open.node.children ?? []), ...at.nodes];
  }
  if (boxed) {
    y += 1.6;
    artifacts.push({ kind: 'rect', x: 0, y: 0, width, height: y, stroke: { width: rule.box, ink: BLACK } });
  }
  return { height: y + GAP_AFTER, artifacts, nodes };
}

export const heightOf = (section: LaidSection): number =>
  section.parts.reduce((sum, part) => sum + part.laid.height, 0) + (section.boxed ? 3 : 0) + GAP_AFTER;

/**
 * As many pieces as fit a height, at least heading and two more; the rest goes on under a repeated table head. Null when not even they fit.
 */
export function split(section: LaidSection, room: number): { now: Part[]; later: LaidSection } | null {
  let height = GAP_AFTER,
    count = 0;
  for (const part of section.parts) {
    if (height + part.laid.height > room) break;
    height += part.laid.height;
    count++;
  }
  if (count < Math.min(3, section.parts.length) || count === 0) return null;
  const rest = section.parts.slice(count);
  const [first] = rest;
  const parts =
    first?.repeat && first.group
      ? [{ laid: first.repeat, group: first.group }, ...rest]
      : [{ laid: space(0) }, ...rest];
  return { now: section.parts.slice(0, count), later: { ...section, parts } };
}
