/** Marks that tell which way text runs; some exports put them around dates and numbers. They mean nothing here. */
const marks = /[\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/gu;
/** The text without them; itself where it has none. */
export const withoutDirectionMarks = (text: string): string => text.replace(marks, '');
