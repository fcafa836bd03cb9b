import { describe, expect, it } from 'vitest';
import { chargeShare } from '../../../src/scenarios/visit/charging-room.ts';
import { notHeldBack } from '../../../src/scenarios/visit/faults/not-held-back.ts';
import { farmGround, farmTruth, recorded } from './logged-farm.ts';

const WINDOW = { chargeNoneC: 0, chargeFullC: 10, chargeHotFullC: 40, chargeHotNoneC: 50 };

describe('what cells take', () => {
  it('rises from cold, falls to hot, and is not known where the cells are not', () => {
    const shares = [-5, 0, 5, 25, 45, 55].map((cellC) => chargeShare(WINDOW, cellC));
    expect(shares).toEqual([0, 0, 0.5, 1, 0.5, 0]);
    expect(chargeShare(WINDOW, Number.NaN)).toBeNaN();
  });

  it('does not count where the sensor of a cabinet’s cells is silent', () => {
    const record = recorded(farmTruth(10, [{ fromDay: 0, changes: {} }]), { gapsADay: 0 });
    const ground = farmGround(record);
    expect(ground.site.cabinet).not.toBeNull();
    expect(notHeldBack(ground)).toContain(1);
    const silent = record.columns.cellC?.fill(Number.NaN);
    expect(silent).toBeDefined();
    expect(notHeldBack(ground)).not.toContain(1);
  });
});
