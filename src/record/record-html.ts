import { POINT_MM, type Item, type TextItem } from '#drawing/display-list.ts';
import { escapeXml, svgElements } from '#drawing/drawing-to-svg.ts';
import { base64, fontFaceCss, FONT_FAMILY } from './font-face-css.ts';
import { openFonts } from './font-set.ts';
import { laidOut } from './laid-out.ts';
import type { Node } from './lay.ts';
import { logoMediaType } from './logo.ts';
import { sheets, type Page, type Sheet } from './lay-pages.ts';
import type { RecordInput } from './record-input.ts';

/**
 * The delivery record as one HTML file that asks for nothing else: the very pages of the PDF, every line at its place in millimetres, under
 * headings, tables and lists that can be read out. On a narrow screen the places are dropped and the text flows.
 */
export function recordHtml(input: RecordInput): string {
  const fonts = openFonts(input.fonts);
  const { content, pages } = laidOut(input, fonts, false);
  const sheet = sheets[input.paper];
  const title = `${content.title}${content.recordNumber === null ? '' : ` ${content.recordNumber}`}`;
  const body = pages.map((page, index) =>
    pageHtml(page, sheet, index, content.page(index + 1, pages.length)),
  );
  return `<!doctype html>
<html lang="${input.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:">
<title>${escapeXml(title)}</title>
<style>
${fontFaceCss(input.fonts, fonts.used)}
${styles(sheet)}
</style>
</head>
<body>
<main>
${body.join('\n')}
</main>
</body>
</html>
`;
}

const mm = (value: number): string => {
  const text = (Math.round(value * 1000) / 1000).toString();
  return `${text === '-0' ? '0' : text}mm`;
};

function styles(sheet: Sheet): string {
  return `@page{size:${mm(sheet.width)} ${mm(sheet.height)};margin:0}
*{box-sizing:border-box}
body{margin:0;background:#d8d8d8;color:#000;font-family:${FONT_FAMILY};font-kerning:normal}
main{display:block}
.page{position:relative;width:${mm(sheet.width)};height:${mm(sheet.height)};margin:6mm auto;background:#fff;overflow:hidden}
.page>svg{position:absolute}
.fig{position:absolute}
.fig{overflow:visible}
.page>svg:not(.fig){left:0;top:0}
h1,h2,p,ul,ol,li,table,tbody,tr,th,td,figure{margin:0;padding:0;font-size:inherit;font-weight:400;text-align:left;display:block;list-style:none}
.l{position:absolute;white-space:pre;line-height:0;unicode-bidi:isolate}
.h{font-weight:600}
.w{color:#fff}
@media print{body{background:none}.page{margin:0;break-after:page;print-color-adjust:exact;-webkit-print-color-adjust:exact}.page:last-child{break-after:auto}}
@media screen and (max-width:${mm(sheet.width + 10)}){
body{background:#fff}
.page{width:auto;height:auto;margin:0;padding:4mm;overflow:visible}
.page>svg:not(.fig){display:none}
.page .fig{position:static;max-width:100%;height:auto}
td .fig{min-width:30mm}
.l{position:static;white-space:normal;overflow-wrap:anywhere;line-height:1.4;font-size:11pt!important}
.w{color:inherit}
.v-pass{font-weight:600}
h1{margin:0 0 1mm}h1 .l{font-size:20pt!important;line-height:1.2}
h2{margin:6mm 0 2mm}h2 .l{font-size:13pt!important}
p,ul,.s{margin:0 0 2mm}
ul{padding-left:5mm}li{list-style:disc;display:list-item}.t li{list-style:none;display:grid;grid-template-columns:9em 1fr}.t{padding:0}
.s{overflow-x:auto}table{display:table;border-collapse:collapse;width:100%}tbody{display:table-row-group}tr{display:table-row}
th,td{display:table-cell;padding:1mm 3mm 1mm 0;border-bottom:1px solid #000;vertical-align:top}
.v-fail{display:inline-block;background:#000;color:#fff;padding:0 1.5mm}
.v-undecided,.v-not-assessed{display:inline-block;outline:1px dashed #000;padding:0 1.5mm}
}`;
}

function pageHtml(page: Page, sheet: Sheet, index: number, label: string): string {
  const ornaments = [...page.artifacts, ...page.nodes.flatMap((node) => drawn(node))];
  const svg = `<svg aria-hidden="true" width="${mm(sheet.width)}" height="${mm(sheet.height)}" viewBox="0 0 ${sheet.width} ${sheet.height}" font-family="${escapeXml(FONT_FAMILY)}" fill="none">
${svgElements(ornaments, `p${index + 1}`).join('\n')}
</svg>`;
  const figures = { heading: label, count: 0, prefix: `p${index + 1}f` };
  const nodes = page.nodes.map((node) => nodeHtml(node, figures)).join('\n');
  return `<section class="page" aria-label="${escapeXml(label)}">
${svg}
${nodes}
</section>`;
}

/** What is drawn beside the words of a leaf: frames of verdicts. A figure draws itself. */
function drawn(node: Node): Item[] {
  if (node.tag === 'Figure') return [];
  return [
    ...(node.items ?? []).filter((item) => item.kind !== 'text'),
    ...(node.children ?? []).flatMap((child) => drawn(child)),
  ];
}

/** What is counted and remembered on the way through a page. */
interface Figures {
  /** The heading that the next table stands under. */
  heading: string;
  count: number;
  prefix: string;
}

function nodeHtml(node: Node, figures: Figures): string {
  const inner = (): string =>
    [words(node), ...(node.children ?? []).map((child) => nodeHtml(child, figures))].join('');
  switch (node.tag) {
    case 'H1':
      return `<h1>${inner()}</h1>`;
    case 'H2':
      figures.heading = textOf(node).trim();
      return `<h2>${inner()}</h2>`;
    case 'P':
      return `<p>${inner()}</p>`;
    case 'L': {
      const terms = node.children?.[0]?.children?.[0]?.tag === 'Lbl';
      return `<ul${terms ? ' class="t"' : ''} role="list">${inner()}</ul>`;
    }
    case 'LI':
      return `<li role="listitem">${inner()}</li>`;
    case 'Lbl':
    case 'LBody':
      return `<span>${inner()}</span>`;
    case 'Table':
      // On a narrow screen a wide table is moved sideways, by keyboard too.
      return `<div class="s" role="region" tabindex="0" aria-label="${escapeXml(figures.heading)}"><table role="table"><tbody role="rowgroup">${inner()}</tbody></table></div>`;
    case 'TR':
      return `<tr role="row">${inner()}</tr>`;
    case 'TH':
      return node.scope === 'Row'
        ? `<th role="rowheader" scope="row">${inner()}</th>`
        : `<th role="columnheader" scope="col">${inner()}</th>`;
    case 'TD':
      return `<td role="cell">${inner()}</td>`;
    case 'Figure':
      return figure(node, figures);
    case 'Sect':
      return inner();
  }
}

function figure(node: Node, figures: Figures): string {
  const box = node.box ?? { x: 0, y: 0, width: 1, height: 1 };
  if (node.picture)
    return `<img class="fig" alt="${escapeXml(node.alt ?? '')}" src="data:${logoMediaType(node.picture)};base64,${base64(node.picture.bytes)}" style="left:${mm(box.x)};top:${mm(box.y)};width:${mm(box.width)};height:${mm(box.height)}">`;
  figures.count++;
  const at = (value: number): number => Math.round(value * 1000) / 1000;
  return `<svg class="fig" role="img" aria-label="${escapeXml(node.alt ?? '')}" style="left:${mm(box.x)};top:${mm(box.y)}" width="${mm(box.width)}" height="${mm(box.height)}" viewBox="${at(box.x)} ${at(box.y)} ${at(box.width)} ${at(box.height)}" font-family="${escapeXml(FONT_FAMILY)}" fill="none">
${svgElements(node.items ?? [], `${figures.prefix}${figures.count}`).join('\n')}
</svg>`;
}

/** Half the distance from ascender to descender: where the baseline falls in a line without height. IBM Plex Sans: 1.025 and 0.275 em. */
const BASELINE_EM = (1.025 - 0.275) / 2;

const textOf = (node: Node): string =>
  (node.items ?? []).map((item) => (item.kind === 'text' ? item.text : '')).join('');

/** Lines of a leaf, each at its place; on a narrow screen they flow as one text. */
function words(node: Node): string {
  const lines = (node.items ?? []).filter((item): item is TextItem => item.kind === 'text');
  const html = lines
    .map((item) => {
      const top = item.y - BASELINE_EM * item.size_pt * POINT_MM;
      const shift =
        item.anchor === 'end'
          ? ';transform:translateX(-100%)'
          : item.anchor === 'middle'
            ? ';transform:translateX(-50%)'
            : '';
      const classes = `l${item.weight === 600 ? ' h' : ''}${item.ink === '#ffffff' ? ' w' : ''}`;
      return `<span class="${classes}" style="left:${mm(item.x)};top:${mm(top)};font-size:${item.size_pt}pt${shift}">${escapeXml(item.text)}</span>`;
    })
    .join('');
  return node.verdict === undefined || html === '' ? html : `<span class="v-${node.verdict}">${html}</span>`;
}
