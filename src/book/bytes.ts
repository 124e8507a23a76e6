/** Hex digest of bytes; the room has no hash of its own. */
export type Digest = (bytes: Uint8Array) => string | Promise<string>;

/** Whether two files are the same. */
export const equalBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, index) => byte === b[index]);

/** How far work is. It is awaited, so that a stop can be heard meanwhile; work that only looks is stopped by its throwing. */
export type OnProgress = (done: number, total: number) => void | Promise<void>;
