/** A demonstration site, simulated in steps of half hours, with all that is handed over made from it. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { OwnerSource } from '../../src/report/owner/source.ts';
import type { SheetSource } from '../../src/report/sheet/setting.ts';
import { runStudy } from '../../src/scenarios/run-study.ts';
import { moneyAtFuelPrice, whatIfs } from '../../src/scenarios/what-if.ts';

export interface Handover extends OwnerSource {
  sheet: SheetSource;
}

export type DemoSite = 'farm' | 'hut' | 'workshop';

/** @param edit changes the text of the site file; @param proposed place of the alternative handed over */
export function handover(
  name: DemoSite,
  edit: (text: string) => string = (text) => text,
  proposed = 0,
): Handover {
  const file = resolve(import.meta.dirname, `../../profiles/sites/${name}.yaml`);
  const { study, again, issues } = runStudy({
    text: edit(readFileSync(file, 'utf8')),
    file,
    readFile: (path) => readFileSync(resolve(file, '..', path)),
    version: '0.0.0',
    stepMin: 30,
  });
  if (!study || !again) throw new Error(JSON.stringify(issues));
  const { alternatives, maker } = again;
  const result = study.alternatives[proposed];
  return {
    study,
    alternatives,
    proposed,
    whatIfs: whatIfs(alternatives[proposed], result, maker),
    doubled: alternatives.map((each, i) => moneyAtFuelPrice(each, study.alternatives[i], 2)),
    sheet: { study, result, site: alternatives[proposed].site },
  };
}
