/**
 * Lists as long as a column, where the column lies: in memory that threads share if it does, so that another one can go on with what is
 * made of it. Elsewhere an own list.
 */
export function emptyLike(column: Float64Array): Float64Array {
  return new Float64Array(memoryLike(column, 8 * column.length));
}
/** The same for marks, a byte a row. */
export function marksLike(column: Float64Array): Uint8Array {
  return new Uint8Array(memoryLike(column, column.length));
}
/** A copy of a column's readings or of its marks, where it lies. */
export function copyOf<T extends Float64Array | Uint8Array>(column: T): T {
  const memory = memoryLike(column, column.byteLength),
    copy = column instanceof Float64Array ? new Float64Array(memory) : new Uint8Array(memory);
  copy.set(column);
  return copy as T;
}

function memoryLike({ buffer }: Float64Array | Uint8Array, bytes: number): ArrayBuffer | SharedArrayBuffer {
  // A page without shared memory does not even have its name.
  return buffer instanceof ArrayBuffer ? new ArrayBuffer(bytes) : new SharedArrayBuffer(bytes);
}
