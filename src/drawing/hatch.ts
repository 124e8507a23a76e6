import { BLACK, type Box, type Item } from './display-list.ts';

/**
 * Hatching at 45° as single lines cut at the box's edges: pattern fills come out of printers in different ways.
 * Lines lie on one raster over the whole drawing, so that neighbouring boxes read as one surface.
 * @param rising true: rising to the right (material, keep out); false: falling (guard zone)
 * @param pitch distance between neighbouring lines
 */
export function hatch(box: Box, rising: boolean, pitch: number, width: number): Item[] {
  const left = box.x,
    right = box.x + box.width,
    top = box.y,
    bottom = box.y + box.height;
  if (!(right > left && bottom > top)) return [];
  // Rising lines are x + y = c, falling ones x − y = c; √2 turns the distance between them into a step of c.
  const step = pitch * Math.SQRT2;
  const low = rising ? left + top : left - bottom,
    high = rising ? right + bottom : right - top;
  const lines: number[][] = [];
  for (let index = Math.ceil(low / step); index * step < high; index++) {
    const c = index * step;
    const xs = rising
      ? [Math.max(left, c - bottom), Math.min(right, c - top)]
      : [Math.max(left, c + top), Math.min(right, c + bottom)];
    const [x1 = 0, x2 = 0] = xs;
    if (x2 - x1 < 0.01) continue;
    lines.push(rising ? [x1, c - x1, x2, c - x2] : [x1, x1 - c, x2, x2 - c]);
  }
  return lines.length === 0 ? [] : [{ kind: 'lines', lines, stroke: { width, ink: BLACK } }];
}
