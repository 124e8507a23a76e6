import { createHash } from 'node:crypto';
import { checkBook, findingSentence, isGrave } from '#book/check-book.ts';
import { listBook } from '#book/list-book.ts';
import { writeJson } from '#formats/number.ts';
import { addToBook } from './book-add.ts';
import { exportBook, importBook } from './book-copies.ts';
import { openPlace } from './book-place.ts';
import { listingText } from './book-text.ts';
import type { Command, Given, Outcome } from './command.ts';
import { exitCode } from './exit-code.ts';
import { checkFiles, giveOut } from './give-out.ts';
import { bandOption, jsonOption, rigOption, specOption } from './judging-options.ts';
import type { Terminal } from './terminal.ts';

/** What can be done with a book: how many places each takes, and which options it has. */
const actions = {
  list: { places: 'PLACE', count: 1, options: ['json'], run: list },
  verify: { places: 'PLACE', count: 1, options: [], run: verify },
  export: { places: 'FOLDER ARCHIVE', count: 2, options: [], run: exportBook },
  import: { places: 'ARCHIVE FOLDER', count: 2, options: ['dry-run'], run: importBook },
  add: { places: 'FOLDER LOG…', count: null, options: ['rig', 'spec', 'band', 'unit'], run: addToBook },
} as const;
const actionNames = Object.keys(actions) as (keyof typeof actions)[];

export const bookCommand: Command = {
  name: 'book',
  summary: 'The book of units and their runs, as a folder or an archive: lists, checks, copies, adds to it.',
  forms: [
    'book list PLACE [--json FILE|-]',
    'book verify PLACE',
    'book export FOLDER ARCHIVE',
    'book import ARCHIVE FOLDER [--dry-run]',
    'book add FOLDER LOG… [--rig FILE] [--spec FILE | --band BAND] [--unit SERIAL]',
  ],
  options: {
    json: jsonOption,
    'dry-run': { value: null, help: 'import: only says what would change' },
    rig: rigOption,
    spec: specOption,
    band: bandOption,
    unit: {
      value: 'SERIAL',
      help: 'add: the unit that the run belongs to; a new one is made where there is none',
    },
  },
  notes: [
    'PLACE is a folder, or an archive that the app put aside or export wrote: a zip of the same plain files.',
    'verify holds every log and every verdict against its SHA-256 and exits 1 when something does not agree. import takes nothing out of the book, and verdicts of both are kept, one that comes under a taken number under the next free one; a log or verdict that is damaged or missing in the book and whole in the archive is mended; what is damaged in the archive is named and left out (exit 1), the rest is brought in.',
    'add judges the run and keeps the log unchanged with its verdict; several LOGs are the parts of one run.',
  ],
  async run(given, terminal) {
    const [word, ...places] = given.operands;
    const action = actionNames.find((name) => name === word);
    if (action === undefined)
      return {
        usage: `${word === undefined ? 'say' : `there is no "${word}";`} one of ${actionNames.join(', ')}`,
      };
    const { count, options, places: wanted, run } = actions[action];
    if (count === null ? places.length < 2 : places.length !== count)
      return { usage: `${action} takes ${wanted}` };
    const foreign = Object.keys(bookCommand.options).find(
      (name) => given.options(name).length > 0 && !options.some((each) => each === name),
    );
    if (foreign !== undefined) return { usage: `${action} has no option --${foreign}` };
    return run(places, given, terminal);
  },
};

async function list(places: readonly string[], given: Given, terminal: Terminal): Promise<Outcome> {
  const [place = ''] = places;
  const json = given.option('json');
  const refused = checkFiles({ inputs: [place], json, records: [] });
  if (refused) return refused;
  const opened = await openPlace(place);
  if (!opened.ok) return opened;
  const { store, damaged } = opened.value;
  const listing = await listBook(store);
  for (const { path, reason } of damaged)
    terminal.complain(`${path}: ${reason}. It is left out of the list.`);
  for (const problem of (await store.entries()).damaged)
    if (problem.code === 'entry-damaged')
      terminal.complain(`${problem.path} cannot be read: ${problem.reason}. It is left out of the list.`);
  const stopped = await giveOut(
    { json, data: writeJson(listing), text: () => listingText(listing, terminal) },
    [],
    terminal,
  );
  return stopped ?? { exit: exitCode.done };
}

async function verify(places: readonly string[], _given: Given, terminal: Terminal): Promise<Outcome> {
  const [place = ''] = places;
  const opened = await openPlace(place);
  if (!opened.ok) return opened;
  const { store, damaged } = opened.value;
  const { runs, findings } = await checkBook(
    store,
    (bytes) => createHash('sha256').update(bytes).digest('hex'),
    (done, total) => terminal.progress(`Checking: ${done} of ${total} runs`),
  );
  terminal.progress(null);
  const sentences = [
    ...damaged.map(({ path, reason }) => `${path} is damaged: ${reason}. Use another copy for it.`),
    ...findings.map(findingSentence),
  ];
  const grave = damaged.length + findings.filter(isGrave).length;
  const count = `${runs} ${runs === 1 ? 'run' : 'runs'} checked`;
  const end =
    grave === 0
      ? `${count}: every log and every verdict is as it was kept.`
      : `${count}: ${grave} ${grave === 1 ? 'thing does' : 'things do'} not agree.`;
  await terminal.write(`${[...sentences, end].join('\n')}\n`);
  return { exit: grave === 0 ? exitCode.done : exitCode.fails };
}
