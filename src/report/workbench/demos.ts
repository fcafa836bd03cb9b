import farm from '../../../profiles/sites/farm.yaml?raw';
import hut from '../../../profiles/sites/hut.yaml?raw';
import workshop from '../../../profiles/sites/workshop.yaml?raw';

/** A site to begin with. */
export interface Demo {
  file: string;
  name: string;
  about: string;
  text: string;
}

export const DEMOS: readonly Demo[] = [
  {
    file: 'farm.yaml',
    name: 'The farm',
    about: 'milking twice a day, cold nights, 20 kW generator',
    text: farm,
  },
  { file: 'hut.yaml', name: 'The hut', about: 'weekends in the snow, one battery module', text: hut },
  { file: 'workshop.yaml', name: 'The workshop', about: 'welding peaks, hot summers', text: workshop },
];

/** A site with nothing in it that has not to be there; what is invented says so. */
export const EMPTY_SITE = `# A new site. Values that are left out take a default: every one is listed under "The site".
site:
  name: New site
  invented: true # until it is filled in
  latitudeDeg: 45
  longitudeDeg: 10
  timeZone: '+01:00'

period: { start: 2025-01-01, days: 365, stepMin: 5 }

# Drop a meter or load file on the page, or list what is to be supplied.
appliances:
  - { name: lights and small things, watts: 200, dutyPercent: 50 } # invented

# Drop a weather file on the page, or state twelve monthly means (invented).
weather:
  format: monthly
  globalKwh: [1.2, 2.0, 3.2, 4.4, 5.3, 5.9, 6.0, 5.2, 3.9, 2.5, 1.4, 1.0]
  lowC: [-3, -2, 2, 5, 10, 13, 15, 15, 11, 7, 2, -2]
  highC: [4, 7, 12, 16, 21, 25, 28, 27, 22, 16, 9, 5]

arrays:
  - { name: roof, kWp: 3, tiltDeg: 40, azimuthDeg: 180, coupling: dc, controllerA: 60 }

battery: { modules: 1, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }

inverter: { phases: 1, ratedKva: 3, chargerKw: 1.5 }

generator:
  ratedKw: 3
  fuel: [{ kW: 0, lPerH: 0.5 }, { kW: 3, lPerH: 1.4 }]

control:
  charge: { startSoc: 0.3, stopSoc: 0.7 }

money: { fuelPerL: 1.8 }
`;
