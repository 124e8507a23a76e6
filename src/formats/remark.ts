/** A fact that a reader of the result should know; it changes no verdict by itself. */
export interface Remark {
  /** Stable name, for programs. */
  code: string;
  /** One sentence for people, with its numbers. */
  text: string;
}
