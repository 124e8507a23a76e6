import { gunzipSync } from 'fflate';
import { verdicts } from '#formats/assessment.ts';
import type { BookRun, KeptAssessment } from '#formats/book.ts';
import type { Digest, OnProgress } from './bytes.ts';
import { logFilesOf } from './new-run.ts';
import { BOOK_FILE, entryPath, isEntryPath, runFilePath, runOfPath } from './place.ts';
import type { BookStore } from './store.ts';

/** One thing that does not agree, as data. */
export type BookFinding =
  | { code: 'entry-damaged'; path: string; reason: string; newer?: true }
  | { code: 'file-missing'; path: string; run: string }
  | { code: 'log-changed'; path: string; run: string; expected: string; found: string }
  | { code: 'assessment-changed'; path: string; run: string; expected: string; found: string }
  /** The entry says something else of a verdict than the verdict's own file. */
  | { code: 'entry-disagrees'; path: string; run: string; what: string; entry: string; file: string }
  | { code: 'unit-missing'; run: string; unit: string }
  | { code: 'unknown-file'; path: string }
  | { code: 'gzip-damaged'; path: string; run: string; reason: string };

/** What is wrong, where, and what would mend it. */
export function findingSentence(finding: BookFinding): string {
  switch (finding.code) {
    case 'entry-damaged':
      return `${finding.path} cannot be read: ${finding.reason}. ${finding.newer ? 'Use that version for it' : 'Bring it back from a copy'}.`;
    case 'file-missing':
      return `${finding.path} is missing: run ${finding.run} cannot be recomputed. Bring it back from a copy.`;
    case 'log-changed':
      return `${finding.path} is not the log that was brought in: its SHA-256 is ${finding.found}, kept was ${finding.expected}. Bring it back from a copy.`;
    case 'assessment-changed':
      return `${finding.path} was changed after it was decided: its SHA-256 is ${finding.found}, kept was ${finding.expected}. Bring it back from a copy.`;
    case 'entry-disagrees':
      return `${finding.path} was changed by hand: it says ${finding.entry} for the ${finding.what}, the assessment of run ${finding.run} says ${finding.file}. Bring it back from a copy.`;
    case 'unit-missing':
      return `Run ${finding.run} belongs to a unit (${finding.unit}) that is not in the book. Give the run to a unit again.`;
    case 'unknown-file':
      return `${finding.path} belongs to no entry (left by a crash, or put there by hand). It does no harm and can be removed.`;
    case 'gzip-damaged':
      return `${finding.path} cannot be unpacked: ${finding.reason}. Bring it back from a copy.`;
  }
}

/** Whether a finding touches what was decided (an unknown file does not). */
export const isGrave = (finding: BookFinding): boolean => finding.code !== 'unknown-file';

/** A file that a run's entry names, and what its bytes have to be. */
export interface KeptFile {
  path: string;
  sha256: string;
  /** A log lies packed; the SHA-256 is of what was brought in. */
  what: 'log' | 'verdict';
}

/** What a run's entry names: its log, or the parts of it, and its verdicts. */
export function keptFiles(run: BookRun): KeptFile[] {
  const { id, assessments } = run;
  return [
    ...logFilesOf(run).map(({ file, sha256 }) => ({
      path: runFilePath(id, file),
      sha256,
      what: 'log' as const,
    })),
    ...assessments.map(({ file, sha256 }) => ({
      path: runFilePath(id, file),
      sha256,
      what: 'verdict' as const,
    })),
  ];
}

/**
 * What is wrong with one kept file; null: it is as it was kept.
 * @param bytes null: it is not there
 */
export async function fileFinding(
  run: string,
  { path, sha256: expected, what }: KeptFile,
  bytes: Uint8Array | null,
  digest: Digest,
): Promise<BookFinding | null> {
  if (bytes === null) return { code: 'file-missing', path, run };
  let content = bytes;
  if (what === 'log')
    try {
      content = gunzipSync(bytes);
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      return { code: 'gzip-damaged', path, run, reason };
    }
  const found = await digest(content);
  if (found === expected) return null;
  return { code: what === 'log' ? 'log-changed' : 'assessment-changed', path, run, expected, found };
}

/** Holds every entry against its files: shapes, bytes and SHA-256 of logs and assessments, units of runs. */
export async function checkBook(
  store: BookStore,
  digest: Digest,
  progress: OnProgress = () => undefined,
): Promise<{ runs: number; findings: BookFinding[] }> {
  const findings: BookFinding[] = [];
  const { entries, damaged } = await store.entries();
  for (const problem of damaged) if (problem.code === 'entry-damaged') findings.push(problem);
  const units = new Set(
    entries.filter((entry) => entry.format === 'overdrive-bench/book-unit').map((entry) => entry.id),
  );
  const runs = entries.filter((entry): entry is BookRun => entry.format === 'overdrive-bench/book-run');
  const known = new Set(entries.map(entryPath));
  let done = 0;
  for (const run of runs) {
    if (run.unitId !== null && !units.has(run.unitId))
      findings.push({ code: 'unit-missing', run: run.id, unit: run.unitId });
    for (const kept of keptFiles(run)) {
      known.add(kept.path);
      const bytes = await store.file(kept.path);
      const finding = await fileFinding(run.id, kept, bytes, digest);
      if (finding !== null) findings.push(finding);
      else if (bytes !== null && kept.what === 'verdict')
        for (const difference of disagreements(verdictAt(run, kept.path), bytes))
          findings.push({ code: 'entry-disagrees', path: entryPath(run), run: run.id, ...difference });
    }
    await progress(++done, runs.length);
  }
  const damagedPaths = new Set(findings.map((finding) => ('path' in finding ? finding.path : '')));
  for (const path of await store.paths()) {
    if (path === BOOK_FILE || known.has(path) || damagedPaths.has(path)) continue;
    // A file of a run whose entry is damaged is not unknown, only out of reach.
    const run = runOfPath(path);
    if (run !== null && damagedPaths.has(`runs/${run}/run.json`)) continue;
    if (!isEntryPath(path)) findings.push({ code: 'unknown-file', path });
  }
  return { runs: runs.length, findings };
}

const verdictAt = (run: BookRun, path: string): KeptAssessment | undefined =>
  run.assessments.find(({ file }) => runFilePath(run.id, file) === path);

/** What the entry repeats of an assessment for the list, where it is not what the assessment says. */
export function disagreements(
  kept: KeptAssessment | undefined,
  bytes: Uint8Array,
): { what: string; entry: string; file: string }[] {
  const said = saidBy(bytes);
  if (said === null || kept === undefined) return [];
  const pairs: readonly (readonly [string, unknown, unknown])[] = [
    ['verdict', kept.verdict, said.verdict],
    ['operating pressure', kept.operatingPressure, said.operatingPressure],
    ['expanded uncertainty', kept.expandedUncertainty, said.expandedUncertainty],
    ['unit', kept.unit, said.unit],
  ];
  return pairs
    .filter(([, entry, file]) => entry !== file)
    .map(([what, entry, file]) => ({ what, entry: String(entry), file: String(file) }));
}

/** An assessment of another version may have another shape: then nothing can be held against it. */
function saidBy(bytes: Uint8Array) {
  let data: unknown;
  try {
    data = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return null;
  }
  const pressure = field(field(data, 'quantities'), 'operatingPressure');
  const verdict = field(data, 'verdict');
  if (!verdicts.some((each) => each === verdict) || typeof pressure !== 'object') return null;
  return {
    verdict,
    operatingPressure: field(pressure, 'value'),
    expandedUncertainty: field(pressure, 'expandedUncertainty'),
    unit: field(pressure, 'unit'),
  };
}

const field = (data: unknown, name: string): unknown =>
  typeof data === 'object' && data !== null
    ? Object.entries(data).find(([key]) => key === name)?.[1]
    : undefined;
