import { describe, expect, it } from 'vitest';
import { adviceSchema, type Advice } from '#formats/advice.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { Adjustments, Relief } from '#formats/relief.ts';
import { actionOf, offersSomething } from '#formats/advice-words.ts';
import { advise } from '#relief/advise.ts';
import { normalCdf } from '#statistics/normal.ts';
import { band, statedGauge, tidyQuantities } from '../decision/sample-quantities.ts';
import { assessedAt, assessmentOf, readAt, relief } from './sample-assessment.ts';

function advice(assessment: Assessment, from: Relief = relief(), history: Adjustments | null = null): Advice {
  const result = advise({ assessment, relief: from, history });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  expect(adviceSchema.safeParse(result.value).error).toBeUndefined();
  return result.value;
}
const codes = ({ remarks }: Advice): string[] => remarks.map(({ code }) => code);
const changes = (...list: [before: number, after: number, from: number, to: number][]): Adjustments => ({
  format: 'overdrive-bench/adjustments',
  version: 1,
  adjustments: list.map(([before, after, from, to]) => ({
    before_mm: before === 0 ? [] : [before],
    after_mm: [after],
    pressureBefore: { value: from, unit: 'psi', standardUncertainty: 1 },
    pressureAfter: { value: to, unit: 'psi', standardUncertainty: 1 },
  })),
});

describe('a unit set too high', () => {
  const found = advice(assessedAt(425.1));
  it('says what would hit the target', () => {
    expect(found.target).toEqual({ value: 410, unit: 'psi' });
    expect(found.change_mm).toBeCloseTo(-15.1 / 22, 11);
    expect(found.heldBack).toBeNull();
  });
  it('offers stacks of what is there, best first, leaving it among them', () => {
    expect(found.options.length).toBe(5);
    expect(found.options.filter(({ leave }) => leave)).toHaveLength(1);
    const [best] = found.options;
    expect(best?.change_mm).toBe(-0.7);
    expect(best?.fit_mm?.reduce((sum, shim) => sum + shim, 0)).toBeCloseTo(0.75, 12);
    const passes = found.options.map(({ probabilityOfPass }) => probabilityOfPass);
    expect(passes).toEqual(passes.toSorted((a, b) => b - a));
  });
  it('predicts by reading, sensitivity and refitting', () => {
    const [best] = found.options;
    expect(best?.predicted.value).toBeCloseTo(425.1 - 0.7 * 22, 9);
    const u = Math.sqrt(1.75 ** 2 + (0.7 * 1.2) ** 2 + 1.5 ** 2);
    expect(best?.predicted.standardUncertainty).toBeCloseTo(u, 10);
    const mu = 409.7;
    expect(best?.probabilityOfConformity).toBeCloseTo(
      normalCdf((420 - mu) / u) - normalCdf((400 - mu) / u),
      10,
    );
    const both = Math.sqrt(u * u + 1.75 ** 2);
    expect(best?.probabilityOfPass).toBeCloseTo(
      normalCdf((416.5 - mu) / both) - normalCdf((403.5 - mu) / both),
      9,
    );
  });
  it('gives the same-gauge chance from scatter, sensitivity and refitting alone', () => {
    const [best] = advice(assessedAt(425.1, 1.75, 0.4)).options;
    const u = Math.sqrt((0.7 * 1.2) ** 2 + 1.5 ** 2 + 2 * 0.4 ** 2);
    const guard = 2 * Math.sqrt(1.75 ** 2 + 0.4 ** 2);
    expect(best?.probabilityOfPassSameGauge).toBeCloseTo(
      normalCdf((420 - guard - 409.7) / u) - normalCdf((400 + guard - 409.7) / u),
      9,
    );
  });
  it('leaving it has the reading alone', () => {
    const leave = found.options.find((option) => option.leave);
    expect(leave).toMatchObject({ change_mm: 0, fit_mm: [0.5, 0.5, 0.25, 0.1, 0.1] });
    expect(leave?.predicted).toMatchObject({ value: 425.1, standardUncertainty: 1.75 });
    expect(leave?.probabilityOfConformity).toBeCloseTo(normalCdf(-5.1 / 1.75), 10);
  });
  it('never exceeds what is in stock', () => {
    for (const option of found.options) {
      const count = (thickness: number): number =>
        option.fit_mm?.filter((shim) => shim === thickness).length ?? 0;
      expect(count(0.5)).toBeLessThanOrEqual(2);
      expect(count(0.1)).toBeLessThanOrEqual(5);
      expect(option.fit_mm?.every((shim) => [0.5, 0.25, 0.1].includes(shim))).toBe(true);
    }
  });
  it('says the cautions, standstill and pressure first', () => {
    expect(found.cautions.join(' ')).toMatch(/standstill/);
    expect(found.cautions.join(' ')).toMatch(/blocked line shows zero/);
    expect(found.cautions.join(' ')).toMatch(/manual and the local rules come first/);
  });
});

describe('leaving it', () => {
  it('wins in the middle of the band', () => {
    const found = advice(assessedAt(410));
    expect(found.options[0]?.leave).toBe(true);
    expect(codes(found)).toContain('passes-as-it-is');
  });
  it('wins where refitting would cost more than it brings', () => {
    const rough = relief({ repeatability: { standardUncertainty: 6, unit: 'psi' } });
    expect(advice(assessedAt(407), rough).options[0]?.leave).toBe(true);
    expect(
      advice(assessedAt(407), relief({ repeatability: { standardUncertainty: 0.1, unit: 'psi' } })).options[0]
        ?.leave,
    ).toBe(false);
  });
});

describe('limits', () => {
  it('without a stack limit nothing raises the pressure', () => {
    const { stackAtMost_mm: _, ...open } = relief();
    const found = advice(assessedAt(396), open);
    expect(found.options.every(({ change_mm }) => change_mm <= 0)).toBe(true);
    expect(codes(found)).toContain('no-limit-stated');
    expect(codes(found)).toContain('nothing-reaches-the-band');
    expect(offersSomething(found)).toBe(false);
  });
  it('no option exceeds the stack limit, and the one at it says so', () => {
    const found = advice(assessedAt(388), relief({ stackAtMost_mm: 1.7 }));
    const heights = found.options.map(({ fit_mm }) => fit_mm?.reduce((sum, shim) => sum + shim, 0) ?? 0);
    expect(Math.max(...heights)).toBeLessThanOrEqual(1.7 + 1e-12);
    expect(found.options.find(({ change_mm }) => change_mm === 0.25)?.remark).toBe('at the limit of 1.7 mm');
  });
  it('nothing in stock reaches the band: the nearest is shown with its distance', () => {
    const found = advice(assessedAt(450), relief({ fitted_mm: [1], stock: [] }));
    expect(codes(found)).toContain('nothing-reaches-the-band');
    expect(found.remarks.find(({ code }) => code === 'nothing-reaches-the-band')?.text).toContain(
      '8.0 psi away',
    );
  });
  it('one-sided band: a target is required', () => {
    const assessment = assessedAt(425, 1.75, 0, band(null, 420));
    const result = advise({ assessment, relief: relief(), history: null });
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.problems[0]).toMatchObject({ code: 'bad-field', path: 'target' });
    const target = { value: 28, unit: 'bar' as const };
    expect(advice(assessment, relief({ target })).target.value).toBeCloseTo(406.1056656, 6);
  });
  it('no limits at all: a problem that says so', () => {
    const result = advise({
      assessment: assessmentOf(readAt(410, 1), null),
      relief: relief(),
      history: null,
    });
    expect(result.ok).toBe(false);
  });
});

describe('a screw', () => {
  const screw = (turnsAtMost?: number): Relief => ({
    format: 'overdrive-bench/relief',
    version: 1,
    pressurePerShim: { value: 22, unit: 'psi/mm', standardUncertainty: 1.2 },
    repeatability: { standardUncertainty: 0.5, unit: 'psi' },
    screw: turnsAtMost === undefined ? { pitch_mm: 1 } : { pitch_mm: 1, turnsAtMost },
  });
  it('turns in eighths, with fit_mm null', () => {
    const found = advice(assessedAt(425.1), screw(4));
    expect(found.change_turns).toBeCloseTo(-15.1 / 22, 11);
    expect(found.options[0]).toMatchObject({ turns: -0.625, fit_mm: null, change_mm: -0.625 });
    for (const { turns } of found.options) expect(Number.isInteger((turns ?? NaN) * 8)).toBe(true);
  });
  it('never turns further than allowed, either way', () => {
    const found = advice(assessedAt(450), screw(1));
    expect(found.options.every(({ turns }) => Math.abs(turns ?? NaN) <= 1)).toBe(true);
    expect(
      found.options.some(({ turns, remark }) => turns === -1 && remark === 'at the limit of 1 turns'),
    ).toBe(true);
  });
  it('without a limit only outwards', () => {
    const found = advice(assessedAt(390), screw());
    expect(found.options.every(({ turns }) => (turns ?? NaN) <= 0)).toBe(true);
    expect(codes(found)).toContain('no-limit-stated');
  });
});

describe('where the pressure per millimetre comes from', () => {
  it('valve alone, exact with a remark', () => {
    const { pressurePerShim: _, ...rest } = relief({
      valve: { springRate: { value: 12.5, unit: 'N/mm' }, pressureArea: { value: 80, unit: 'mm2' } },
    });
    const found = advice(assessedAt(425.1), rest);
    expect(found.pressurePerShim).toMatchObject({
      from: 'valve',
      standardUncertainty: 0,
      adjustmentsUsed: 0,
    });
    expect(found.pressurePerShim?.value).toBeCloseTo(22.6621, 4);
    expect(codes(found)).toContain('sensitivity-without-uncertainty');
  });
  it('figure and history weighed by their uncertainties', () => {
    const found = advice(assessedAt(425.1), relief(), changes([0.5, 1, 400, 410], [1, 0.25, 410, 394]));
    // differences 10 ± σ at 0.5 and −16 ± σ at −0.75, σ² = 1 + 1 + 1.5²; through the origin 20.923 psi/mm
    const variance = 2 + 2.25;
    const slope = (10 * 0.5 + 16 * 0.75) / (0.25 + 0.5625);
    // The 410 is one reading, ±1: it stands in both differences, once with each sign.
    const shared = (2 * 0.5 * 0.75 * 1) / (0.25 + 0.5625) ** 2;
    const uHistory = Math.sqrt(variance / (0.25 + 0.5625) + shared);
    const weights = [1 / 1.44, 1 / uHistory ** 2] as const;
    expect(found.pressurePerShim).toMatchObject({ from: 'figure and history', adjustmentsUsed: 2 });
    expect(found.pressurePerShim?.value).toBeCloseTo(
      (22 * weights[0] + slope * weights[1]) / (weights[0] + weights[1]),
      10,
    );
    expect(found.pressurePerShim?.standardUncertainty).toBeCloseTo(
      1 / Math.sqrt(weights[0] + weights[1]),
      10,
    );
  });
  it('history alone: a change beyond it is called so', () => {
    const { pressurePerShim: _, ...rest } = relief();
    const found = advice(assessedAt(425.1), rest, changes([0.5, 0.75, 400, 405.5], [0.75, 0.5, 405.5, 400]));
    expect(found.pressurePerShim?.from).toBe('history');
    expect(codes(found)).toContain('beyond-the-history');
    expect(found.options.find(({ change_mm }) => change_mm === -0.7)?.remark).toBe(
      'further than earlier changes went (0.25 mm)',
    );
  });
  it('nothing known: held back', () => {
    const { pressurePerShim: _, ...rest } = relief();
    for (const history of [null, changes([0.5, 0.5, 400, 402])]) {
      const found = advice(assessedAt(425.1), rest, history);
      expect(found.heldBack?.code).toBe('sensitivity-unknown');
      expect(found.options).toEqual([]);
      expect(found.change_mm).toBeNull();
      expect(offersSomething(found)).toBe(false);
    }
  });
  it('a history that says more shims lower the pressure: held back', () => {
    const { pressurePerShim: _, ...rest } = relief();
    expect(advice(assessedAt(425.1), rest, changes([0.5, 1, 410, 400])).heldBack?.code).toBe(
      'sensitivity-unknown',
    );
  });
  it('sources that disagree are named', () => {
    expect(codes(advice(assessedAt(425.1), relief(), changes([0.5, 2, 400, 500])))).toContain(
      'sources-disagree',
    );
  });
});

describe('held back', () => {
  const heldBack = (assessment: Assessment): string | undefined => advice(assessment).heldBack?.code;
  const spec = band(400, 420, {
    drift: { atMost: 5, unit: 'psi' },
    operatingTemperature: { low: 50, unit: 'degC' },
  });
  const facts = statedGauge(3.5);
  it('without a hot hold, saying by how much a cold reading would still move', () => {
    const quantities = readAt(425, 1.75);
    quantities.operatingPressure = {
      ...quantities.operatingPressure,
      value: null,
      reason: 'the oil never reached operating temperature',
    };
    quantities.temperatureSensitivity = { value: -0.5, unit: 'psi/degC', low: -0.6, high: -0.4 };
    quantities.warmUp = { ...quantities.warmUp, finalTemperature: 40 };
    const found = advice(assessmentOf(quantities, spec, facts));
    expect(found.heldBack?.code).toBe('no-settled-hot-hold');
    expect(found.heldBack?.text).toContain('down by about 5.0 psi');
    expect(found.options).toEqual([]);
  });
  it('never settled', () => {
    const quantities = readAt(425, 1.75);
    quantities.settling = { ...quantities.settling, time_s: null, reason: 'left it in the last tenth' };
    expect(heldBack(assessmentOf(quantities, spec, facts))).toBe('no-settled-hot-hold');
  });
  it('passes cold, sags hot: leakage, unless the value is above the target', () => {
    const sagging = (value: number): Assessment => {
      const quantities = readAt(value, 1.75);
      quantities.temperatureSensitivity = { value: -0.3, unit: 'psi/degC', low: -0.35, high: -0.25 };
      return assessmentOf(quantities, spec, facts); // 18.2 °C at the start, 61 °C in the hold: 12.84 psi higher cold
    };
    expect(heldBack(sagging(390))).toBe('leakage-suspected');
    expect(heldBack(sagging(387))).toBeUndefined(); // 399.8 cold: it would miss the limit cold as well
    expect(heldBack(sagging(402))).toBeUndefined();
    expect(heldBack(sagging(425))).toBeUndefined();
  });
  it('no leakage where the slope may be nothing', () => {
    const quantities = readAt(390, 1.75);
    quantities.temperatureSensitivity = { value: -0.3, unit: 'psi/degC', low: -0.65, high: 0.05 };
    expect(heldBack(assessmentOf(quantities, spec, facts))).toBeUndefined();
  });
  it('falls at constant heat beyond its limit', () => {
    const falling = (temperatureCorrectedSlope: number): Assessment => {
      const quantities = readAt(425, 1.75);
      quantities.drift = { ...tidyQuantities().drift, temperatureCorrectedSlope };
      return assessmentOf(quantities, spec, facts); // hold of 5.161 h
    };
    expect(heldBack(falling(-1))).toBe('leakage-suspected');
    expect(heldBack(falling(-0.9))).toBeUndefined();
    expect(heldBack(falling(1))).toBeUndefined();
  });
  it('pressure in proportion to speed', () => {
    const quantities = readAt(425, 1.75);
    quantities.speedDependence = { exponent: 1, low: 0.9, high: 1.1, kind: 'in-proportion' };
    expect(heldBack(assessmentOf(quantities, spec, facts))).toBe('pressure-follows-speed');
    quantities.settling = { ...quantities.settling, time_s: null };
    expect(heldBack(assessmentOf(quantities, spec, facts))).toBe('pressure-follows-speed');
  });
  it('clipped, not assessed, still running', () => {
    const remarks = [{ code: 'clipped', text: 'x' }];
    expect(heldBack(assessmentOf(readAt(425, 1.75), spec, facts, { remarks }))).toBe('gauge-clipped');
    const grave = { ...facts, grave: [{ reach: 'pressure' as const, reason: 'bar for psi' }] };
    expect(heldBack(assessmentOf(readAt(28, 0.1), spec, grave))).toBe('not-assessed');
    expect(heldBack(assessmentOf(readAt(425, 1.75), spec, { ...facts, complete: false }))).toBe(
      'no-settled-hot-hold',
    );
  });
  it('an uncertainty that is missing does not hold it back, but is said', () => {
    const quantities = readAt(425, 1.75);
    quantities.operatingPressure = {
      ...quantities.operatingPressure,
      standardUncertainty: null,
      expandedUncertainty: null,
      budget: [],
      reason: 'too few batches',
    };
    const found = advice(assessmentOf(quantities, band(400, 420), facts));
    expect(found.heldBack).toBeNull();
    expect(codes(found)).toContain('reading-without-uncertainty');
  });
});

describe('the trail', () => {
  it('holds each earlier change against what the rest would have said', () => {
    const found = advice(assessedAt(425.1), relief(), changes([0.5, 1, 400, 411], [1, 0.25, 411, 395]));
    expect(found.earlier).toHaveLength(2);
    expect(found.earlier?.[0]).toMatchObject({ change_mm: 0.5, found: 411, outlier: false });
    expect(Math.abs((found.earlier?.[0]?.predicted ?? 0) - 411)).toBeLessThan(2);
  });
});

it('reads a run in bar for a band in psi', () => {
  const quantities = readAt(425.1, 1.75);
  const bar = 0.0689475729316836;
  const scaled: Assessment['quantities'] = {
    ...quantities,
    operatingPressure: {
      ...quantities.operatingPressure,
      unit: 'bar',
      value: 425.1 * bar,
      standardUncertainty: 1.75 * bar,
      expandedUncertainty: 3.5 * bar,
      budget: quantities.operatingPressure.budget.map((line) => ({
        ...line,
        standardUncertainty: line.standardUncertainty * bar,
      })),
    },
  };
  const found = advice(assessmentOf(scaled, band(400, 420), statedGauge(3.5)));
  expect(found.operatingPressure.unit).toBe('psi');
  expect(found.operatingPressure.value).toBeCloseTo(425.1, 9);
  expect(found.options[0]?.change_mm).toBe(-0.7);
});

describe('what the trace shows beside the setting', () => {
  const sign = (id: string, value: number): Assessment['signs'][number] => ({
    id,
    feature: { value, unit: 'psi' },
    mayPointTo: ['accumulator rings or piston'],
    alsoShownBy: 'a leak-down test',
  });
  const shown = (pressure: number, ...signs: Assessment['signs']): string[] =>
    advice({ ...assessedAt(pressure), signs })
      .remarks.filter(({ code }) => code === 'look-first')
      .map(({ text }) => text);

  it('is named before a shim is changed, with what it may point to', () => {
    const [text] = shown(425.1, sign('plateaus-spread', 9));
    expect(text).toContain('Engagements end at different pressures: 9.0');
    expect(text?.toLowerCase()).toContain('may point to accumulator rings or piston');
  });
  it('is not named for what a setting does mend, nor for what is no matter of the valve', () => {
    expect(shown(425.1, sign('high-and-level', 5.1), sign('solenoid-current-high', 1.2))).toEqual([]);
    expect(shown(385, sign('low-throughout', -15))).toEqual([]);
  });
  it('is named for a pressure that is farther below the band than a setting mostly is', () => {
    expect(shown(350, sign('low-throughout', -50))).toHaveLength(1);
  });
});

describe('entries that would mislead', () => {
  const text = (from: Advice, code: string): string =>
    from.remarks.find((remark) => remark.code === code)?.text.replaceAll('\u00a0', ' ') ?? '';

  it('a stack that is higher than it may be is said, also where it is left alone', () => {
    const found = advice(assessedAt(410), relief({ fitted_mm: [1, 1, 1], stackAtMost_mm: 2 }));
    expect(found.options[0]?.leave).toBe(true);
    expect(text(found, 'fitted-above-the-limit')).toContain('3.00 mm, is higher than the 2.00 mm');
    expect(codes(advice(assessedAt(410), relief({ fitted_mm: [1, 1], stackAtMost_mm: 2 })))).not.toContain(
      'fitted-above-the-limit',
    );
  });
  it('stacks that were not tried are said', () => {
    const odd = relief({
      fitted_mm: [0.5],
      stock: [{ thickness_mm: 0.0333, count: null }],
      stackAtMost_mm: 50,
    });
    expect(text(advice(assessedAt(425.1), odd), 'higher-stacks-not-tried')).toContain('above 10.00 mm');
    expect(codes(advice(assessedAt(425.1), { ...odd, stackAtMost_mm: 5 }))).not.toContain(
      'higher-stacks-not-tried',
    );
  });
  it('an earlier entry without another stack tells nothing of a millimetre, and that is said', () => {
    const found = advice(assessedAt(425.1), relief(), changes([0.5, 0.5, 400, 410]));
    expect(found.pressurePerShim?.adjustmentsUsed).toBe(0);
    expect(text(found, 'stack-not-changed')).toContain('the pressure moved by 10 psi all the same');
    expect(codes(advice(assessedAt(425.1), relief(), changes([0.5, 0.6, 400, 402])))).not.toContain(
      'stack-not-changed',
    );
  });
});

describe('a run that also fails what no setting mends', () => {
  const spec = { ...band(400, 420), drift: { atMost: 1, unit: 'psi' as const }, timeInBand: { atLeast: 1 } };
  const at = (value: number): Advice => advice(assessmentOf(readAt(value, 1.75), spec, statedGauge(3.5)));
  it('says so before all else, and that the chances speak of the pressure alone', () => {
    const found = at(425.1);
    expect(found.heldBack).toBeNull();
    expect(found.remarks[0]).toMatchObject({ code: 'other-limits-not-met' });
    expect(found.remarks[0]?.text).toContain('drift over the hold. The chances speak of');
    // The time in the band goes with the pressure.
    expect(found.remarks[0]?.text).not.toContain('time in band');
  });
  it('does not promise that leaving it saves the second run', () => {
    const text = (found: Advice): string =>
      found.remarks.find(({ code }) => code === 'passes-as-it-is')?.text ?? '';
    expect(text(at(410))).toMatch(/costs no opening\.$/u);
    expect(text(advice(assessedAt(410)))).toMatch(/no opening and no second run\.$/u);
  });
});

it('names eighths of a turn as they are set', () => {
  const option = { leave: false, fit_mm: null, turns: -0.625, change_mm: -0.625 };
  const predicted = { value: 411, unit: 'psi' as const, standardUncertainty: 1 };
  const said = actionOf({ ...option, predicted, probabilityOfConformity: 1, probabilityOfPass: 1 });
  expect(said).toBe('Turn the screw out by 0.625 turns');
});

it('says a target that was given in bar with no more digits than a person sets', () => {
  const found = advice(assessedAt(425.1), { ...relief(), target: { value: 28, unit: 'bar' } });
  expect(found.remarks.find(({ code }) => code === 'order-of-options')?.text).toMatch(
    /nearest to 406\.11\spsi\./u,
  );
});
