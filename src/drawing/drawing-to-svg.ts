import { POINT_MM, type Drawing, type Ink, type Item, type Stroke, type Weight } from './display-list.ts';

/** What an SVG file says of itself. */
export interface SvgOptions {
  /** Name of the picture, read out before anything else. */
  title: string;
  /** What it shows, in one to three sentences with their numbers. */
  description: string;
  /** BCP 47 tag of the words. */
  language: string;
  /** CSS font-family list. */
  fontFamily: string;
  /** Put before each id, so that several drawings can stand in one page. */
  idPrefix?: string;
  /** CSS put into the picture: @font-face rules. */
  css?: string;
  /** Paper under the drawing; none for a drawing that lies on a page. */
  ground?: Ink;
  /** Cuts a text where the face changes, for a renderer that asks for each face by a name of its own. */
  runs?: TextRuns;
}

/** Pieces of a text, each with the family that it is set in. */
export type TextRuns = (text: string, weight: Weight) => { text: string; family: string }[];

// XML 1.0 (section 2.2, from memory) takes no control characters but tab and line ends, not even escaped: one of them makes the whole picture unreadable.
// eslint-disable-next-line no-control-regex -- they are what is looked for
const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\ufffe\uffff]/g;

/** Three decimals of a millimetre: a micrometre, finer than any printer. */
const n = (value: number): string => {
  const text = (Math.round(value * 1000) / 1000).toString();
  return text === '-0' ? '0' : text;
};
/** Text as XML holds it. */
export const escapeXml = (text: string): string =>
  text
    .replace(CONTROLS, '\ufffd')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');

/**
 * SVG text of a drawing at true size, one element a line so that two versions can be compared line by line.
 * Elements carry presentation attributes only: no style sheet is needed to draw it.
 */
export function drawingToSvg(drawing: Drawing, options: SvgOptions): string {
  const prefix = options.idPrefix ?? '';
  const lines: string[] = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(drawing.width)}mm" height="${n(drawing.height)}mm" viewBox="0 0 ${n(drawing.width)} ${n(drawing.height)}" role="img" lang="${options.language}" aria-labelledby="${prefix}title ${prefix}desc" font-family="${escapeXml(options.fontFamily)}" fill="none">`,
    `<title id="${prefix}title">${escapeXml(options.title)}</title>`,
    `<desc id="${prefix}desc">${escapeXml(options.description)}</desc>`,
  ];
  if (options.css !== undefined) lines.push(`<style>${options.css}</style>`);
  if (options.ground !== undefined)
    lines.push(`<rect width="${n(drawing.width)}" height="${n(drawing.height)}" fill="${options.ground}"/>`);
  lines.push(...svgElements(drawing.items, prefix, options.runs), '</svg>');
  return `${lines.join('\n')}\n`;
}

/** The elements alone, a line each: for a picture that is part of a page. @param prefix put before each id */
export function svgElements(items: readonly Item[], prefix: string, runs?: TextRuns): string[] {
  const lines: string[] = [];
  write(items, lines, [], prefix, runs);
  return lines;
}

function strokeOf(stroke: Stroke): string {
  const dash = stroke.dash ? ` stroke-dasharray="${stroke.dash.map(n).join(' ')}"` : '';
  return ` stroke="${stroke.ink}" stroke-width="${n(stroke.width)}"${dash}`;
}
const pathOf = (lines: readonly (readonly number[])[], close: string): string =>
  lines
    .map((points) => {
      let d = '';
      for (let i = 0; i + 1 < points.length; i += 2)
        d += `${i === 0 ? 'M' : 'L'}${n(points[i] ?? 0)} ${n(points[i + 1] ?? 0)}`;
      return d + close;
    })
    .join('');

function write(
  items: readonly Item[],
  lines: string[],
  clips: string[],
  prefix: string,
  runs?: TextRuns,
): void {
  for (const item of items)
    switch (item.kind) {
      case 'lines':
        // Round joins keep a jagged trace from growing spikes; ends stay cut so that a length is the length.
        lines.push(`<path d="${pathOf(item.lines, '')}" stroke-linejoin="round"${strokeOf(item.stroke)}/>`);
        break;
      case 'area':
        lines.push(
          `<path d="${pathOf(item.rings, 'Z')}"${item.fill ? ` fill="${item.fill}"` : ''}${item.stroke ? ` stroke-linejoin="round"${strokeOf(item.stroke)}` : ''}/>`,
        );
        break;
      case 'rect':
        lines.push(
          `<rect x="${n(item.x)}" y="${n(item.y)}" width="${n(item.width)}" height="${n(item.height)}"${item.fill ? ` fill="${item.fill}"` : ''}${item.stroke ? strokeOf(item.stroke) : ''}/>`,
        );
        break;
      case 'dot':
        lines.push(`<circle cx="${n(item.x)}" cy="${n(item.y)}" r="${n(item.radius)}" fill="${item.fill}"/>`);
        break;
      case 'text': {
        const anchor = item.anchor === 'start' ? '' : ` text-anchor="${item.anchor}"`;
        const turn = item.upwards ? ` transform="rotate(-90 ${n(item.x)} ${n(item.y)})"` : '';
        const inner = runs
          ? runs(item.text, item.weight)
              .map((run) => `<tspan font-family="${run.family}">${escapeXml(run.text)}</tspan>`)
              .join('')
          : escapeXml(item.text);
        lines.push(
          `<text x="${n(item.x)}" y="${n(item.y)}" font-size="${n(item.size_pt * POINT_MM)}" font-weight="${item.weight}" fill="${item.ink}"${anchor}${turn}>${inner}</text>`,
        );
        break;
      }
      case 'clip': {
        const id = `${prefix}clip${clips.length + 1}`;
        clips.push(id);
        lines.push(
          `<clipPath id="${id}"><rect x="${n(item.box.x)}" y="${n(item.box.y)}" width="${n(item.box.width)}" height="${n(item.box.height)}"/></clipPath>`,
          `<g clip-path="url(#${id})">`,
        );
        write(item.items, lines, clips, prefix, runs);
        lines.push('</g>');
        break;
      }
    }
}
