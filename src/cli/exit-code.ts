/** How a command ends (docs/command-line.md). */
export const exitCode = {
  /** Done; for `assess`: there is a criterion and every one passes. */
  done: 0,
  /** `assess`: a criterion fails. `book verify`: something does not agree. */
  fails: 1,
  /** `assess`: none fails, but one is open or no limit was given. `advise`: held back or nothing to offer. */
  open: 2,
  /** An input that can't be used, an output that can't be written. */
  unusable: 3,
  usage: 4,
  /** A mistake of ours (sysexits.h: EX_SOFTWARE, from memory). */
  fault: 70,
  /** 128 + SIGINT, as shells count. */
  cancelled: 130,
} as const;
export type ExitCode = (typeof exitCode)[keyof typeof exitCode];
