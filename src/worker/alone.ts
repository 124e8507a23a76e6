/**
 * Does something that two windows must not do at once: the second waits for the first.
 * @param what names it among the windows of this browser
 */
export const alone = <T>(what: string, work: () => Promise<T>): Promise<T> =>
  typeof navigator !== 'undefined' && 'locks' in navigator
    ? navigator.locks.request(`overdrive-bench-${what}`, work)
    : work();
