/** The parts of the oracle that the tests call; the package brings no types. */
declare module 'jstat' {
  interface Distribution {
    cdf: (x: number, ...parameters: number[]) => number;
    inv: (p: number, ...parameters: number[]) => number;
  }
  const jStat: { normal: Distribution; studentt: Distribution };
  export default jStat;
}
