/** The files of a demonstration site with its site file changed, without the log that it has. */
import { readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { parse, stringify } from 'yaml';
import { Cache } from '../../../src/scenarios/cache.ts';

// biome-ignore lint/suspicious/noExplicitAny: a site file before it is checked
type Unchecked = any;

export function visitFiles(name: string, change: (site: Unchecked) => void) {
  const file = resolve(import.meta.dirname, `../../../profiles/sites/${name}.yaml`);
  const site: Unchecked = parse(readFileSync(file, 'utf8'));
  site.alternatives = [];
  site.log = null;
  change(site);
  return {
    ...{ text: stringify(site), file, cache: new Cache() },
    readFile: (path: string) => readFileSync(join(dirname(file), path)),
  };
}
