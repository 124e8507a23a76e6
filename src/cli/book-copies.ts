import { createHash } from 'node:crypto';
import { renameSync } from 'node:fs';
import { open } from 'node:fs/promises';
import path from 'node:path';
import { writeArchive } from '#book/archive.ts';
import { findingSentence } from '#book/check-book.ts';
import { mendWords } from '#book/mend.ts';
import {
  carryOutMerge,
  gainWords,
  planMerge,
  renumbered,
  soundFiles,
  writesOf,
  type MergePlan,
  type MergeWrite,
} from '#book/merge.ts';
import { treeStore } from '#book/tree-store.ts';
import { entryWords } from './book-text.ts';
import { folderForBook, openArchive, openFolder } from './book-place.ts';
import { bookProblem } from './book-problem.ts';
import type { Given, Outcome } from './command.ts';
import { exitCode } from './exit-code.ts';
import { removeUnfinished, whileUnfinished } from './interruption.ts';
import { systemCode, systemReason } from './system-error.ts';
import type { Terminal } from './terminal.ts';
import { checkOutputs } from './write-outputs.ts';

/** A book's folder as one zip of its files, written piece by piece beside its place and then moved there. */
export async function exportBook(
  places: readonly string[],
  _given: Given,
  terminal: Terminal,
): Promise<Outcome> {
  const [folder = '', archive = ''] = places;
  const refused = checkOutputs([archive], [folder]);
  if (refused.length > 0) return { problems: refused };
  const opened = await openFolder(folder);
  if (!opened.ok) return opened;
  const place = path.resolve(archive);
  const made = path.join(path.dirname(place), `.${path.basename(place)}.${process.pid}.unfinished`);
  const finished = whileUnfinished(made);
  try {
    const file = await open(made, 'w');
    let files: number | null;
    let bytes = 0;
    try {
      files = await writeArchive(
        opened.value.store,
        async (piece) => {
          bytes += piece.length;
          await file.appendFile(piece);
        },
        (done, total) => terminal.progress(`Writing ${archive}: ${done} of ${total} files`),
      );
      await file.sync();
    } finally {
      await file.close();
    }
    renameSync(made, place);
    finished();
    terminal.progress(null);
    await terminal.write(`${archive}: ${files ?? 0} files, ${bytes} bytes.\n`);
    return { exit: exitCode.done };
  } catch (error) {
    removeUnfinished();
    const code = systemCode(error);
    if (code === null) throw error;
    return { problems: [{ code: 'output-not-writable', file: archive, reason: systemReason(code) }] };
  }
}

/** Brings a copy back into a folder: says what it would change, then does it. */
export async function importBook(
  places: readonly string[],
  given: Given,
  terminal: Terminal,
): Promise<Outcome> {
  const [archive = '', folder = ''] = places;
  const opened = await openArchive(archive);
  if (!opened.ok) return opened;
  const tree = await folderForBook(folder);
  if (!tree.ok) return tree;
  const store = treeStore(tree.value);
  const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
  const sound = await soundFiles(opened.value.files, digest, (at, total) =>
    terminal.progress(`Checking ${archive}: ${at} of ${total} runs`),
  );
  const plan = await planMerge(store, sound.files, digest, (at, total) =>
    terminal.progress(`Comparing: ${at} of ${total}`),
  );
  terminal.progress(null);
  const left = [
    ...opened.value.damaged.map(({ path: name, reason }) => `Left out: ${name}: ${reason}.`),
    ...sound.findings.map((finding) => `Left out: ${findingSentence(finding)}`),
    ...plan.damaged.map((problem) =>
      problem.code === 'entry-damaged' ? `Left out: ${problem.path}: ${problem.reason}.` : 'Left out.',
    ),
  ];
  const twice = plan.twice.map(
    (serial) =>
      `Twice: ${serial} is a unit of the book and another one of the archive; both are kept, each with its runs.`,
  );
  const dry = given.options('dry-run').length > 0;
  const words = planLines(plan);
  if (!dry) {
    const done = await carryOutMerge(store, plan, sound.files, (at, total) =>
      terminal.progress(`Bringing back: ${at} of ${total}`),
    );
    terminal.progress(null);
    if (done.problem !== null) {
      const total = writesOf(plan).length;
      if (done.left < total)
        terminal.complain(`${total - done.left} of ${total} entries were written before that, each whole.`);
      return { problems: [bookProblem(folder, done.problem)] };
    }
  }
  const count = (what: string): number => plan.steps.filter((step) => step.what === what).length;
  const mends = writesOf(plan).reduce((sum, step) => sum + step.mends.length, 0);
  const mended = mends === 0 ? '' : `, ${dry ? 'would mend' : 'mended'} ${mends} damaged or missing`;
  const summary = `${dry ? 'Would add' : 'Added'} ${count('add')}, ${dry ? 'would replace' : 'replaced'} ${count('replace')} older${count('join') === 0 ? '' : `, ${dry ? 'would join' : 'joined'} ${count('join')}, nothing of either lost`}${mended}; ${count('keep')} in the book are newer and stay, ${count('same')} are the same.`;
  await terminal.write(`${[...words, ...twice, ...left, summary].join('\n')}\n`);
  return { exit: left.length === 0 ? exitCode.done : exitCode.fails };
}

function planLines({ steps }: MergePlan): string[] {
  return steps.flatMap((step) => {
    switch (step.what) {
      case 'add':
        return [`Add ${entryWords(step.incoming)}`];
      case 'replace':
        return [
          `Replace ${entryWords(step.current)}, of ${step.current.changedAt}, by the one of ${step.incoming.changedAt}`,
          ...mendLines(step),
        ];
      case 'join':
        return [
          `Join ${entryWords(step.current)}: ${gainWords(step)}`,
          ...renumbered(step).map(
            ({ from, to }) =>
              `  ${from} of the archive is kept as ${to}: the book has another verdict under its number, which stays`,
          ),
          ...mendLines(step),
        ];
      case 'mend':
        return [`Mend ${entryWords(step.current)}: ${mendWords(step.mends)}`];
      case 'keep':
        return [
          `Keep ${entryWords(step.current)}, of ${step.current.changedAt}; the archive's is of ${step.incoming.changedAt}`,
        ];
      case 'same':
        return [];
    }
  });
}

const mendLines = ({ mends }: MergeWrite): string[] =>
  mends.length === 0 ? [] : [`  mended: ${mendWords(mends)}`];
