import { describe, expect, it } from 'vitest';
import { issueSentence } from '../../src/scenarios/issue.ts';
import { leadAcidWells, wellsByPeukert } from '../../src/scenarios/lead-acid.ts';
import { checkStudy, runStudy } from '../../src/scenarios/run-study.ts';
import { kineticCapacityKwh } from '../../src/sim/wear/kinetic-battery.ts';
import { SMALL_SITE, smallSiteFile } from './small-site.ts';

const MODULE = 'moduleDischargeKw: 3 }';
const request = (leadAcid: string) => ({
  text: SMALL_SITE.replace(MODULE, MODULE.replace('}', `, leadAcid: ${leadAcid} }`)),
  file: 'site.yaml',
  readFile: smallSiteFile,
  version: '0',
});
const said = (leadAcid: string) =>
  checkStudy(request(leadAcid))
    .issues.filter(({ code }) => code !== 'coarse-load')
    .map((issue) => `${issue.severity} ${issueSentence(issue)}`);

// Peukert, t = H·(C/(I·H))^k, 100 Ah in 20 h, k 1.2: I 10 -> 8.705506 h, 87.055 Ah; I 25 -> 2.899119 h, 72.478 Ah
// (derived; the form second hand)
describe("wells by Peukert's law", () => {
  const fit = wellsByPeukert({ exponent: 1.2, ratedH: 20 }, 100);

  it('give what the law says between the times that they are fitted to', () => {
    for (const [hours, capacity] of [
      [20, 100],
      [8.705506, 87.055],
      [2.899119, 72.478],
    ]) {
      const wells = kineticCapacityKwh(fit.capacity, hours, fit.atHandFrac, fit.ratePerH);
      expect(Math.abs(wells / capacity - 1)).toBeLessThan(0.02);
    }
    expect(fit.worst).toBeLessThan(0.02);
  });

  it('hold more at a vanishing current than the rating', () => {
    expect(fit.capacity).toBeGreaterThan(100);
    const { moduleKwh, kinetic } = leadAcidWells({
      leadAcid: { peukert: { exponent: 1.2, ratedH: 20 } },
      moduleKwh: 100,
    });
    expect([moduleKwh, kinetic?.atHandFrac, kinetic?.ratePerH]).toEqual([
      fit.capacity,
      fit.atHandFrac,
      fit.ratePerH,
    ]);
  });

  it('scale with the bank and have less at hand the steeper the law', () => {
    const small = wellsByPeukert({ exponent: 1.2, ratedH: 20 }, 2.5);
    expect(small.capacity).toBeCloseTo(fit.capacity / 40, 12);
    expect(small.ratePerH).toBe(fit.ratePerH);
    const shares = [1.05, 1.1, 1.2, 1.3, 1.4].map(
      (exponent) => wellsByPeukert({ exponent, ratedH: 20 }, 1).atHandFrac,
    );
    expect(shares).toEqual(shares.toSorted((a, b) => b - a));
  });

  it('are fitted to the rated time too', () => {
    // a bank rated in 100 h: 20 times as long as 5 h
    const slow = wellsByPeukert({ exponent: 1.1, ratedH: 100 }, 100);
    const misses = Math.abs(kineticCapacityKwh(slow.capacity, 100, slow.atHandFrac, slow.ratePerH) / 100 - 1);
    expect(misses).toBeLessThanOrEqual(slow.worst);
    expect(slow.worst).toBeLessThan(0.05);
  });
});

describe('a lead-acid bank in the site file', () => {
  it('is told by wells, or by the law, and not by both', () => {
    expect(said('{ atHand: 0.4, ratePerH: 0.5 }')).toEqual([]);
    expect(said('{ peukert: { exponent: 1.2 } }')).toEqual([]);
    expect(said('{ atHand: 0.4, ratePerH: 0.5, peukert: { exponent: 1.2 } }')).toEqual([
      'error site.yaml:8:122: battery.leadAcid.peukert: found peukert beside atHand and ratePerH; expected one way of telling it',
    ]);
    expect(said('{ ratePerH: 0.5 }')).toEqual([
      'error site.yaml:8:82: battery.leadAcid: found ratePerH alone; expected atHand and ratePerH, or peukert',
    ]);
    expect(said('{}')).toEqual([
      'error site.yaml:8:82: battery.leadAcid: found nothing; expected atHand and ratePerH, or peukert',
    ]);
  });

  it('that two wells follow badly is doubted, with how badly', () => {
    const { worst, worstHours } = wellsByPeukert({ exponent: 1.5, ratedH: 100 }, 5);
    expect(worst).toBeGreaterThan(0.05);
    expect(said('{ peukert: { exponent: 1.5, ratedH: 100 } }')).toEqual([
      `doubt site.yaml:8:94: battery.leadAcid.peukert: found capacities that two wells miss by ${(100 * worst).toFixed(1)} %, in a discharge of ${worstHours} h; expected within 5 %; or atHand and ratePerH for the discharge times that matter`,
    ]);
  });

  it('is simulated with what it holds at a vanishing current', () => {
    const { study } = runStudy({ ...request('{ peukert: { exponent: 1.2 } }'), only: 'more modules' });
    const [filed, more] = study!.alternatives;
    const module = wellsByPeukert({ exponent: 1.2, ratedH: 20 }, 5).capacity;
    expect(filed.plant.battery?.capacityKwh).toBe(2 * module);
    expect(more.plant.battery?.capacityKwh).toBe(4 * module);
    expect(more.plant.battery?.kinetic).toEqual(filed.plant.battery?.kinetic);
  });
});
