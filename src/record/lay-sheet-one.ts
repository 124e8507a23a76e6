import { BLACK, line, text, WHITE, type Drawing, type Item, type TextWidth } from '#drawing/display-list.ts';
import { foundStrip, STRIP_WIDTH } from '#drawing/found-strip.ts';
import type { FactLine, FoundRow, RecordContent } from './content.ts';
import {
  baselineIn,
  faceOf,
  leadingOf,
  lineItems,
  movedNode,
  paragraph,
  placed,
  rule,
  space,
  stacked,
  strong,
  verdictMark,
  wrapped,
  type Face,
  type Laid,
  type Node,
} from './lay.ts';

export const TEXT_WIDTH = 175;
const COLUMN = 85;
const ROW = 6.1;

/** A steel rule's millimetres along the head: held against a rule it shows whether the sheet was printed at full size. */
export function steelRule(): Laid {
  const ticks = { 1: 1, 5: 1.6, 10: 2.4 };
  const lines: number[][] = [];
  for (let mm = 0; mm <= TEXT_WIDTH; mm++)
    lines.push([mm, 0, mm, mm % 10 === 0 ? ticks[10] : mm % 5 === 0 ? ticks[5] : ticks[1]]);
  const artifacts: Item[] = [
    line(0, 0, TEXT_WIDTH, 0, rule.steel),
    { kind: 'lines', lines, stroke: { width: rule.steelTick, ink: BLACK } },
    ...[50, 100, 150].map((mm) => text(mm + 0.6, 5, `${mm}\u00a0mm`)),
  ];
  return { height: 6.4, artifacts, nodes: [] };
}

export function titleLines(content: RecordContent, measure: TextWidth): Laid {
  const { title } = faceOf;
  const nodes: Node[] = [
    {
      tag: 'H1',
      items: [text(0, baselineIn(title), content.title, { size_pt: title.size, weight: 600 })],
    },
  ];
  const second = 8 + baselineIn(faceOf.facts);
  nodes.push({ tag: 'P', items: [text(0, second, content.subtitle, { size_pt: 10 })] });
  const number = numberOf(content, measure);
  if (number) nodes.push({ tag: 'P', items: number.items });
  const more = number?.more ?? 0;
  if (content.issued !== null)
    nodes.push({
      tag: 'P',
      items: [text(TEXT_WIDTH, second + more, content.issued, { size_pt: 10, anchor: 'end' })],
    });
  const logo = logoNode(content, measure);
  if (logo) nodes.push(logo);
  return { height: 14.6 + more, artifacts: [], nodes };
}

type Head = Pick<RecordContent, 'title' | 'subtitle' | 'recordNumber' | 'recordWord'>;
const leftOfNumber = (content: Head, measure: TextWidth): number =>
  Math.max(measure(content.title, faceOf.title.size, 600), measure(content.subtitle, 10, 400));
function numberOf(content: Head, measure: TextWidth): ReturnType<typeof recordNumber> | null {
  if (content.recordNumber === null) return null;
  // A logo keeps its least width and its margins between the two.
  const most = TEXT_WIDTH - leftOfNumber(content, measure) - 20;
  return recordNumber(content.recordWord, content.recordNumber, baselineIn(faceOf.title), most, measure);
}

/** The logo stands in the clear place between title and number: it costs the sheet no height. */
function logoNode({ logo, ...content }: RecordContent, measure: TextWidth): Node | null {
  if (logo === null) return null;
  const most = { width: 45, height: 11.5 };
  const margin = 6;
  const left = leftOfNumber(content, measure);
  const number = numberOf(content, measure)?.width ?? 0;
  const right = Math.max(number, content.issued === null ? 0 : measure(content.issued, 10, 400));
  const room = Math.max(8, Math.min(most.width, TEXT_WIDTH - left - right - 2 * margin));
  const { width: across, height: down } = logo.picture;
  const size = Math.min(room / across, most.height / down);
  const width = across * size,
    height = down * size;
  const edge = right === 0 ? TEXT_WIDTH : TEXT_WIDTH - right - margin;
  return {
    tag: 'Figure',
    alt: logo.alt,
    picture: logo.picture,
    box: { x: edge - width, y: (most.height - height) / 2 + 0.6, width, height },
    items: [],
  };
}

const numberFace: Face = { size: 13, leading: 15, weight: 600 };

/**
 * "Record 2026-0411" at the right edge, the number heavy; one that is wider than its place goes on in lines below, never over what stands
 * left of it.
 * @param y baseline of the first line
 * @param most width of its place
 */
export function recordNumber(
  word: string,
  number: string,
  y: number,
  most: number,
  measure: TextWidth,
): { items: Item[]; width: number; more: number } {
  const before = measure(`${word} `, 10.5, 400);
  const lines = wrapped([{ text: number }], numberFace, most - before, measure).map((parts) =>
    parts.map((part) => part.text).join(''),
  );
  const width = Math.max(...lines.map((line) => measure(line.trimEnd(), numberFace.size, 600)));
  return {
    items: [
      text(TEXT_WIDTH - before - width, y, `${word} `, { size_pt: 10.5 }),
      ...lines.map((line, index) =>
        index === 0 && lines.length === 1
          ? text(TEXT_WIDTH, y, number, { size_pt: 13, weight: 600, anchor: 'end' })
          : text(TEXT_WIDTH - width, y + index * leadingOf(numberFace), line, { size_pt: 13, weight: 600 }),
      ),
    ],
    width: before + width,
    more: (lines.length - 1) * leadingOf(numberFace),
  };
}

/** Two columns of facts with a rule under each line. */
export function factColumns(facts: readonly [FactLine[], FactLine[]], measure: TextWidth): Laid {
  const face = faceOf.facts;
  const label = 24;
  const columns = facts.map((lines, index) => {
    const x = index * (COLUMN + 5);
    const laid = stacked(
      lines.map((fact): Laid => {
        const left = placed(paragraph('Lbl', [{ text: fact.label }], face, label - 1, measure), 0, 0.4);
        const right = placed(
          paragraph('LBody', [{ text: fact.value }], strong(face), COLUMN - label, measure),
          label,
          0.4,
        );
        const height = Math.max(left.height, right.height) + 0.9;
        return {
          height,
          artifacts: [line(0, height, COLUMN, height, rule.row)],
          nodes: [{ tag: 'LI', children: [...left.nodes, ...right.nodes] }],
        };
      }),
    );
    return placed(laid, x, 0);
  });
  const height = Math.max(0, ...columns.map((column) => column.height));
  if (height === 0) return space(0);
  return {
    height: height + 3.4,
    artifacts: columns.flatMap(({ artifacts }) => artifacts),
    nodes: [{ tag: 'L', children: columns.flatMap(({ nodes }) => nodes) }],
  };
}

/** The verdict: word box, headline, and what it means in the customer's words. */
export function verdictBlock(content: RecordContent, measure: TextWidth): Laid {
  const box = { width: 31, height: 11 };
  const indent = 36;
  const size = Math.min(15, (15 * (box.width - 2)) / measure(content.verdictWord, 15, 600));
  const frame: Item[] =
    content.verdict === 'pass'
      ? [line(0, 0.25, box.width, 0.25, 0.5), line(0, box.height - 0.25, box.width, box.height - 0.25, 0.5)]
      : content.verdict === 'fail'
        ? [{ kind: 'rect', x: 0, y: 0, ...box, fill: BLACK }]
        : [
            {
              kind: 'rect',
              x: 0.25,
              y: 0.25,
              width: box.width - 0.5,
              height: box.height - 0.5,
              stroke: { width: 0.5, ink: BLACK, dash: [1.8, 1.1] },
            },
          ];
  const word = text(box.width / 2, box.height / 2 + 1.85, content.verdictWord, {
    size_pt: size,
    weight: 600,
    anchor: 'middle',
    ink: content.verdict === 'fail' ? WHITE : BLACK,
  });
  const headline = placed(
    paragraph('H2', [{ text: content.headline }], faceOf.headline, TEXT_WIDTH - indent, measure),
    indent,
    -0.6,
  );
  const body = placed(
    paragraph('P', content.body, faceOf.body, TEXT_WIDTH - indent, measure),
    indent,
    headline.height,
  );
  return {
    height: Math.max(box.height, headline.height + body.height) + 2.4,
    artifacts: [],
    nodes: [
      { tag: 'P', verdict: content.verdict, items: [...frame, word] },
      ...headline.nodes,
      ...body.nodes,
    ],
  };
}

/** What was tested, allowed and found, each with its small picture and its result. */
export function foundTable(content: RecordContent, shown: number, measure: TextWidth): Laid {
  const face = faceOf.tableOne,
    heads = content.table.heads;
  const rows = content.table.rows.slice(0, shown);
  const under = content.underTable(shown);
  const note =
    under === null ? [] : [placed(paragraph('P', [{ text: under }], face, TEXT_WIDTH, measure), 0, 0.9)];
  if (rows.length === 0) return stacked(note.map((laid) => ({ ...laid, height: laid.height + 1 })));
  const columns = foundColumns(content, rows, measure);
  const headRow = (): Laid => {
    const own = strong(face);
    const cell = (words: string, x: number): Node => ({
      tag: 'TH',
      scope: 'Column',
      items: [text(x, baselineIn(own), words, { size_pt: own.size, weight: 600 })],
    });
    const height = leadingOf(own) + 0.5;
    return {
      height,
      artifacts: [line(0, height, TEXT_WIDTH, height, rule.tableHead)],
      nodes: [
        {
          tag: 'TR',
          children: [
            cell(heads.tested, columns.name.x),
            cell(heads.allowed, columns.allowed.x),
            cell(heads.found, columns.found.x),
            cell(heads.foundAgainstAllowed, columns.strip.x),
            cell(heads.result, columns.result.x),
          ],
        },
      ],
    };
  };
  const table = stacked([headRow(), ...rows.map((row) => foundRow(row, columns, measure))]);
  return stacked([
    { ...table, nodes: [{ tag: 'Table', children: table.nodes }] },
    ...note.map((laid) => ({ ...laid, height: laid.height + 1.2 })),
    space(under === null ? 2.4 : 1.2),
  ]);
}

type FoundColumns = Record<'name' | 'allowed' | 'found' | 'strip' | 'result', { x: number; width: number }>;

/** Widths by what stands in the columns; what is left over goes between them. */
function foundColumns(content: RecordContent, rows: readonly FoundRow[], measure: TextWidth): FoundColumns {
  const face = faceOf.tableOne,
    heads = content.table.heads;
  const widest = (words: readonly string[], head: string, weight: 400 | 600): number =>
    Math.max(measure(head, face.size, 600), ...words.map((word) => measure(word, face.size, weight)));
  const names = rows.map((row) => row.name),
    limits = rows.map((row) => row.allowed),
    values = rows.map((row) => (row.reason === null ? row.found : ''));
  const parts = (texts: readonly string[]): string[] => texts.flatMap((words) => words.split(' '));
  let name = Math.min(48, widest(names, heads.tested, 600)),
    allowed = Math.min(34, widest(limits, heads.allowed, 400)),
    found = Math.min(36, widest(values, heads.found, 400));
  const strip = Math.max(STRIP_WIDTH, measure(heads.foundAgainstAllowed, face.size, 600));
  const result = Math.max(
    measure(heads.result, face.size, 600),
    ...rows.map((row) => verdictMark(row.result, row.resultWord, face, measure).width),
  );
  const least = 2.2;
  let over = name + allowed + found + strip + result + 4 * least - TEXT_WIDTH;
  /** What a column can do without, down to `width`. */
  const givenUp = (from: number, width: number): number => {
    const by = Math.max(0, Math.min(over, from - width));
    over -= by;
    return from - by;
  };
  // Long words and long units (a record in another language, kgf/cm²): names take two lines, then the ± goes below its value, then
  // names and limits take as many lines as they have words; a word is cut last of all.
  name = givenUp(name, Math.max(30, widest(parts(names), heads.tested, 600)));
  found = givenUp(found, widest(values.flatMap(withSpread), heads.found, 400));
  name = givenUp(name, widest(parts(names), heads.tested, 600));
  allowed = givenUp(allowed, widest(parts(limits), heads.allowed, 400));
  name -= Math.max(0, over);
  const gap = (TEXT_WIDTH - name - allowed - found - strip - result) / 4;
  return {
    name: { x: 0, width: name },
    allowed: { x: name + gap, width: allowed },
    found: { x: name + allowed + 2 * gap, width: found },
    strip: { x: name + allowed + found + 3 * gap, width: strip },
    result: { x: TEXT_WIDTH - result, width: result },
  };
}

/** A value and its ± as two pieces. */
function withSpread(found: string): string[] {
  const at = found.indexOf('\u00a0±');
  return at < 0 ? [found] : [found.slice(0, at), found.slice(at + 1)];
}

function foundRow(row: FoundRow, columns: FoundColumns, measure: TextWidth): Laid {
  const face = faceOf.tableOne;
  const cell = (
    tag: 'TH' | 'TD',
    words: string,
    place: { x: number; width: number },
    heavy: boolean,
  ): { node: Node; lines: number } => {
    const own = heavy ? strong(face) : face;
    const lines = wrapped([{ text: words }], own, place.width, measure);
    return {
      node: movedNode(
        {
          tag,
          ...(tag === 'TH' ? { scope: 'Row' as const } : {}),
          items: lineItems(lines, own, place.width, false, measure),
        },
        place.x,
        0,
      ),
      lines: lines.length,
    };
  };
  const name = cell('TH', row.name, columns.name, true),
    allowed = cell('TD', row.allowed, columns.allowed, false);
  const wide = {
    x: columns.found.x,
    width: columns.strip.x + columns.strip.width - columns.found.x - 1,
  };
  const strip = row.reason === null ? foundStrip(row.criterion, row.interval) : null;
  const found =
    row.reason === null
      ? cell(
          'TD',
          measure(row.found, face.size, 400) > columns.found.width + 0.01
            ? withSpread(row.found).join(' ')
            : row.found,
          columns.found,
          false,
        )
      : cell('TD', row.reason, wide, false);
  const lines = Math.max(name.lines, allowed.lines, found.lines);
  const textHeight = lines * leadingOf(face);
  const height = Math.max(ROW, textHeight + 1);
  // One line stands in the middle of the row; the mark and the strip keep level with the first line.
  const down = (ROW - leadingOf(face)) / 2;
  const result = verdictMark(row.result, row.resultWord, face, measure).items;
  const nodes: Node[] = [name.node, allowed.node, found.node].map((node) => movedNode(node, 0, down));
  const stripNode: Node = {
    tag: 'TD',
    ...(strip
      ? {
          children: [
            {
              tag: 'Figure',
              alt: row.stripAlt,
              box: { x: 0, y: 0, width: strip.width, height: strip.height },
              items: strip.items,
            },
          ],
        }
      : { items: [] }),
  };
  nodes.push(
    movedNode(stripNode, columns.strip.x, 0.2),
    movedNode({ tag: 'TD', verdict: row.result, items: result }, columns.result.x, down),
  );
  return {
    height,
    artifacts: [line(0, height, TEXT_WIDTH, height, rule.row)],
    nodes: [{ tag: 'TR', children: nodes }],
  };
}

export function chartBlock(drawing: Drawing, alt: string): Laid {
  const box = { x: 0, y: 0, width: drawing.width, height: drawing.height };
  return {
    height: drawing.height,
    artifacts: [],
    nodes: [{ tag: 'Figure', alt, box, items: drawing.items }],
  };
}

export function howToReadBlock(lines: readonly string[], measure: TextWidth): Laid {
  const laid = paragraph('P', [{ text: lines.join(' ') }], faceOf.facts, TEXT_WIDTH, measure);
  return { ...laid, height: laid.height + 2 };
}

/** Between two heavy rules: whether there is oil in it, and that this record stays with it. */
export function oilBlock(notice: RecordContent['oilNotice'], measure: TextWidth): Laid {
  const width = TEXT_WIDTH;
  const first =
    notice.strong === null && notice.text === null
      ? []
      : [
          placed(
            paragraph(
              'P',
              [
                ...(notice.strong === null ? [] : [{ text: `${notice.strong} `, strong: true }]),
                { text: notice.text ?? '' },
              ],
              notice.strong === null ? faceOf.body : { ...faceOf.body, size: 10.5 },
              width,
              measure,
            ),
            0,
            0,
          ),
        ];
  const second = paragraph('P', [{ text: notice.keep }], faceOf.facts, width, measure);
  const inner = placed(stacked([...first, second]), 0, 1.4);
  const height = inner.height + 2.8;
  return {
    height,
    artifacts: [line(0, 0, width, 0, rule.notice), line(0, height, width, height, rule.notice)],
    nodes: inner.nodes,
  };
}
