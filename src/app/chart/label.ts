/** Colour of a text, by the token's name. */
export type Tone = 'ink' | 'ink2' | 'pressure' | 'oil' | 'limit';
export interface TextRun {
  text: string;
  tone: Tone;
  bold?: boolean;
  /** px; 16 unless said. */
  size?: number;
}

/** A text on the strip, as a box in CSS px from the strip's top left corner. */
export interface Label {
  key: string;
  left: number;
  top: number;
  width: number;
  height: number;
  align: 'left' | 'center' | 'right';
  lines: TextRun[][];
  /** A solid flag before the first line: ▶, or ▼ when turned. */
  flag?: 'right' | 'down';
  /** The flag stands after the text. */
  flagAfter?: boolean;
  /** What a press does; a text only, unless said. */
  action?: 'fold' | 'set-aside';
  /** Paper under the text, where it may lie over something printed. */
  ground?: boolean;
}

export const LINE_PX = 18;
export const TEXT_PX = 16;

/** Width of a text in the strip's face. */
export type Measure = (run: TextRun) => number;

export interface Box {
  left: number;
  top: number;
  width: number;
  height: number;
}

export function overlaps(a: Box, b: Box, air = 0): boolean {
  return (
    a.left < b.left + b.width + air &&
    b.left < a.left + a.width + air &&
    a.top < b.top + b.height + air &&
    b.top < a.top + a.height + air
  );
}

/** Size of a text of one or more lines. */
export function sizeOf(lines: readonly TextRun[][], measure: Measure): { width: number; height: number } {
  const width = Math.max(...lines.map((line) => line.reduce((sum, run) => sum + measure(run), 0)));
  return { width: Math.ceil(width), height: lines.length * LINE_PX };
}

/**
 * Moves boxes apart along one direction, each as little as it goes, none past another; in order of their wish.
 * @param wished middle of each box
 * @param sizes of each, air included
 * @returns middles
 */
export function pushedApart(
  wished: readonly number[],
  sizes: readonly number[],
  low: number,
  high: number,
): number[] {
  const order = wished.map((_, index) => index).sort((a, b) => (wished[a] ?? 0) - (wished[b] ?? 0));
  interface Cluster {
    members: number[];
    start: number;
    size: number;
    /** Sum of the starts that the members ask for, each less what stands before it. */
    sum: number;
  }
  const clusters: Cluster[] = [];
  const place = (cluster: Cluster): void => {
    cluster.start = Math.min(high - cluster.size, Math.max(low, cluster.sum / cluster.members.length));
  };
  for (const index of order) {
    const size = sizes[index] ?? 0;
    let cluster: Cluster = { members: [index], start: 0, size, sum: (wished[index] ?? 0) - size / 2 };
    place(cluster);
    for (
      let last = clusters.at(-1);
      last !== undefined && last.start + last.size > cluster.start;
      last = clusters.at(-1)
    ) {
      clusters.pop();
      cluster = {
        members: [...last.members, ...cluster.members],
        start: 0,
        size: last.size + cluster.size,
        sum: last.sum + cluster.sum - cluster.members.length * last.size,
      };
      place(cluster);
    }
    clusters.push(cluster);
  }
  const middles: number[] = Array.from({ length: wished.length }, () => 0);
  for (const { members, start } of clusters) {
    let at = start;
    for (const index of members) {
      const size = sizes[index] ?? 0;
      middles[index] = at + size / 2;
      at += size;
    }
  }
  return middles;
}
