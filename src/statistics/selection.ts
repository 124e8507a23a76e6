/** Up to so many readings are packed into one list that is used again and again: blocks of a log come here by the thousand. */
const SHARED = 16_384;
const shared = new Float64Array(SHARED);

/**
 * The readings that are there, packed: whole channels of millions come here, and a plain array of them costs more than any search.
 * @param values any length, NaN for no reading
 * @returns a list to work on, good until the next call
 */
export function packed(values: ArrayLike<number>): Float64Array {
  const list = values.length <= SHARED ? shared : new Float64Array(values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    // Neither NaN nor infinite.
    if (value - value === 0) list[count++] = value;
  }
  return list.subarray(0, count);
}

/**
 * The value that would stand at a place if the list were sorted; smaller ones end up before it, larger ones after it.
 * Hoare's selection with the middle of three as pivot: fast on sorted, constant and two-valued lists, the same steps every time.
 * @param list changed in place, no NaN
 * @param place from 0
 * Cost: about n.
 */
export function selected(list: Float64Array, place: number): number {
  let low = 0;
  let high = list.length - 1;
  while (low < high) {
    const a = list[low] ?? NaN;
    const b = list[(low + high) >>> 1] ?? NaN;
    const c = list[high] ?? NaN;
    const pivot = a < b ? (b < c ? b : a < c ? c : a) : a < c ? a : b < c ? c : b;
    let i = low;
    let j = high;
    while (i <= j) {
      while ((list[i] ?? NaN) < pivot) i++;
      while ((list[j] ?? NaN) > pivot) j--;
      if (i > j) break;
      const swap = list[i] ?? NaN;
      list[i++] = list[j] ?? NaN;
      list[j--] = swap;
    }
    if (place <= j) high = j;
    else if (place >= i) low = i;
    else break;
  }
  return list[place] ?? NaN;
}

/** The largest value before a place, once {@link selected} has been asked for that place. */
export function largestBefore(list: Float64Array, place: number): number {
  let largest = -Infinity;
  for (let i = 0; i < place; i++) {
    const value = list[i] ?? NaN;
    if (value > largest) largest = value;
  }
  return largest;
}
