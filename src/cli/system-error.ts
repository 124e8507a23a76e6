/** Reasons of the operating system in words; the code in brackets where there is no word for it. */
const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of its path is a file, not a folder',
  EACCES: 'you have no permission',
  EPERM: 'you have no permission',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is used up',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'its name is too long',
  EBUSY: 'another program holds it',
  EIO: 'the disk reports an error',
  EPIPE: 'the program that should take it has ended',
  ELOOP: 'its links lead in a circle',
};

/** The code of an error that came from the operating system ("ENOENT"), null for any other. */
export function systemCode(error: unknown): string | null {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' && 'syscall' in error
    ? error.code
    : null;
}

/** Why a file could not be read or written, as the end of a sentence. */
export function systemReason(code: string): string {
  return reasons[code] ?? `the system says ${code}`;
}
