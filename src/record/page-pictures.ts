import { drawingToSvg } from '#drawing/drawing-to-svg.ts';
import type { Item } from '#drawing/display-list.ts';
import { base64, fontFaceCss, FONT_FAMILY } from './font-face-css.ts';
import { openFonts } from './font-set.ts';
import { laidOut } from './laid-out.ts';
import type { Node } from './lay.ts';
import { logoMediaType } from './logo.ts';
import { sheets } from './lay-pages.ts';
import type { RecordInput } from './record-input.ts';

/** The record's pages as pictures, for looking at them before anything is saved: an SVG text each, drawn from the same lists as the PDF. */
export function pagePictures(input: RecordInput): string[] {
  const fonts = openFonts(input.fonts);
  const { content, pages } = laidOut(input, fonts, input.logs.length > 0);
  const { width, height } = sheets[input.paper];
  return pages.map((page, index) => {
    const svg = drawingToSvg(
      { width, height, items: [...page.artifacts, ...page.nodes.flatMap(itemsOf)] },
      {
        title: content.page(index + 1, pages.length),
        description: content.headline,
        language: input.language,
        fontFamily: FONT_FAMILY,
        css: fontFaceCss(input.fonts, fonts.used),
        ground: '#ffffff',
      },
    );
    return svg.replace(/<\/svg>\n$/, `${page.nodes.flatMap(pictureOf).join('')}</svg>\n`);
  });
}

const itemsOf = (node: Node): Item[] => [...(node.items ?? []), ...(node.children ?? []).flatMap(itemsOf)];

function pictureOf({ picture, box }: Node): string[] {
  if (!picture || !box) return [];
  return [
    `<image x="${box.x}" y="${box.y}" width="${box.width}" height="${box.height}" href="data:${logoMediaType(picture)};base64,${base64(picture.bytes)}"/>\n`,
  ];
}
