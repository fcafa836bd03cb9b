import type { HorizonAlternative, HorizonStudy, HorizonYear } from '../../src/scenarios/horizon-result.ts';

/** A year, invented, of a site with 1,000 L of fuel and what is given here. */
export function year(number: number, parts: Partial<HorizonYear> = {}): HorizonYear {
  return {
    year: number,
    weather: null,
    loadKwh: 10_000,
    servedKwh: 10_000,
    unservedKwh: 0,
    unservedH: 0,
    shedKwh: 0,
    fuelL: 1000,
    runH: 300,
    starts: 100,
    curtailedKwh: 0,
    serviceVisits: 1,
    overhauls: 0,
    visits: 0,
    battery: battery(1, 0.9),
    ...parts,
  };
}

export function battery(
  startFrac: number,
  endFrac: number,
  replacedAt: number[] = [],
): HorizonYear['battery'] {
  const health = [
    { at: 0, capacityFrac: startFrac },
    ...replacedAt.flatMap((at) => [
      { at, capacityFrac: 0.8 },
      { at, capacityFrac: 1 },
    ]),
    { at: 1, capacityFrac: endFrac },
  ];
  return { startFrac, endFrac, resistanceFrac: 1, minSoc: 0.2, fullCycles: 200, replacedAt, health };
}

/** Three years in which fuel rises and the battery is replaced in the last but one. */
export function alternative(parts: Partial<HorizonAlternative> = {}): HorizonAlternative {
  const years = [
    year(1),
    year(2, { fuelL: 1200, runH: 350, serviceVisits: 2, battery: battery(0.9, 0.97, [0.7]) }),
    year(3, { fuelL: 1050, runH: 310 }),
  ];
  const flow = (number: number, total: number) => ({
    ...{
      year: number,
      capital: 0,
      fuel: 0,
      service: 0,
      unserved: 0,
      visits: 0,
      overhaul: 0,
      battery: 0,
      residual: 0,
    },
    ...{ total, presentValue: total },
  });
  return {
    name: 'as filed',
    note: '',
    changes: [],
    has: { battery: true, array: true, generator: true, wear: true, money: true },
    loadGrowth: 0,
    discountRate: 0.05,
    serviceEveryH: 250,
    bankPrice: 8000,
    years,
    sums: { fuelL: 3250, runH: 960, unservedKwh: 0, lifeCycleCost: 60_000 },
    money: {
      cashFlow: [flow(0, 45_000), flow(1, 2000), flow(2, 11_000), flow(3, 2000)],
      lifeCycleCost: 60_000,
      levelisedCostPerKwh: 2,
      batteryReplacedInYears: [2],
      overhaulsInYears: [],
    },
    shortcut: { fuelL: 3000, runH: 900, unservedKwh: 0, lifeCycleCost: 57_000 },
    shortcutLifeYears: 2.5,
    ...parts,
  };
}

export function studyOf(...alternatives: HorizonAlternative[]): HorizonStudy {
  return {
    site: { name: 'Invented <hut>', note: '', latDeg: 0, lonDeg: 0, currency: '$' },
    stepMin: 5,
    start: '2025-01-01',
    alternatives,
    outstanding: [],
    sheets: [],
    doubts: [],
    made: { version: '0', inputsHash: 'abc' },
  };
}
