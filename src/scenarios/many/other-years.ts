import type { SiteChanges } from '../apply-changes.ts';
import type { Site } from '../site-schema.ts';
import type { YearKind } from './tune-result.ts';

/** Years differ by about this from one to the next (common practice, for sun and for a household's load). */
const TENTH = 0.1;

/** Changes that make another year of a site: a tenth more or less load, a tenth less sun. */
export function otherYearChanges({
  load,
  appliances,
  arrays,
}: Site): { kind: YearKind; changes: SiteChanges }[] {
  const loads = (times: number): SiteChanges => ({
    ...Object.fromEntries(load.map(({ scale }, i) => [`load.${i}.scale`, scale * times])),
    ...Object.fromEntries(appliances.map(({ watts }, i) => [`appliances.${i}.watts`, watts * times])),
  });
  const sun = Object.fromEntries(arrays.map(({ kWp }, i) => [`arrays.${i}.kWp`, kWp * (1 - TENTH)]));
  return [
    { kind: 'more load', changes: loads(1 + TENTH) },
    { kind: 'less load', changes: loads(1 - TENTH) },
    ...(arrays.length > 0 ? [{ kind: 'less sun' as const, changes: sun }] : []),
  ];
}
