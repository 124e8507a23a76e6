import { LINE_ENDS } from './line-ends.ts';
import {
  BLACK,
  moved,
  POINT_MM,
  text,
  WHITE,
  type Box,
  type Item,
  type TextWidth,
  type Weight,
} from '#drawing/display-list.ts';
import type { Verdict } from '#formats/assessment.ts';
import type { Span } from './phrases.ts';
import type { Logo } from './record-input.ts';

/** A tagged piece of a page: leaves carry what is drawn, in reading order. */
export interface Node {
  tag: 'H1' | 'H2' | 'P' | 'L' | 'LI' | 'Lbl' | 'LBody' | 'Table' | 'TR' | 'TH' | 'TD' | 'Figure' | 'Sect';
  items?: Item[];
  children?: Node[];
  alt?: string;
  scope?: 'Column' | 'Row';
  /** A photographed or drawn picture that fills the box. */
  picture?: Logo;
  /** Of a figure: what it fills. */
  box?: Box;
  /** The words are a verdict, set as a mark. */
  verdict?: Verdict;
}

/** Something laid out: its height, what is ornament only, and what is said. Places from its own top left corner. */
export interface Laid {
  height: number;
  artifacts: Item[];
  nodes: Node[];
}

/** Size and leading of a kind of text, in points. */
export interface Face {
  size: number;
  leading: number;
  weight: Weight;
}
export const faceOf = {
  title: { size: 21, leading: 22, weight: 600 },
  headline: { size: 14, leading: 17, weight: 600 },
  body: { size: 10, leading: 13.4, weight: 400 },
  facts: { size: 9.5, leading: 12.4, weight: 400 },
  tableOne: { size: 9.5, leading: 11.4, weight: 400 },
  tableTwo: { size: 9, leading: 11.4, weight: 400 },
  heading: { size: 10.5, leading: 13, weight: 600 },
  small: { size: 8.5, leading: 11, weight: 400 },
  foot: { size: 8, leading: 10, weight: 400 },
} as const satisfies Record<string, Face>;
export const strong = (face: Face): Face => ({ ...face, weight: 600 });

/** Weights of rules, in points on paper, as millimetres. */
export const rule = {
  steel: 1.4 * POINT_MM,
  steelTick: 0.34 * POINT_MM,
  section: 0.9 * POINT_MM,
  tableHead: 0.7 * POINT_MM,
  row: 0.25 * POINT_MM,
  notice: 1.6 * POINT_MM,
  box: 1.2 * POINT_MM,
  signature: 0.5 * POINT_MM,
};

export const leadingOf = (face: Face): number => face.leading * POINT_MM;
/** Where the baseline lies in a line: capitals stand in the middle of it. */
export const baselineIn = (face: Face): number => (face.leading / 2 + 0.349 * face.size) * POINT_MM;

export function movedNode(node: Node, dx: number, dy: number): Node {
  return {
    ...node,
    ...(node.items ? { items: moved(node.items, dx, dy) } : {}),
    ...(node.box ? { box: { ...node.box, x: node.box.x + dx, y: node.box.y + dy } } : {}),
    ...(node.children ? { children: node.children.map((child) => movedNode(child, dx, dy)) } : {}),
  };
}
export function placed(laid: Laid, dx: number, dy: number): Laid {
  return {
    height: laid.height,
    artifacts: moved(laid.artifacts, dx, dy),
    nodes: laid.nodes.map((node) => movedNode(node, dx, dy)),
  };
}
/** One under the other. */
export function stacked(parts: readonly Laid[]): Laid {
  let height = 0;
  const artifacts: Item[] = [],
    nodes: Node[] = [];
  for (const part of parts) {
    const at = placed(part, 0, height);
    artifacts.push(...at.artifacts);
    nodes.push(...at.nodes);
    height += part.height;
  }
  return { height, artifacts, nodes };
}
export const space = (height: number): Laid => ({ height, artifacts: [], nodes: [] });

/** A line of text in pieces of one weight. */
type Line = { text: string; weight: Weight }[];

/**
 * Lines of at most a width. Breaks only at plain blanks; a word wider than the line is broken anywhere, never cut or set smaller.
 * All but the last line keep their blank, so that the words stay apart for whoever reads the text out.
 */
export function wrapped(spans: readonly Span[], face: Face, width: number, measure: TextWidth): Line[] {
  const lines: Line[] = [];
  let line: Line = [],
    used = 0;
  const put = (content: string, weight: Weight): void => {
    const last = line[line.length - 1];
    if (last && last.weight === weight) last.text += content;
    else line.push({ text: content, weight });
  };
  const end = (): void => {
    lines.push(line);
    line = [];
    used = 0;
  };
  for (const word of words(spans, face.weight)) {
    const own = word.parts.reduce((sum, part) => sum + measure(part.text, face.size, part.weight), 0);
    if (used > 0 && used + own > width + 1e-6) end();
    if (own > width) {
      for (const part of word.parts) {
        // Letters draw together and apart: a line is as wide as all of its letters at once, not as each alone.
        let before = used,
          piece = '';
        for (const letter of part.text) {
          if (used > 0 && before + measure(piece + letter, face.size, part.weight) > width) {
            end();
            before = 0;
            piece = '';
          }
          piece += letter;
          put(letter, part.weight);
          used = before + measure(piece, face.size, part.weight);
        }
      }
    } else {
      for (const part of word.parts) put(part.text, part.weight);
      used += own;
    }
    if (word.blank) {
      const weight = word.parts[word.parts.length - 1]?.weight ?? face.weight;
      put(' ', weight);
      used += measure(' ', face.size, weight);
    }
  }
  if (line.length > 0 || lines.length === 0) lines.push(line);
  return lines;
}

/** Words with the weights of their letters: a word may change its weight within. */
function words(
  spans: readonly Span[],
  weight: Weight,
): { parts: { text: string; weight: Weight }[]; blank: boolean }[] {
  const result: { parts: { text: string; weight: Weight }[]; blank: boolean }[] = [];
  let current: { text: string; weight: Weight }[] = [];
  for (const span of spans) {
    const own: Weight = span.strong === true ? 600 : weight;
    span.text
      .replace(LINE_ENDS, ' ')
      .split(/( +)/)
      .forEach((piece) => {
        if (piece === '') return;
        if (piece.startsWith(' ')) {
          result.push({ parts: current, blank: true });
          current = [];
        } else current.push({ text: piece, weight: own });
      });
  }
  if (current.length > 0) result.push({ parts: current, blank: false });
  return result.filter((word) => word.parts.length > 0 || word.blank);
}

/** Text items of lines, set from the left (or to the right edge of the width). */
export function lineItems(
  lines: readonly Line[],
  face: Face,
  width: number,
  right: boolean,
  measure: TextWidth,
): Item[] {
  return lines.flatMap((line, row) => {
    const y = row * leadingOf(face) + baselineIn(face);
    const total = line.reduce((sum, part) => sum + measure(part.text.trimEnd(), face.size, part.weight), 0);
    let x = right ? width - total : 0;
    return line.map((part) => {
      const item = text(x, y, part.text, { size_pt: face.size, weight: part.weight });
      x += measure(part.text, face.size, part.weight);
      return item;
    });
  });
}

/** A paragraph of a width. */
export function paragraph(
  tag: Node['tag'],
  spans: readonly Span[],
  face: Face,
  width: number,
  measure: TextWidth,
): Laid {
  const lines = wrapped(spans, face, width, measure);
  return {
    height: lines.length * leadingOf(face),
    artifacts: [],
    nodes: [{ tag, items: lineItems(lines, face, width, false, measure) }],
  };
}

/** A verdict in a table or beside a heading: plain and heavy, white on black, or in a dashed frame; no colour. */
export function verdictMark(
  verdict: Verdict,
  word: string,
  face: Face,
  measure: TextWidth,
): { width: number; items: Item[] } {
  const own = measure(word, face.size, 600);
  const y = baselineIn(face);
  if (verdict === 'pass')
    return { width: own, items: [text(0, y, word, { size_pt: face.size, weight: 600 })] };
  const height = face.size * POINT_MM * 1.22,
    pad = 1.3;
  const box = { x: 0, y: y - height * 0.77, width: own + 2 * pad, height };
  return verdict === 'fail'
    ? {
        width: box.width,
        items: [
          { kind: 'rect', ...box, fill: BLACK },
          text(pad, y, word, { size_pt: face.size, weight: 600, ink: WHITE }),
        ],
      }
    : {
        width: box.width,
        items: [
          { kind: 'rect', ...box, stroke: { width: 0.25, ink: BLACK, dash: [0.9, 0.6] } },
          text(pad, y, word, { size_pt: face.size, weight: 600 }),
        ],
      };
}
