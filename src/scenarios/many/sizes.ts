import type { Site } from '../site-schema.ts';
import type { Catalogue } from './catalogue.ts';

/** One choice of sizes; null: the site has no such thing. */
export interface Size {
  generatorKw: number | null;
  /** of each unit */
  inverterKva: number;
  modules: number | null;
  /** of all arrays together */
  arrayKwp: number | null;
  /** what each array is multiplied by, before whole strings are made of it */
  arrayTimes: number;
}

/** Sizes somebody asks for in place of the catalogue's; the site's own is always among them. */
export interface AskedSizes {
  generatorKw?: readonly number[];
  inverterKva?: readonly number[];
  modules?: readonly number[];
  arrayKwp?: readonly number[];
}

/** The sizes that a site has as filed. */
export function sizeOf({ generator, inverter, battery, arrays }: Site): Size {
  return {
    generatorKw: generator?.ratedKw ?? null,
    inverterKva: inverter.ratedKva,
    modules: battery?.modules ?? null,
    arrayKwp: arrays.length === 0 ? null : sum(arrays.map(({ kWp }) => kWp)),
    arrayTimes: 1,
  };
}

/** All values of each size, rising, without repeats. */
export interface SizeLists {
  generatorKw: (number | null)[];
  inverterKva: number[];
  modules: (number | null)[];
  arrays: Pick<Size, 'arrayKwp' | 'arrayTimes'>[];
}

/** The sizes to look among: the catalogue's that suit the site, and the site's own. */
export function sizeLists(site: Site, catalogue: Catalogue, asked: AskedSizes): SizeLists {
  const own = sizeOf(site);
  const sets = catalogue.generators.filter(({ phases }) => phases === site.inverter.phases);
  const list = (mine: number, others: readonly number[]) =>
    [...new Set([mine, ...others])].sort((a, b) => a - b);
  const orNone = (mine: number | null, others: (mine: number) => readonly number[]) =>
    mine === null ? [null] : list(mine, others(mine));
  return {
    generatorKw: orNone(own.generatorKw, () => asked.generatorKw ?? sets.map(({ ratedKw }) => ratedKw)),
    inverterKva: list(
      own.inverterKva,
      asked.inverterKva ?? catalogue.inverters.map(({ ratedKva }) => ratedKva),
    ),
    modules: orNone(own.modules, (mine) =>
      (asked.modules ?? catalogue.battery.times.map((times) => Math.max(1, Math.round(times * mine)))).filter(
        (modules) => modules >= leastModules(site),
      ),
    ),
    arrays: arrayList(site, own.arrayKwp, asked.arrayKwp, catalogue),
  };
}

/** All arrays times as much, by the ratings that whole strings give; of equal ratings the site's own, else the first. */
function arrayList(
  site: Site,
  ownKwp: number | null,
  askedKwp: readonly number[] | undefined,
  catalogue: Catalogue,
): SizeLists['arrays'] {
  if (ownKwp === null || ownKwp === 0) return [{ arrayKwp: ownKwp, arrayTimes: 1 }];
  const times = askedKwp?.map((kWp) => kWp / ownKwp) ?? catalogue.array.times;
  const byKwp = new Map<number, number>();
  for (const each of [1, ...times]) {
    const kWp = Number(wholeStrings(site, each).toFixed(3));
    if (!byKwp.has(kWp)) byKwp.set(kWp, each);
  }
  return [...byKwp]
    .map(([arrayKwp, arrayTimes]) => ({ arrayKwp, arrayTimes }))
    .sort((a, b) => a.arrayKwp - b.arrayKwp);
}

/** Modules that stand in cabinets of their own cannot be done without. */
function leastModules({ batteryCabinets }: Site): number {
  return Math.max(1, sum(batteryCabinets.map(({ modules }) => modules)));
}

/** Rating of all arrays when each has so many times its strings, as whole strings. */
function wholeStrings({ arrays }: Pick<Site, 'arrays'>, times: number): number {
  return sum(arrays.map((array) => array.kWp * stringsTimes(array, times)));
}

/** What an array can really be multiplied by: whole strings, at least one; anything where none are stated. */
export function stringsTimes({ strings }: Pick<Site['arrays'][number], 'strings'>, times: number): number {
  return strings ? Math.max(1, Math.round(strings.strings * times)) / strings.strings : times;
}

/** Every choice of sizes, in a fixed order. */
export function allSizes(lists: SizeLists): Size[] {
  return lists.generatorKw.flatMap((generatorKw) =>
    lists.inverterKva.flatMap((inverterKva) =>
      lists.modules.flatMap((modules) =>
        lists.arrays.map((arrays) => ({ generatorKw, inverterKva, modules, ...arrays })),
      ),
    ),
  );
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
