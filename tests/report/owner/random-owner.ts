/** Random studies as an owner's report needs them: a site whose parts are those of the random plant. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import type { OwnerSource } from '../../../src/report/owner/source.ts';
import type { Alternative } from '../../../src/scenarios/alternatives.ts';
import { parseSite } from '../../../src/scenarios/site-document.ts';
import { readSite } from '../../../src/scenarios/site-file.ts';
import type { Site } from '../../../src/scenarios/site-schema.ts';
import type { AlternativeResult, Study } from '../../../src/scenarios/study.ts';
import type { WhatIf } from '../../../src/scenarios/what-if.ts';
import { randomStudy } from '../random-study.ts';

const FARM = readFileSync(new URL('../../../profiles/sites/farm.yaml', import.meta.url), 'utf8');
const base = readSite(parseSite(FARM, 'farm.yaml').document!).site!;

const KINDS: WhatIf['kind'][] = ['fuelDoubles', 'loadGrows', 'dullWinter', 'away'];

/** The farm with only what a result's plant and controls have. */
function siteOf({ plant, controls, inputs }: AlternativeResult, hand: boolean): Site {
  const site = structuredClone(base);
  if (!plant.battery) site.battery = null;
  if (!plant.generator) site.generator = null;
  if (!plant.tank) site.tank = null;
  if (!plant.cabinet) site.cabinet = null;
  if (!controls.charge) site.control.charge = null;
  if (!controls.peak) site.control.peak = null;
  if (hand) site.control.hand = { startSoc: 0.3, responseMin: 30, stopSoc: 0.8, absorptionMaxMin: 240 };
  if (!inputs.dcArrayKw) site.arrays = [];
  return site;
}

/** A tank that is not there does not run dry. */
function withoutTank(result: AlternativeResult): AlternativeResult {
  if (result.plant.tank) return result;
  const outages = result.ledger.outages.map((each) =>
    each.cause === 'tank dry' ? { ...each, cause: 'power' as const } : each,
  );
  return { ...result, ledger: { ...result.ledger, outages } };
}

export const randomOwner: fc.Arbitrary<OwnerSource> = fc
  .record({ study: randomStudy, pick: fc.nat(), hand: fc.boolean(), kinds: fc.subarray(KINDS) })
  .map(({ study, pick, hand, kinds }) => {
    const results = study.alternatives.map(withoutTank);
    const alternatives = results.map(
      (result): Alternative => ({
        name: result.name,
        note: result.note,
        capital: 0,
        changes: result.changes,
        site: siteOf(result, hand),
      }),
    );
    const proposed = pick % results.length;
    const source: OwnerSource = {
      study: { ...study, alternatives: results } satisfies Study,
      alternatives,
      proposed,
      whatIfs: kinds.flatMap((kind, i) => whatIf(kind, results, proposed, i)),
      doubled: results.map(({ money }) => ({
        ...money,
        lifeCycleCost: money.lifeCycleCost + 2 * money.fuelFirstYear,
      })),
    };
    return Object.defineProperty(source, fc.toStringMethod, {
      value: () => `owner of ${results.length} choices, the one at ${proposed} proposed`,
    });
  });

/** What another alternative gave stands for what running again would give, where it is about the same machines. */
function whatIf(
  kind: WhatIf['kind'],
  results: readonly AlternativeResult[],
  proposed: number,
  i: number,
): WhatIf[] {
  const { plant, inputs } = results[proposed];
  if (kind === 'fuelDoubles' && !plant.generator) return [];
  if (kind === 'dullWinter' && !inputs.dcArrayKw) return [];
  const days = (inputs.count * inputs.stepMin) / 1440;
  if (kind === 'away' && days < 14) return [];
  const other = results[(proposed + i) % results.length];
  const ledger = !plant.generator === !other.plant.generator ? other.ledger : results[proposed].ledger;
  const span = kind === 'away' ? { fromStep: 0, toStep: (14 * 1440) / inputs.stepMin } : null;
  return [{ kind, ledger, money: other.money, span }];
}
