/** Sites with weather and load of their own, made to be seen by a recorder: for tests of what is found in a log. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import seedrandom from 'seedrandom';
import type { SiteChanges } from '../../../src/scenarios/apply-changes.ts';
import { Cache } from '../../../src/scenarios/cache.ts';
import { InputMaker } from '../../../src/scenarios/inputs-from-site.ts';
import type { SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import { simulateTruth, type Truth, type TruthStretch } from '../../../src/scenarios/log/truth.ts';
import { Filed } from '../../../src/scenarios/many/ground.ts';
import { normal } from '../../../src/scenarios/normal-draw.ts';
import { type VisitGround, visitGround } from '../../../src/scenarios/visit/ground.ts';
import type { Inputs } from '../../../src/sim/inputs.ts';
import { simulateNaive } from '../../naive/simulate.ts';

const SITES = resolve(import.meta.dirname, '../../../profiles/sites');
export const DAYS = 70;

export const SITE_NAMES = ['farm', 'workshop', 'hut'] as const;
export type SiteName = (typeof SITE_NAMES)[number];

/** Seasons that logs are of. */
export const STARTS: Record<SiteName, string[]> = {
  farm: ['2025-01-01', '2025-04-10', '2025-10-05'],
  workshop: ['2025-01-02', '2025-05-25', '2025-10-05'],
  hut: ['2025-01-02', '2025-05-20', '2025-09-01'],
};

/** The workshop with a cooler, so that there is one that can fail. */
function designedText(name: SiteName): string {
  const text = readFileSync(join(SITES, `${name}.yaml`), 'utf8');
  if (name !== 'workshop') return text;
  return text.replace(
    '  sunM2: 0.8\n',
    '  sunM2: 0.8\n  cooler: { ratedW: 800, cop: 2.5, onC: 36, offC: 32 }\n',
  );
}

const files = new Map<string, Uint8Array>();
const readFile = (path: string): Uint8Array => {
  const full = join(SITES, path);
  if (!files.has(full)) files.set(full, readFileSync(full));
  return files.get(full) as Uint8Array;
};

interface Shelf {
  text: string;
  file: string;
  /** for the grounds of the site file's year, and for loads of the truths */
  ground: Cache;
  load: Cache;
}
const shelves = new Map<SiteName, Shelf>();

function shelfOf(name: SiteName): Shelf {
  const shelf = shelves.get(name);
  if (shelf) return shelf;
  const made = {
    text: designedText(name),
    file: join(SITES, `${name}.yaml`),
    ground: new Cache(),
    load: new Cache(),
  };
  shelves.set(name, made);
  return made;
}

/** A site in a season with weather of its own; many truths can be of it. */
export interface World {
  name: SiteName;
  start: string;
  seed: string;
  text: string;
  file: string;
  cache: Cache;
  /** of the simulation [min] */
  stepMin: number;
}

/** The designed weather with each day's sun and air changed at random: another year at the same place. */
export function worldOf(name: SiteName, start: string, seed: string, stepMin: number): World {
  const perDay = 1440 / stepMin;
  const { text, file, load } = shelfOf(name);
  const own = text.replace(/start: 2025-01-01, days: 365/, `start: ${start}, days: ${DAYS}`);
  const filed = new Filed(own, file);
  const base = new InputMaker(readFile, stepMin, filed.placeOf, load);
  base.make(filed.site, false);
  const weather = base.weather(filed.site)?.weather;
  if (!weather?.globalWPerM2) throw new Error(JSON.stringify(base.issues));
  const draw = seedrandom(`weather ${name} ${start} ${seed}`);
  const sun = Array.from({ length: DAYS }, () => 0.55 + 0.6 * draw());
  const offK: number[] = [];
  for (let day = 0; day <= DAYS; day++) offK.push(0.7 * (offK[day - 1] ?? 0) + 2 * normal(draw));
  const kept = [...load.entries()].filter(([key]) => !/^\["(weather|arrays|plane)/.test(key));
  const cache = new Cache(new Map(kept));
  new InputMaker(readFile, stepMin, filed.placeOf, cache).giveWeather(filed.site, {
    ...weather,
    globalWPerM2: weather.globalWPerM2.map((w, i) => w * sun[Math.floor(i / perDay)]),
    airC: weather.airC.map((c, i) => {
      const day = Math.floor(i / perDay);
      return c + offK[day] + ((offK[day + 1] - offK[day]) * (i % perDay)) / perDay;
    }),
  });
  return { name, start, seed, text: own, file, cache, stepMin };
}

/** How a plant that is well differs from its file. */
export interface Difference {
  seed: string;
  loadFactor: number;
  changes: SiteChanges;
}

/** Load, arrays, battery and cabinet somewhat off, as they are at real sites; nothing of it is a fault. */
export function differenceOf({ name }: World, seed: string): Difference {
  const draw = seedrandom(`difference ${seed}`);
  const between = (low: number, high: number) => low + (high - low) * draw();
  const changes: SiteChanges = {};
  const arrays = { farm: ['barn', 'shed'], workshop: ['roof', 'carport'], hut: ['roof'] }[name];
  for (const array of arrays) changes[`arrays.${array}.soiling`] = between(0, 0.12);
  changes['battery.moduleKwh'] = 5 * between(0.85, 1);
  const efficiency = between(0.95, 0.98);
  changes['battery.chargeEfficiency'] = efficiency;
  changes['battery.dischargeEfficiency'] = efficiency;
  if (name === 'farm') changes['cabinet.airToOutsideWPerK'] = 38 * between(0.85, 1.15);
  if (name === 'workshop') changes['cabinet.airToOutsideWPerK'] = 22 * between(0.85, 1.15);
  if (name !== 'hut') changes['cabinet.sunM2'] = (name === 'farm' ? 0.4 : 0.8) * between(0.7, 1.2);
  return { seed, loadFactor: between(0.85, 1.2), changes };
}

/** Each day's load is that of one of the same weekday within three weeks, more or less by a tenth. */
function otherDays(inputs: Inputs, { seed, loadFactor }: Difference): Inputs {
  const draw = seedrandom(`days ${seed}`);
  const perDay = 1440 / inputs.stepMin;
  const days = inputs.count / perDay;
  const from = Array.from({ length: days }, (_, day) => {
    const near = [-21, -14, -7, 0, 7, 14, 21]
      .map((off) => day + off)
      .filter((each) => each >= 0 && each < days);
    return near[Math.floor(draw() * near.length)];
  });
  const factor = Array.from({ length: days }, () => loadFactor * (1 + 0.1 * normal(draw) * 0.5));
  const loadKw = inputs.loadKw.map((kw) =>
    kw.map((_, i) => {
      const day = Math.floor(i / perDay);
      return kw[from[day] * perDay + (i % perDay)] * factor[day];
    }),
  );
  return { ...inputs, loadKw };
}

/** What else happens to the inputs, by the whole period's steps. */
export type Mishap = (inputs: Inputs) => Inputs;

/** What happens at a site that differs from its file, with what a fault changes from some day on. */
export function truthOf(
  world: World,
  difference: Difference,
  {
    from = 0,
    changes = {},
    mishap = (inputs) => inputs,
  }: { from?: number; changes?: SiteChanges; mishap?: Mishap } = {},
  naive = false,
): Truth {
  const edit = (inputs: Inputs) => mishap(otherDays(inputs, difference));
  const faulty = { ...difference.changes, ...changes };
  const stretches: TruthStretch[] =
    from > 0
      ? [
          { fromDay: 0, changes: difference.changes, edit },
          { fromDay: from, changes: faulty, edit },
        ]
      : [{ fromDay: 0, changes: faulty, edit }];
  const truth = simulateTruth({
    ...{ text: world.text, file: world.file, readFile, stepMin: world.stepMin, stretches },
    cache: new Cache(world.cache.entries()),
    ...(naive && {
      engine: (plant, controls, inputs) => {
        const { perStep, runs } = simulateNaive(plant, controls, inputs);
        const cause = new Uint8Array(inputs.count);
        const perH = 60 / inputs.stepMin;
        for (const { startH, endH } of runs)
          cause.fill(1, Math.floor(startH * perH + 1e-9), Math.ceil(endH * perH - 1e-9));
        const { soc: socFrac, airNodeC: cabinetC, batteryNodeC: cellC, ...same } = perStep;
        const columns = {
          ...same,
          socFrac,
          cabinetC,
          cellC,
          cause,
          curtailedKw: new Float64Array(inputs.count),
        };
        return { columns, after: null };
      },
    }),
  });
  if (Array.isArray(truth)) throw new Error(JSON.stringify(truth, null, 1));
  return truth;
}

/** The site as filed beside a log of it. */
export function groundOf({ name }: World, record: SiteRecord): VisitGround {
  const { text, file, ground: cache } = shelfOf(name);
  const { ground, issues } = visitGround({ text, file, readFile, cache }, record);
  if (ground === null) throw new Error(JSON.stringify(issues, null, 1));
  return ground;
}
