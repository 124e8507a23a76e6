// The part of papaparse that this room uses. The published types bring Node's and the DOM's in, which a pure room must not see;
// tsconfig.pure.json maps the name to this file.
interface ParseOptions {
  delimiter: string;
  newline?: '\n' | '\r' | '\r\n';
  quoteChar?: string;
}
interface ParseError {
  type: string;
  code: string;
}
declare const Papa: {
  parse(text: string, options: ParseOptions): { data: unknown[]; errors: ParseError[] };
};
export default Papa;
