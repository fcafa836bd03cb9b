import { makeSheet } from './data-sheet.ts';
import type { Findings } from './findings.ts';
import { fillGaps } from './gaps.ts';
import { ESTIMATED, type Register, SPREAD } from './metered.ts';
import { commonAxis, LONGEST_S, type PlacedRegister, placeRegister } from './place-registers.ts';
import { fillAbsence, outlierDoubt } from './register-doubts.ts';
import type { Gap, ReadResult, Series, TimeAxis } from './series.ts';

/** What a meter reader knows besides its registers. */
export interface MeterFacts {
  file: string;
  reader: string;
  chosenBecause: string;
  timeZone: string;
  maxGapMin: number;
}

/** Longest axis that is made: thirty years of minutes. */
const MOST_STEPS = 30 * 525_600;
/** Most values of all registers together: three such axes. */
const MOST_VALUES = 3 * MOST_STEPS;
/** More power than any site has: a damaged number [kW]. */
const MOST_KW = 1e6;

/**
 * Registers on one common axis, those of a quantity added up. Every register's own gaps are filled by rule and
 * counted, or refused, before they are added.
 */
export function sumRegisters(registers: readonly Register[], facts: MeterFacts, list: Findings): ReadResult {
  const axis = commonAxis(registers);
  if (axis === null || axis.count > MOST_STEPS) noAxis(registers, axis, list);
  else if (axis.count * registers.length > MOST_VALUES)
    list.error(
      'size',
      'registers',
      `${registers.length} over ${axis.count} steps`,
      `at most ${MOST_VALUES} values`,
    );
  if (axis !== null && !list.hasErrors) refuseHuge(registers, list);
  if (axis === null || list.hasErrors) return { series: [], sheet: null, issues: list.issues };
  const placed = registers.map((register) => placeRegister(register, axis));
  for (const register of placed) duplicatesDoubt(register, list);
  const estimated = placed.reduce((sum, { marks }) => sum + countOf(marks, ESTIMATED), 0);
  const gaps = fillRegisters(registers, placed, axis, facts, list);
  const series = sumByQuantity(registers, placed, axis);
  const duplicates = placed.reduce((sum, one) => sum + one.duplicates, 0);
  const { file, reader, chosenBecause, timeZone } = facts;
  const sheet = makeSheet({
    file,
    reader,
    chosenBecause,
    timeZone,
    axis,
    series,
    gaps,
    duplicates,
    estimated,
  });
  return { series: list.hasErrors ? [] : series, sheet, issues: list.issues };
}

function noAxis(registers: readonly Register[], axis: TimeAxis | null, list: Findings): void {
  const want = 'whole minutes, at most an hour each, over at most thirty years';
  const blocks = registers.flatMap((register) => register.blocks);
  const odd = blocks.find(({ startS, durationS }) => startS % 60 !== 0 || durationS % 60 !== 0);
  const long = blocks.find(({ durationS }) => durationS > LONGEST_S);
  const at = odd ?? long;
  if (axis !== null) list.error('no-step', 'intervals', `${axis.count} steps of ${axis.stepMin} min`, want);
  else if (at === undefined) list.error('no-step', 'intervals', 'none', want);
  else list.error('no-step', 'intervals', `${at.durationS} s from ${at.startS} s`, want, { line: at.line });
}

function refuseHuge(registers: readonly Register[], list: Findings): void {
  for (const { name, blocks } of registers)
    for (const { kwh, durationS, line } of blocks) {
      const mostKwh = (MOST_KW * durationS) / 3600;
      const at = kwh.findIndex((value) => value > mostKwh);
      if (at >= 0)
        list.error('value', name, `${kwh[at]} kWh in ${durationS / 60} min`, `at most ${MOST_KW} kW`, {
          line,
        });
    }
}

function fillRegisters(
  registers: readonly Register[],
  placed: readonly PlacedRegister[],
  axis: TimeAxis,
  { maxGapMin, file }: MeterFacts,
  list: Findings,
): Gap[] {
  const gaps: Gap[] = [];
  for (const [k, { kw, name }] of placed.entries()) {
    gaps.push(...spreadGaps(placed[k], axis));
    const beside = placed.filter(
      (_, j) => j !== k && (registers[k].quantity !== 'loadKw' || registers[j].quantity === 'loadKw'),
    );
    gaps.push(...fillAbsence(placed[k], beside, axis, maxGapMin, list));
    const filled = fillGaps(kw, axis, maxGapMin, name, file);
    gaps.push(...filled.gaps);
    list.add(filled.issues);
    outlierDoubt(kw, axis, name, list);
  }
  return gaps;
}

/** Stretches whose energy is known as a whole only. */
function spreadGaps({ marks }: PlacedRegister, axis: TimeAxis): Gap[] {
  const gaps: Gap[] = [];
  for (let i = marks.indexOf(SPREAD); i >= 0; i = marks.indexOf(SPREAD, i)) {
    let end = i;
    while (end < marks.length && marks[end] === SPREAD) end++;
    const filledBy = 'energy known from the register on either side, spread evenly';
    gaps.push({ startS: axis.startS + i * axis.stepMin * 60, steps: end - i, filledBy });
    i = end;
  }
  return gaps;
}

function sumByQuantity(
  registers: readonly Register[],
  placed: readonly PlacedRegister[],
  axis: TimeAxis,
): Series[] {
  const series: Series[] = [];
  for (const quantity of ['loadKw', 'generationKw'] as const) {
    const own = placed.filter((_, k) => registers[k].quantity === quantity);
    if (own.length === 0) continue;
    const [{ kw: values }, ...others] = own;
    for (const { kw } of others) for (let i = 0; i < values.length; i++) values[i] += kw[i];
    series.push({ name: own.map(({ name }) => name).join(' + '), quantity, axis, values });
  }
  return series;
}

function duplicatesDoubt(
  { name, duplicates, differing, differingKwh, duplicateAt }: PlacedRegister,
  list: Findings,
) {
  if (duplicates === 0) return;
  const other =
    differing > 0 ? `, ${differing} of them with other values (${differingKwh.toFixed(3)} kWh apart)` : '';
  const want = 'each once; kept the newer, else what was measured, else the later in the file';
  list.doubt('duplicates', name, `${duplicates} intervals that are there twice${other}`, want, {
    line: duplicateAt?.line,
  });
}

function countOf(marks: Uint8Array, mark: number): number {
  let count = 0;
  for (const one of marks) if (one === mark) count++;
  return count;
}
