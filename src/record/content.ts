import type { Criterion, Verdict } from '#formats/assessment.ts';
import type { Span } from './phrases.ts';
import type { Logo } from './record-input.ts';

/** What a record says, before it has a page: the same content makes the PDF and the HTML. */
export interface RecordContent {
  language: string;
  title: string;
  subtitle: string;
  recordNumber: string | null;
  /** "Record 2026-0411" and "issued 6 March 2026", where known. */
  recordWord: string;
  issued: string | null;
  logo: { picture: Logo; alt: string } | null;
  shop: string | null;
  facts: [FactLine[], FactLine[]];
  verdict: Verdict;
  verdictWord: string;
  headline: string;
  body: Span[];
  table: {
    heads: Record<'tested' | 'allowed' | 'found' | 'foundAgainstAllowed' | 'result', string>;
    rows: FoundRow[];
  };
  /** Under the table, for so many rows shown. */
  underTable: (shown: number) => string | null;
  chartAlt: string;
  howToRead: string[];
  oilNotice: { strong: string | null; text: string | null; keep: string };
  footer: string;
  page: (number: number, of: number) => string;
  engineerHead: { strong: string; text: string };
  sections: Section[];
  endOfRecord: string;
}

export interface FactLine {
  label: string;
  value: string;
}

/** A criterion as sheet 1 shows it. */
export interface FoundRow {
  criterion: Criterion;
  name: string;
  allowed: string;
  /** Of a drift: its interval over the hold. */
  interval: { low: number; high: number } | null;
  /** Empty where nothing was found. */
  found: string;
  /** In place of the strip, where nothing was assessed. */
  reason: string | null;
  result: Verdict;
  resultWord: string;
  stripAlt: string;
}

export interface TableColumn {
  head: string;
  /** Share of the width. */
  share: number;
  right?: boolean;
}
export type Cell = string | { verdict: Verdict; word: string };

export type Block =
  | {
      kind: 'table';
      columns: TableColumn[];
      rows: Cell[][];
      /** The first column names its row. */ rowHeads?: boolean;
    }
  | { kind: 'paragraph'; spans: Span[]; /** Small, as the hash is. */ small?: boolean }
  | { kind: 'bullets'; items: string[] }
  | { kind: 'terms'; terms: FactLine[] }
  /** A table whose blank rows are filled in by hand later: as many as the page has room for, 1 to 4. */
  | { kind: 'log-table'; columns: TableColumn[]; first: string[] }
  | { kind: 'signatures'; labels: string[]; names: (string | null)[] }
  | { kind: 'code'; text: string; alt: string };

export interface Section {
  key: string;
  number: number;
  title: string;
  /** A verdict that stands behind the title. */
  mark?: { verdict: Verdict; word: string };
  place: 'full' | 'left' | 'right';
  boxed?: boolean;
  blocks: Block[];
}

/** A section before it has its number. */
export type Unnumbered = Omit<Section, 'number'>;
