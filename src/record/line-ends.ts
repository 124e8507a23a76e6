/** A note may be typed in lines, or pasted from a table: on a record their ends and tabs are blanks, no letters that a face lacks. */
export const LINE_ENDS = /[\t\n\v\f\r\u0085\u2028\u2029]+/g;
