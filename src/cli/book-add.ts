import { createHash, randomUUID } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { newRun, runOfLog, runSharingLog } from '#book/new-run.ts';
import { newUnit, unitOfSerial } from '#book/new-unit.ts';
import { runOutline } from '#book/run-outline.ts';
import { treeStore } from '#book/tree-store.ts';
import type { BookRun, BookUnit } from '#formats/book.ts';
import { verdictWords } from '#formats/criterion-text.ts';
import { writeJson } from '#formats/number.ts';
import { bookProblem } from './book-problem.ts';
import { folderForBook } from './book-place.ts';
import type { Given, Outcome } from './command.ts';
import { exitCode } from './exit-code.ts';
import { checkFiles } from './give-out.ts';
import { judgeRun } from './judge-run.ts';
import { readJudging } from './judging-options.ts';
import type { Terminal } from './terminal.ts';

/** Judges a run and keeps it: log, settings and verdict in one step. A log that is in the book already is not kept twice. */
export async function addToBook(
  places: readonly string[],
  given: Given,
  terminal: Terminal,
): Promise<Outcome> {
  const [folder = '', ...logs] = places;
  if (given.option('spec') !== null && given.option('band') !== null)
    return { usage: 'give --spec or --band, not both; a spec has its own band' };
  const refused = checkFiles({
    inputs: [...logs, given.option('rig'), given.option('spec')],
    json: null,
    records: [],
  });
  if (refused) return refused;
  const tree = await folderForBook(folder);
  if (!tree.ok) return tree;
  const store = treeStore(tree.value);
  const judging = await readJudging(given);
  if (!judging.ok) return judging;
  const judged = await judgeRun({ logs, ...judging.value, judge: null, keep: true }, terminal);
  if (!judged.ok) return judged;
  const { assessment, series, files } = judged.value;

  const { entries } = await store.entries();
  const units = entries.filter((entry): entry is BookUnit => entry.format === 'overdrive-bench/book-unit');
  const runs = entries.filter((entry): entry is BookRun => entry.format === 'overdrive-bench/book-run');
  const packed = files.map(({ fileName, bytes }) => ({
    fileName,
    bytes: bytes.length,
    sha256: sha256(bytes),
    packed: new Uint8Array(gzipSync(bytes)),
  }));
  const serial = given.option('unit');
  const hashes = packed.map((log) => log.sha256);
  const before = runOfLog(runs, hashes);
  if (before !== null) {
    const names = packed.map(({ fileName }) => fileName ?? 'the log').join(', ');
    return alreadyThere(before, names, units, serial, terminal);
  }
  const sharing = runSharingLog(runs, hashes);

  const at = new Date().toISOString();
  const found = serial === null ? null : unitOfSerial(units, serial);
  const made =
    serial === null || found !== null
      ? null
      : newUnit(
          randomUUID(),
          { format: 'overdrive-bench/unit-record', version: 1, unit: { serial: serial.trim() } },
          at,
        );
  const unit = found ?? made;
  const data = new TextEncoder().encode(writeJson(assessment));
  const { run, files: toWrite } = newRun({
    id: randomUUID(),
    unitId: unit?.id ?? null,
    kind: runs.some((each) => each.unitId !== null && each.unitId === unit?.id && each.removedAt === null)
      ? 're-test'
      : 'test',
    at,
    logs: packed,
    made: { spec: judging.value.spec, rig: judging.value.rig, judge: null, overrides: [] },
    verdict: { assessment, bytes: data, sha256: sha256(data) },
    outline: runOutline(series),
  });
  const written = await store.write(made === null ? [run] : [made, run], toWrite);
  if (!written.ok) return { problems: [bookProblem(folder, written.problem)] };
  await terminal.write(
    `Kept ${packed.map(({ fileName }) => fileName ?? 'the log').join(', ')} as run ${run.id}, ${
      unit === null ? 'not yet given to a unit' : `unit ${unit.record.unit?.serial ?? unit.id}`
    }: ${verdictWords[assessment.verdict]}.\n`,
  );
  if (sharing !== null)
    await terminal.write(
      `Another run of the book, ${sharing.id}, was made of some of these files: give both to the right unit, or remove the one that is too many.\n`,
    );
  return { exit: exitCode.done };
}

/** The same log again: nothing is added; naming another unit for it does not agree. */
async function alreadyThere(
  run: BookRun,
  names: string,
  units: readonly BookUnit[],
  serial: string | null,
  terminal: Terminal,
): Promise<Outcome> {
  const owner = units.find(({ id }) => id === run.unitId) ?? null;
  const where =
    (owner === null ? 'not given to a unit' : `unit ${owner.record.unit?.serial ?? owner.id}`) +
    (run.removedAt === null ? '' : ', in the bin');
  await terminal.write(
    `${names} is in the book already, as run ${run.id} (${where}): the same bytes. Nothing was added.\n`,
  );
  return {
    exit: serial === null || unitOfSerial(units, serial)?.id === run.unitId ? exitCode.done : exitCode.fails,
  };
}

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
