import { describe, expect, it } from 'vitest';
import { lookForFaults } from '../../../src/scenarios/visit/faults/find-faults.ts';
import { FAULTS, type Fault, type FaultKind } from '../../../src/scenarios/visit/visit.ts';
import { faultyCase, type Made, sizesOf, wellCase } from './fault-cases.ts';

const SEED = process.env.SEED ?? 'faults';
const WELL = Number(process.env.WELL ?? 108);
const A_SIZE = Number(process.env.A_SIZE ?? 20);
const KINDS = (process.env.KINDS?.split(',') as FaultKind[]) ?? FAULTS;
const DAY_S = 86_400;

/** Of the kind and part, and within the time in which it was so. */
function isFound(kind: FaultKind, faults: readonly Fault[], { wrong, ground }: Made): boolean {
  if (wrong === null) return false;
  const { startS } = ground.record.axis;
  return faults.some(
    (fault) =>
      fault.kind === kind &&
      fault.part === wrong.part &&
      fault.fromS < startS + (wrong.toDay + 1) * DAY_S &&
      fault.toS > startS + (wrong.fromDay - 1) * DAY_S,
  );
}

const percent = (part: number, of: number) => `${of > 0 ? ((100 * part) / of).toFixed(0) : '-'} %`;

describe('faults in a log', { timeout: 900_000 }, () => {
  const falsely = new Map(FAULTS.map((kind) => [kind, { looked: 0, claimed: 0 }]));
  const lines: string[] = [];

  it('are not claimed of plants that are well', () => {
    for (let i = 0; i < WELL; i++) {
      const { ground, what } = wellCase(i, SEED);
      const { faults, notLookedFor } = lookForFaults(ground);
      for (const kind of FAULTS) {
        const count = falsely.get(kind) as { looked: number; claimed: number };
        if (!notLookedFor.some((each) => each.kind === kind)) count.looked++;
        const claims = faults.filter((fault) => fault.kind === kind);
        if (claims.length > 0) count.claimed++;
        if (process.env.TELL) for (const claim of claims) console.log(i, what, JSON.stringify(claim));
      }
    }
    for (const [kind, { looked, claimed }] of falsely) {
      lines.push(
        `${kind.padEnd(15)} well: ${looked} of ${WELL} looked at, claimed in ${claimed} (${percent(claimed, looked)})`,
      );
      expect(looked, kind).toBeGreaterThanOrEqual(WELL / 9);
      expect(claimed / looked, kind).toBeLessThanOrEqual(0.05);
    }
    console.log(lines.join('\n'));
  });

  it.each(KINDS)('are found: %s', (kind) => {
    const table: string[] = [];
    for (const [index, { label, stated }] of sizesOf(kind).entries()) {
      let found = 0;
      let beside = 0;
      let told = 0;
      for (let i = 0; i < A_SIZE; i++) {
        const made = faultyCase(kind, index, i, SEED);
        const { faults, notLookedFor } = lookForFaults(made.ground);
        if (isFound(kind, faults, made)) found++;
        else if (process.env.TELL && stated)
          console.log(
            'missed',
            kind,
            label,
            i,
            made.what,
            JSON.stringify(made.wrong),
            JSON.stringify(faults),
            JSON.stringify(notLookedFor.find((each) => each.kind === kind)),
          );
        const others = faults.filter((fault) => fault.kind !== kind);
        if (others.length > 0) beside++;
        if (process.env.TELL && others.length)
          console.log(
            'beside',
            kind,
            label,
            i,
            made.what,
            others.map((f) => `${f.kind} ${f.part} ${f.size}`).join('; '),
          );
        if (!notLookedFor.some((each) => each.kind === kind)) told++;
      }
      table.push(
        `${kind.padEnd(15)} ${label.padEnd(25)} ${stated ? 'stated' : 'below '} ${A_SIZE} cases, looked at ${told}, found ${percent(found, A_SIZE)}; another fault claimed in ${beside}`,
      );
      if (stated) expect.soft(found / A_SIZE, `${kind} ${label}`).toBeGreaterThanOrEqual(0.9);
    }
    console.log(table.join('\n'));
  });
});
