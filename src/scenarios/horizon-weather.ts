import type { Inputs } from '../sim/inputs.ts';
import type { Plant } from '../sim/plant.ts';
import type { InputMaker } from './inputs-from-site.ts';
import type { Issue, Place } from './issue.ts';
import type { ReadFile } from './load-files.ts';
import type { Path } from './site-document.ts';
import { tryRead } from './site-read.ts';
import type { Site } from './site-schema.ts';

/** The weather of a year of the horizon: seed or file from the list, taken in turn; null: as filed. @param year from 1 */
export function weatherOfYear({ horizon }: Site, year: number): string | null {
  const { weatherYears } = horizon;
  return weatherYears === 'repeat' ? null : weatherYears[(year - 1) % weatherYears.length];
}

/** The site with another seed or file of weather, and nothing else changed. */
export function siteWithWeather(site: Site, weather: string | null): Site {
  if (weather === null || site.weather === null) return site;
  const other = site.weather.format === 'monthly' ? { seed: weather } : { file: weather };
  return { ...site, weather: { ...site.weather, ...other } as Site['weather'] };
}

/**
 * Reads the weather of all years, so that every problem is known before a year is simulated.
 * @returns an issue for each file of a list that is not there, at its place in it; what is wrong with the others is
 * among the maker's issues
 */
export function readWeatherYears(
  sites: readonly Site[],
  maker: InputMaker,
  readFile: ReadFile,
  placeOf: (path: Path) => Place,
): Issue[] {
  const issues: Issue[] = [];
  for (const site of sites) {
    const { weatherYears } = site.horizon;
    if (weatherYears === 'repeat' || site.weather === null) continue;
    const found = weatherYears.filter(
      (file, i) =>
        site.weather?.format === 'monthly' ||
        tryRead(file, ['horizon', 'weatherYears', i], readFile, placeOf, issues) !== null,
    );
    for (const weather of found) maker.make(siteWithWeather(site, weather));
  }
  return unlike(issues);
}

/** Alternatives share their list, unless they change it: each file is missed once. */
function unlike(issues: readonly Issue[]): Issue[] {
  return [...new Map(issues.map((issue) => [`${issue.path} ${issue.got}`, issue])).values()];
}

/** The inputs with every load multiplied, that part of it too which may be shed. */
export function withLoad(inputs: Inputs, factor: number): Inputs {
  if (factor === 1) return inputs;
  const grown = (kw: Float64Array) => kw.map((value) => value * factor);
  const { loadKw, sheddableKw } = inputs;
  return {
    ...inputs,
    loadKw: loadKw.map(grown),
    ...(sheddableKw && { sheddableKw: sheddableKw.map(grown) }),
  };
}

/** The plant with the loads that may wait multiplied: they belong to it, not to the series. */
export function withWaitingLoad(plant: Plant, factor: number): Plant {
  if (factor === 1 || !plant.shiftable) return plant;
  const shiftable = plant.shiftable.map((load) => {
    return { ...load, kw: load.kw * factor, kwhPerDay: load.kwhPerDay * factor };
  });
  return { ...plant, shiftable };
}
