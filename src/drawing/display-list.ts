/**
 * What is drawn, as plain data: millimetres from the top left corner, x to the right, y down; type sizes in points.
 * The same list makes the SVG text and the PDF, so the two cannot differ.
 */

/** Ink as a six-digit hex colour, "#000000". */
export type Ink = string;
export const BLACK: Ink = '#000000';
export const WHITE: Ink = '#ffffff';

/** How a line is drawn: width in millimetres, ink, dashes. */
export interface Stroke {
  width: number;
  ink: Ink;
  /** Lengths of dash and space by turns. */
  dash?: readonly number[];
}
/** A rectangle in millimetres, from its top left corner. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}
export type Weight = 400 | 600;
/** A text with its anchor, in millimetres and points. */
export interface TextItem {
  kind: 'text';
  /** Anchor point on the baseline. */
  x: number;
  y: number;
  text: string;
  size_pt: number;
  weight: Weight;
  anchor: 'start' | 'middle' | 'end';
  ink: Ink;
  /** Written upwards, turned about the anchor point. */
  upwards?: boolean;
}
export type Item =
  /** Open polylines, each x, y, x, y …, one stroke for all. */
  | { kind: 'lines'; lines: readonly (readonly number[])[]; stroke: Stroke }
  /** Closed rings, each x, y, x, y …, filled and perhaps edged. */
  | { kind: 'area'; rings: readonly (readonly number[])[]; fill?: Ink; stroke?: Stroke }
  | ({ kind: 'rect'; fill?: Ink; stroke?: Stroke } & Box)
  | { kind: 'dot'; x: number; y: number; radius: number; fill: Ink }
  | TextItem
  | { kind: 'clip'; box: Box; items: Item[] };

/** A drawing with its outer size in millimetres. */
export interface Drawing {
  width: number;
  height: number;
  items: Item[];
}

/**
 * Width of a text in millimetres.
 * @param size_pt type size in points
 */
export type TextWidth = (text: string, size_pt: number, weight: Weight) => number;

/** One typographic point: 1/72 inch. Source: ISO 32000-1, 8.3.2.3 (default user space unit). */
export const POINT_MM = 25.4 / 72;

/** A straight stroke in millimetres. */
export function line(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  width: number,
  dash?: readonly number[],
): Item {
  return {
    kind: 'lines',
    lines: [[x1, y1, x2, y2]],
    stroke: { width, ink: BLACK, ...(dash ? { dash } : {}) },
  };
}

/** A text at a place: x and baseline in millimetres, size in points. */
export function text(
  x: number,
  y: number,
  content: string,
  more: Partial<Omit<TextItem, 'kind' | 'x' | 'y' | 'text'>> = {},
): TextItem {
  return {
    kind: 'text',
    x,
    y,
    text: content,
    size_pt: more.size_pt ?? 8,
    weight: more.weight ?? 400,
    anchor: more.anchor ?? 'start',
    ink: more.ink ?? BLACK,
    ...(more.upwards === true ? { upwards: true } : {}),
  };
}

/** The items moved by dx, dy: for placing a finished drawing on a page. */
export function moved(items: readonly Item[], dx: number, dy: number): Item[] {
  const shift = (points: readonly number[]): number[] =>
    points.map((value, index) => value + (index % 2 === 0 ? dx : dy));
  return items.map((item): Item => {
    switch (item.kind) {
      case 'lines':
        return { ...item, lines: item.lines.map(shift) };
      case 'area':
        return { ...item, rings: item.rings.map(shift) };
      case 'clip':
        return {
          ...item,
          box: { ...item.box, x: item.box.x + dx, y: item.box.y + dy },
          items: moved(item.items, dx, dy),
        };
      default:
        return { ...item, x: item.x + dx, y: item.y + dy };
    }
  });
}

/** Every text of a list with the box that its letters may fill: for tests of overlap and for keeping labels apart. */
export function textBoxes(
  items: readonly Item[],
  width: TextWidth,
): (Box & { text: string; size_pt: number })[] {
  return items.flatMap((item) => {
    if (item.kind === 'clip') return textBoxes(item.items, width);
    if (item.kind !== 'text') return [];
    const w = width(item.text, item.size_pt, item.weight);
    const size = item.size_pt * POINT_MM;
    const before = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? w / 2 : w;
    const box = item.upwards
      ? { x: item.x - ASCENT * size, y: item.y - (w - before), width: (ASCENT + DESCENT) * size, height: w }
      : { x: item.x - before, y: item.y - ASCENT * size, width: w, height: (ASCENT + DESCENT) * size };
    return [{ ...box, text: item.text, size_pt: item.size_pt }];
  });
}

/** Reach of the letters above and below the baseline, as a share of the size: tops of capitals and figures, tails. Measured on IBM Plex Sans Condensed (capitals 0.698, tails 0.205). */
export const ASCENT = 0.7;
export const DESCENT = 0.21;
