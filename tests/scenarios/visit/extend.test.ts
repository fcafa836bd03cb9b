import { describe, expect, it } from 'vitest';
import { controlsFromSite } from '../../../src/scenarios/controls-from-site.ts';
import { InputMaker } from '../../../src/scenarios/inputs-from-site.ts';
import { Filed } from '../../../src/scenarios/many/ground.ts';
import { plantFromSite } from '../../../src/scenarios/plant-from-site.ts';
import { extend, extended } from '../../../src/scenarios/visit/extend.ts';
import { simulate } from '../../../src/sim/simulate.ts';
import { estimated } from './estimated.ts';
import { groundOf, logOf, thinFarm, truthOf } from './thin-farm.ts';

const FARM = thinFarm(60);
const record = logOf(truthOf(FARM, [{ fromDay: 0, changes: {} }]));
const ground = groundOf(FARM, record);
const WORN = [
  estimated(record, 'loadFactor', 1.2, 1),
  estimated(record, 'arrayFactor', 0.8, 1),
  estimated(record, 'usableKwh', 48, 60),
  estimated(record, 'oneWayEfficiency', 0.95, 0.97, 0.001),
  estimated(record, 'chargeKw', 9, 18),
  estimated(record, 'startSoc', 0.404, 0.3, 0.01),
  estimated(record, 'fuelAtRest', 1.5, 0.9),
  estimated(record, 'coolingWPerK', 50, 38),
];
const changesOf = (name: string) => {
  const found = ground.site.alternatives.find((each) => each.name === name);
  if (!found) throw new Error(`no '${name}'`);
  return found.changes;
};

describe('an extension on the calibrated site', () => {
  it('has old modules as they are beside new ones as named', () => {
    // 12 old ones of 4 kWh and 12 new ones of 5 kWh: 108 kWh in 24
    const changes = extended(ground, {}, WORN, changesOf('24 modules'));
    expect(changes['battery.modules']).toBe(24);
    expect(changes['battery.moduleKwh']).toBeCloseTo(4.5, 12);
    expect(changes['battery.chargeEfficiency']).toBeCloseTo(0.96, 12);
    expect(changes['load.0.scale']).toBeCloseTo(1.2, 12);
  });

  it('has old arrays that give less beside new ones that give all', () => {
    const changes = extended(ground, {}, WORN, changesOf('10 kWp more'));
    expect(changes['arrays.0.kWp']).toBeCloseTo(16 * 0.8, 12);
    // 8 kWp at 0.8 and 10 new ones
    expect(changes['arrays.1.kWp']).toBeCloseTo(16.4, 12);
    expect(changes['battery.moduleKwh']).toBeCloseTo(4, 12);
  });

  it('keeps what the log shows of the rest, and what the alternative is about as it says', () => {
    const plain = extended(ground, {}, WORN, {});
    expect(plain['inverter.chargerKw']).toBeCloseTo(3, 12);
    expect(plain['control.charge.startSoc']).toBe(0.4);
    expect(plain['cabinet.airToOutsideWPerK']).toBeCloseTo(50, 12);
    expect(plain['generator.fuel']).toMatchObject([
      { kW: 5 },
      { kW: 10 },
      { kW: 15 },
      { kW: 20, lPerH: expect.closeTo(6.9, 9) },
    ]);
    expect(extended(ground, {}, WORN, changesOf('start at 50 %'))['control.charge.startSoc']).toBe(0.5);
    const larger = extended(ground, {}, WORN, changesOf('30 kW generator'));
    expect(larger['generator.fuel']).toEqual(changesOf('30 kW generator')['generator.fuel']);
    const off = { 'cabinet.heater': null, 'control.restrictedHours': [] };
    expect(extended(ground, off, WORN, {})).toMatchObject(off);
    const heated = extended(ground, off, WORN, { 'cabinet.heater.ratedW': 800 });
    expect(heated).not.toHaveProperty('cabinet.heater');
  });

  it('puts in only what lies outside its interval', () => {
    expect(extended(ground, {}, [estimated(record, 'usableKwh', 59, 60, 0.02)], {})).toEqual({});
  });

  it('adds a larger load as it is to the one that was measured', () => {
    const changes = extended(ground, {}, WORN, { 'load.0.scale': 1.5 });
    expect(changes['load.0.scale']).toBeCloseTo(1.2 + 0.5, 12);
  });

  it('gives the year of a site with these values', () => {
    const { extensions, issues } = extend(ground, { always: {} }, WORN.slice(1, 3));
    expect(issues).toEqual([]);
    expect(extensions.map(({ name }) => name)).toEqual(ground.site.alternatives.map(({ name }) => name));
    const text = FARM.text
      .replace('moduleKwh: 5', 'moduleKwh: 4.5')
      .replace('modules: 12', 'modules: 24')
      .replace('batteryKjPerK: 550', 'batteryKjPerK: 1100')
      .replace('batteryToOutsideWPerK: 14', 'batteryToOutsideWPerK: 28')
      .replace('kWp: 16', 'kWp: 12.8')
      .replace('kWp: 8', 'kWp: 6.4');
    const { site, placeOf } = new Filed(text, FARM.file);
    const made = new InputMaker(FARM.readFile, 5, placeOf).make(site);
    if (made === null) throw new Error('no inputs');
    const plant = plantFromSite(site, made.airAtStartC, made.acArrayShare);
    const { totals, extremes } = simulate(plant, controlsFromSite(site), made.inputs);
    const [{ before, after }] = extensions;
    expect(after.fuelL).toBeCloseTo((totals.fuelL * 365) / 60, 6);
    expect(after.starts).toBeCloseTo((totals.starts * 365) / 60, 6);
    expect(after.lowestSoc).toBeCloseTo(extremes.minSoc as number, 9);
    expect(before.fuelL).toBeGreaterThan(after.fuelL as number);
  });

  it('is left out, and said so, where it contradicts what the log shows', () => {
    const high = [estimated(record, 'stopSoc', 0.45, 0.8), estimated(record, 'startSoc', 0.2, 0.3)];
    const { extensions, issues } = extend(ground, { always: {} }, high);
    expect(extensions.map(({ name }) => name)).not.toContain('start at 50 %');
    expect(issues[0]).toMatchObject({ severity: 'doubt', code: 'extension-left-out' });
  });
});
