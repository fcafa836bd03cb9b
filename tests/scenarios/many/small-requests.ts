import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { ManyRequest } from '../../../src/scenarios/many/ground.ts';
import { SMALL_SITE, smallSiteFile } from '../small-site.ts';

export const small = (text = SMALL_SITE): ManyRequest => ({
  text,
  file: 'site.yaml',
  readFile: smallSiteFile,
});

/** The demonstration farm in a year of hours: a cabinet, a battery that wears, a tank. */
export const farmByHours = (): ManyRequest => {
  const folder = resolve('profiles/sites');
  return {
    text: readFileSync(resolve(folder, 'farm.yaml'), 'utf8'),
    file: 'farm.yaml',
    readFile: (path) => readFileSync(resolve(folder, path)),
    stepMin: 60,
  };
};
