import type { Criterion } from '#formats/assessment.ts';
import { decimalsOf } from '#formats/criterion-text.ts';
import { fixedText, noBreak, statedText, unitLabel, withUnit } from '#units/number-text.ts';
import { pressureFactor } from '#units/pressure.ts';
import type { Block, Cell, Unnumbered } from './content.ts';
import {
  allowedWords,
  bound,
  capital,
  clause,
  driftInterval,
  hasUncertainty,
  uncertaintyWords,
  valueAlone,
} from './criterion-words.ts';
import { type Telling } from './sheet-one.ts';

export function criteriaSection(telling: Telling): Unnumbered {
  const { assessment, phrases, numbers } = telling;
  const { criteriaTable: heads } = phrases;
  const rows = assessment.criteria.map((criterion): Cell[] => {
    const allowed = allowedWords(criterion, phrases, numbers);
    return [
      capital(phrases.criteria[criterion.id].engineer),
      criterion.id === 'drift' ? phrases.upOrDown(allowed) : allowed,
      criterion.value === null ? phrases.verdict['not-assessed'] : valueAlone(criterion, numbers),
      spreadWords(criterion, telling),
      phrases.rules[criterion.decisionRule],
      chance(criterion, { phrases, numbers }),
      { verdict: criterion.verdict, word: phrases.verdict[criterion.verdict] },
    ];
  });
  const rules = new Set(assessment.criteria.map(({ decisionRule }) => decisionRule));
  const { guardFactor, coverageProbability } = assessment.settings;
  const source = assessment.spec?.source;
  const sentences = [
    source === undefined ? phrases.noSource : phrases.limitsFrom(clause(source)),
    ...shownUnits(telling),
    ...(rules.has('guarded')
      ? [
          guardFactor === 1
            ? phrases.ruleSentence.guarded
            : phrases.ruleSentence.guardedFactor(statedText(guardFactor, numbers)),
        ]
      : []),
    ...(rules.has('simple') ? [phrases.ruleSentence.simple] : []),
    ...(assessment.criteria.some(hasUncertainty)
      ? [phrases.ruleSentence.uncertainty(noBreak(`${fixedText(coverageProbability * 100, 0, numbers)} %`))]
      : []),
  ];
  const blocks: Block[] =
    rows.length === 0
      ? [{ kind: 'paragraph', spans: [{ text: phrases.headline.noLimits }] }]
      : [
          {
            kind: 'table',
            rowHeads: true,
            columns: [
              { head: heads.criterion, share: 0.19 },
              { head: heads.allowed, share: 0.215 },
              { head: heads.found, share: 0.115, right: true },
              { head: heads.uncertainty, share: 0.085, right: true },
              { head: heads.rule, share: 0.115 },
              { head: heads.chance, share: 0.185 },
              { head: heads.verdict, share: 0.095 },
            ],
            rows,
          },
          { kind: 'paragraph', spans: [{ text: sentences.join(' ') }] },
        ];
  return { key: 'criteria', title: phrases.sections.criteria, place: 'full', blocks };
}

/** That the record shows other units than it was judged in: the band as it was stated, and how the units hang together. */
function shownUnits({ assessment, stated, phrases, numbers }: Telling): string[] {
  if (!stated) return [];
  const words = phrases.shownUnits;
  const sentences: string[] = [];
  const from = stated.quantities.operatingPressure.unit,
    to = assessment.quantities.operatingPressure.unit;
  if (from !== to) {
    const band = stated.criteria.find(({ id }) => id === 'operating-pressure');
    if (band) sentences.push(words.band(allowedWords(band, phrases, numbers), unitLabel(to)));
    const factor = Number(pressureFactor(from, to).toPrecision(6));
    sentences.push(
      words.pressure(unitLabel(from), withUnit(statedText(factor, numbers), to)).replaceAll(' ', '\u00a0'),
    );
  }
  const warm = stated.quantities.holdTemperature.unit,
    shown = assessment.quantities.holdTemperature.unit;
  if (warm !== shown) sentences.push(words.temperature(unitLabel(warm), unitLabel(shown)));
  return sentences.map(noBreak);
}

/** U, or the interval that stands in its place. */
function spreadWords(criterion: Criterion, { assessment, phrases, numbers }: Telling): string {
  if (hasUncertainty(criterion)) return uncertaintyWords(criterion, numbers);
  const interval = driftInterval(criterion, assessment);
  if (!interval) return phrases.notUsed;
  const decimals = decimalsOf(criterion);
  return phrases
    .between(
      fixedText(interval.low, decimals, numbers),
      bound(withUnit(fixedText(interval.high, decimals, numbers), criterion.unit)),
    )
    .replaceAll(' ', '\u00a0');
}

function chance(criterion: Criterion, { phrases, numbers }: Pick<Telling, 'phrases' | 'numbers'>): string {
  const p = criterion.probabilityOfConformity;
  if (p === null) return phrases.notUsed;
  if (p > 0.9999) return phrases.chance.almostSure;
  if (p < 0.0001) return phrases.chance.almostNone;
  return fixedText(p, 4, numbers);
}
