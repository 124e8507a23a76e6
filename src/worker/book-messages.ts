import type { BookRun } from '#formats/book.ts';
import type { Spec } from '#formats/spec.ts';

/** What the page asks of the book beside its list and edits. */
export type BookRequest =
  | { kind: 'outlines'; runs: string[] }
  /** The limits that each verdict on a run was made by, also those that are kept nowhere else. */
  | { kind: 'limits-before'; run: string }
  | { kind: 'linked-folder' }
  /** null: unlinks. */
  | { kind: 'link-folder'; folder: FileSystemDirectoryHandle | null }
  | { kind: 'sync-folder'; at: string }
  /** Takes the invented units and runs of the sample shop out for good. */
  | { kind: 'remove-sample-shop' };

export interface BookAnswers {
  /** By id. */
  outlines: Record<string, BookRun['outline']>;
  /** Oldest first, each once. */
  'limits-before': Spec[];
  'linked-folder': { folder: FileSystemDirectoryHandle; upTo: string | null } | null;
  'link-folder': null;
  'sync-folder':
    | { changed: number; newer: string[]; joined: string[]; upTo: string | null }
    /** Why the folder could not be written, as the browser says it. */
    | { problem: string };
  'remove-sample-shop': { removed: number };
}
