import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, changedSite } from '../../../src/scenarios/apply-changes.ts';
import { CAPITAL, Filed } from '../../../src/scenarios/many/ground.ts';
import { parseSite } from '../../../src/scenarios/site-document.ts';
import { readSite } from '../../../src/scenarios/site-file.ts';
import { farmByHours } from './small-requests.ts';

const { text, file } = farmByHours();
const filed = new Filed(text, file);
const document = parseSite(text, file).document!;
const { parts } = readSite(document);

/** A site read whole, every group of it. */
function whole(changes: Record<string, unknown>) {
  const { value, issues } = applyChanges(changes, [], document, parts);
  return issues.length > 0 ? null : readSite(document, value).site;
}

/** Paths of every number of the farm, as changes name them. */
function numbersOf(value: unknown, path: string[] = []): string[] {
  if (typeof value === 'number') return [path.join('.')];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => numbersOf(part, [...path, key]));
}
const SHARED = /^(site|period|alternatives|load\.0\.columns)\b/;
const paths = numbersOf(filed.site).filter((path) => !SHARED.test(path));

describe('a variant of a site', () => {
  it('is what reading the whole changed file gives, for any of its numbers, or it is refused as that is', () => {
    expect(paths.length).toBeGreaterThan(150);
    const change = fc.tuple(fc.constantFrom(...paths), fc.constantFrom(-1, 0, 0.05, 0.2, 0.9, 1, 2, 17, 1e5));
    let refused = 0;
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (list) => {
        const changes = Object.fromEntries(list);
        const variant = filed.variant(changes);
        const expected = whole(changes);
        if (expected === null) refused++;
        expect(Array.isArray(variant) ? null : variant).toEqual(expected);
      }),
      { numRuns: 400 },
    );
    expect(refused).toBeGreaterThan(40);
    expect(refused).toBeLessThan(360);
  });

  it('may lose or gain whole groups', () => {
    for (const changes of [
      { cabinet: null },
      { tank: null, 'cabinet.heater': null },
      { appliances: [], motors: null },
      { control: { charge: { startSoc: 0.4, stopSoc: 0.9 } } },
      {},
    ])
      expect(filed.variant(changes)).toEqual(whole(changes));
    expect(filed.variant({})).toEqual(filed.site);
  });

  it('leaves the site as filed alone', () => {
    const before = structuredClone(filed.site);
    filed.variant({ 'battery.modules': 3, 'arrays.barn.kWp': 1, [CAPITAL]: 5 });
    expect(filed.site).toEqual(before);
    expect(filed.variant({ 'battery.modules': 3 })).toEqual(
      changedSite(filed.site, { 'battery.modules': 3 }),
    );
  });
});
