declare module 'virtual:sample-runs' {
  /** Each file of the sample runs by its name below their folder: gzip, then base64. */
  export const packedFiles: Readonly<Record<string, string>>;
}
