/** A script for a thread, built by itself; not a text where the command line runs unbuilt. */
declare module '*?thread' {
  const code: unknown;
  export default code;
}
