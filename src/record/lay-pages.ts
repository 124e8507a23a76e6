import { line, moved, text, type Drawing, type Item, type TextWidth } from '#drawing/display-list.ts';
import type { RecordContent, Section } from './content.ts';
import { composed, heightOf, laySection, split, type LaidSection, type Part } from './lay-section.ts';
import {
  chartBlock,
  factColumns,
  foundTable,
  howToReadBlock,
  oilBlock,
  recordNumber,
  steelRule,
  TEXT_WIDTH,
  titleLines,
  verdictBlock,
} from './lay-sheet-one.ts';
import {
  baselineIn,
  faceOf,
  leadingOf,
  lineItems,
  paragraph,
  placed,
  rule,
  space,
  stacked,
  wrapped,
  type Laid,
  type Node,
} from './lay.ts';
import type { Paper } from './record-input.ts';

/** A page of the record, in millimetres from the paper's top left corner. */
export interface Page {
  artifacts: Item[];
  nodes: Node[];
}
export interface Sheet {
  width: number;
  height: number;
  top: number;
  /** Bottom edge of the footer's lines, from the paper's foot. */
  footer: number;
  /** From the footer's rule to its bottom edge. */
  footerHeight: number;
}
const FOOTER_LINE = 4.4;
/** Sizes. Sources: ISO 216 (A4); Letter is 8½ by 11 inches. */
export const sheets: Readonly<Record<Paper, Sheet>> = {
  a4: { width: 210, height: 297, top: 10, footer: 7, footerHeight: FOOTER_LINE },
  letter: { width: 215.9, height: 279.4, top: 8.5, footer: 5.5, footerHeight: FOOTER_LINE },
};
/** Room for punch holes. */
export const LEFT = 20;
const HALF = 85;
const BETWEEN = 5;
/** Rows of the table on sheet 1. */
const MOST_ROWS = 6;
const FEWER_ROWS = 4;
/** A table of more rows than this may go on on the next page. */
const SPLIT_FROM = 15;

export interface Layout {
  content: RecordContent;
  chart: (stripHeight: 20 | 10) => Drawing;
  paper: Paper;
  measure: TextWidth;
}

/** Lowest place of content on a page. */
const lowest = (sheet: Sheet): number => sheet.height - sheet.footer - sheet.footerHeight - 2;

/** The sheet with as many lines in its footer as the serial needs. */
function sheetOf({ content, paper, measure }: Layout): Sheet {
  const lines = footerLines(content, measure).length;
  return { ...sheets[paper], footerHeight: FOOTER_LINE + (lines - 1) * leadingOf(faceOf.foot) };
}
function footerLines(content: RecordContent, measure: TextWidth): ReturnType<typeof wrapped> {
  const number = measure(content.page(99, 99), faceOf.foot.size, 400);
  return wrapped([{ text: content.footer }], faceOf.foot, TEXT_WIDTH - number - 4, measure);
}

/** How sheet 1 is made to fit, one step after the other; the chart itself is never shrunk. */
interface Fit {
  strip: 20 | 10;
  rows: number;
  howToReadHere: boolean;
  chartHere: boolean;
}
export function fitOf(layout: Layout): Fit {
  const { content } = layout;
  const notMet = content.table.rows.filter(({ result }) => result !== 'pass').length;
  const rows = Math.max(MOST_ROWS, notMet);
  const fewer = Math.max(FEWER_ROWS, content.table.rows.filter(({ result }) => result === 'fail').length);
  const steps: Fit[] = [
    { strip: 20, rows, howToReadHere: true, chartHere: true },
    { strip: 10, rows, howToReadHere: true, chartHere: true },
    { strip: 10, rows: Math.min(rows, fewer), howToReadHere: true, chartHere: true },
    { strip: 10, rows: Math.min(rows, fewer), howToReadHere: false, chartHere: true },
  ];
  const sheet = sheetOf(layout);
  const room = lowest(sheet) - sheet.top;
  const fits = steps.find((fit) => sheetOne(layout, fit).height <= room);
  return fits ?? { strip: 20, rows, howToReadHere: true, chartHere: false };
}

const sheetOne = (layout: Layout, fit: Fit): Laid => stacked(sheetOneBlocks(layout, fit));
function sheetOneBlocks({ content, chart, measure }: Layout, fit: Fit): Laid[] {
  return [
    steelRule(),
    titleLines(content, measure),
    factColumns(content.facts, measure),
    verdictBlock(content, measure),
    foundTable(content, fit.rows, measure),
    ...(fit.chartHere ? [chartBlock(chart(fit.strip), content.chartAlt)] : []),
    ...(fit.chartHere && fit.howToReadHere ? [howToReadBlock(content.howToRead, measure)] : []),
    oilBlock(content.oilNotice, measure),
  ];
}

/** Sheet 1 is one page; where names and words are so long that it cannot be, what no longer fits goes on on the next page. */
function sheetOnePages(layout: Layout, fit: Fit, sheet: Sheet): Page[] {
  const pages: Laid[][] = [[]];
  let used = 0;
  for (const block of sheetOneBlocks(layout, fit)) {
    if (used > 0 && used + block.height > lowest(sheet) - sheet.top) {
      const head = stacked([pageHead(layout.content, layout.content.title, layout.measure), space(2)]);
      pages.push([head]);
      used = head.height;
    }
    pages.at(-1)?.push(block);
    used += block.height;
  }
  return pages.map((blocks) => pageOf(placed(stacked(blocks), LEFT, sheet.top)));
}

/**
 * Every page of the record, numbered, and on which page each section begins.
 * @param fit how sheet 1 was made to fit, so that the content could follow
 */
export function layPages(layout: Layout, fit: Fit): { pages: Page[]; begins: ReadonlyMap<string, number> } {
  const { content, measure, chart } = layout;
  const sheet = sheetOf(layout);
  const pages: Page[] = sheetOnePages(layout, fit, sheet);
  if (!fit.chartHere)
    pages.push(
      pageOf(
        placed(
          stacked([
            pageHead(content, content.title, measure),
            space(2),
            chartBlock(chart(20), content.chartAlt),
            space(2),
            howToReadBlock(content.howToRead, measure),
          ]),
          LEFT,
          sheet.top,
        ),
      ),
    );
  // As many blank rows for later readings as cost no page.
  const fewest = engineerPages(layout, 1);
  const engineer =
    [4, 3, 2]
      .map((rows) => engineerPages(layout, rows))
      .find((made) => made.pages.length === fewest.pages.length) ?? fewest;
  const begins = new Map([...engineer.begins].map(([key, index]) => [key, pages.length + index + 1]));
  pages.push(...engineer.pages);
  const ruleAt = sheet.height - sheet.footer - sheet.footerHeight;
  const face = faceOf.foot;
  const lines = footerLines(content, measure);
  pages.forEach((page, index) => {
    const words = lineItems(lines, face, TEXT_WIDTH, false, measure);
    page.artifacts.push(
      line(LEFT, ruleAt, LEFT + TEXT_WIDTH, ruleAt, rule.row),
      ...moved(words, LEFT, ruleAt + 0.6),
      text(LEFT + TEXT_WIDTH, ruleAt + 0.6 + baselineIn(face), content.page(index + 1, pages.length), {
        size_pt: face.size,
        anchor: 'end',
      }),
    );
  });
  return { pages, begins };
}

const pageOf = (laid: Laid): Page => ({ artifacts: [...laid.artifacts], nodes: [...laid.nodes] });

/** What every page after the first starts with: whose it is, which unit, which record. */
function pageHead(content: RecordContent, strong: string, measure: TextWidth): Laid {
  const face = { ...faceOf.body, leading: 12 };
  const number =
    content.recordNumber === null
      ? null
      : recordNumber(content.recordWord, content.recordNumber, 2 + baselineIn(face), TEXT_WIDTH / 2, measure);
  const words = placed(
    paragraph(
      'P',
      [{ text: `${strong} `, strong: true }, { text: content.engineerHead.text }],
      face,
      TEXT_WIDTH - (number === null ? 0 : number.width + 4),
      measure,
    ),
    0,
    2,
  );
  return {
    height: Math.max(words.height, leadingOf(face) + (number?.more ?? 0)) + 3.4,
    artifacts: [line(0, 0, TEXT_WIDTH, 0, rule.row)],
    nodes: [...words.nodes, ...(number === null ? [] : [{ tag: 'P' as const, items: number.items }])],
  };
}

/** Sections in their order: full width one under the other, left and right side by side. */
function engineerPages(layout: Layout, blankRows: number): PageWriter {
  const { content, measure } = layout;
  const sheet = sheetOf(layout);
  const writer = new PageWriter(sheet, () => pageHead(content, content.engineerHead.strong, measure));
  const { sections } = content;
  const laid = (section: Section, index: number): LaidSection =>
    laySection(
      section,
      section.place === 'full' ? TEXT_WIDTH : HALF,
      measure,
      blankRows,
      index === sections.length - 1 ? content.endOfRecord : null,
    );
  let index = 0;
  while (index < sections.length) {
    const section = sections[index];
    if (!section) break;
    if (section.place === 'full') {
      writer.full(laid(section, index));
      index++;
      continue;
    }
    const left: LaidSection[] = [],
      right: LaidSection[] = [];
    for (let next = sections[index]; next && next.place !== 'full'; next = sections[++index])
      (next.place === 'left' ? left : right).push(laid(next, index));
    writer.columns(left, right);
  }
  return writer;
}

/** Fills pages from the top; a section goes whole to the next page where it does not fit, and is split only where it fits no page. */
class PageWriter {
  readonly pages: Page[] = [];
  /** Index of the page on which a section begins. */
  readonly begins = new Map<string, number>();
  private y = 0;
  private readonly sheet: Sheet;
  private readonly head: () => Laid;

  constructor(sheet: Sheet, head: () => Laid) {
    this.sheet = sheet;
    this.head = head;
    this.turn();
  }

  private get room(): number {
    return lowest(this.sheet) - this.y;
  }
  private turn(): void {
    const head = placed(this.head(), LEFT, this.sheet.top);
    this.pages.push(pageOf(head));
    this.y = this.sheet.top + head.height;
  }
  private put(
    page: Page,
    section: LaidSection,
    parts: readonly Part[],
    x: number,
    y: number,
    width: number,
  ): number {
    this.note(section.key);
    const laid = placed(composed(parts, section.boxed, width), LEFT + x, y);
    page.artifacts.push(...laid.artifacts);
    page.nodes.push(...laid.nodes);
    return laid.height;
  }
  private get page(): Page {
    const page = this.pages[this.pages.length - 1];
    if (!page) throw new RangeError('no page was begun');
    return page;
  }
  /** Height of a page under its head. */
  private get whole(): number {
    return lowest(this.sheet) - this.sheet.top - this.head().height;
  }

  /** Notes where a section begins, when its first piece is put down. */
  private note(key: string): void {
    if (!this.begins.has(key)) this.begins.set(key, this.pages.length - 1);
  }

  full(section: LaidSection): void {
    let rest: LaidSection | null = section;
    while (rest) {
      // The space after a section may run into the margin above the footer.
      const height: number = heightOf(rest) - 2.3;
      const long: boolean = rest.key === 'criteria' && rest.parts.length > SPLIT_FROM;
      if (height <= this.room) {
        this.y += this.put(this.page, rest, rest.parts, 0, this.y, TEXT_WIDTH);
        return;
      }
      const cut: ReturnType<typeof split> = height > this.whole || long ? split(rest, this.room) : null;
      if (cut) {
        this.put(this.page, rest, cut.now, 0, this.y, TEXT_WIDTH);
        rest = cut.later;
      } else if (this.room >= this.whole - 0.01) {
        // Not even the first pieces fit a fresh page: set them down all the same rather than never.
        this.y += this.put(this.page, rest, rest.parts, 0, this.y, TEXT_WIDTH);
        return;
      }
      this.turn();
    }
  }

  columns(left: readonly LaidSection[], right: readonly LaidSection[]): void {
    const waiting = { left: [...left], right: [...right] };
    for (;;) {
      const start = this.y;
      const ends = (['left', 'right'] as const).map((side) => {
        let y = start;
        const list = waiting[side];
        const x = side === 'left' ? 0 : HALF + BETWEEN;
        for (let section = list[0]; section; section = list[0]) {
          const room = lowest(this.sheet) - y;
          const height = heightOf(section) - 2.3;
          if (height <= room) {
            y += this.put(this.page, section, section.parts, x, y, HALF);
            list.shift();
            continue;
          }
          const cut = height > this.whole ? split(section, room) : null;
          if (cut) {
            y += this.put(this.page, section, cut.now, x, y, HALF);
            list[0] = cut.later;
          } else if (y === start && room >= this.whole - 0.01) {
            y += this.put(this.page, section, section.parts, x, y, HALF);
            list.shift();
          }
          break;
        }
        return y;
      });
      this.y = Math.max(...ends);
      if (waiting.left.length === 0 && waiting.right.length === 0) return;
      this.turn();
    }
  }
}
