import { rankSites } from '../../src/report/sites/rank.ts';
import { whyLine } from '../../src/report/sites/words.ts';
import { isKnown } from '../../src/report/visit/estimate-words.ts';
import { faultTitle } from '../../src/report/visit/fault-words.ts';
import { isFaded, isMaterial } from '../../src/report/visit/material.ts';
import { small } from '../../src/report/words.ts';
import type { SiteRank } from '../../src/scenarios/visit/site-rank.ts';
import { type Estimated, FAULTS, type FaultKind, type Visit } from '../../src/scenarios/visit/visit.ts';
import { PLANTED, type Planted } from '../scenarios/sites/made-sites.ts';

/** How a planted thing is told: by an estimate unlike the design, or as a fault. */
const ESTIMATE_OF: Partial<Record<Planted, Estimated>> = {
  load: 'loadFactor',
  array: 'arrayFactor',
  battery: 'usableKwh',
  thresholds: 'startSoc',
};

/** What the sentence why says of what is no fault. */
const SAID: Partial<Record<Planted, RegExp>> = {
  // the sun of its year is not that of its designed one
  nothing: /^As designed\.$|^Not as designed, but [^;]*$|mostly less sun than the weather year\.$/,
  load: /more load than planned/,
  array: /arrays give less than the sun allows/,
  battery: /the battery holds|battery holds or gives back less/i,
  thresholds: /other start (and|or) stop settings/i,
};

function isOnPage(planted: Planted, { estimates, faults }: Visit): boolean {
  const isApart = (key: Estimated | undefined) => {
    const known = estimates.filter(isKnown).find((each) => each.key === key);
    return known !== undefined && (key === 'usableKwh' ? isFaded(known) : isMaterial(known));
  };
  if (planted === 'nothing') return faults.length === 0 && !Object.values(ESTIMATE_OF).some(isApart);
  return planted in ESTIMATE_OF ? isApart(ESTIMATE_OF[planted]) : faults.some(({ kind }) => kind === planted);
}

function isInList(planted: Planted, why: string): boolean {
  return SAID[planted]?.test(why) ?? why.toLowerCase().includes(small(faultTitle(planted as FaultKind)));
}

/** How often what was planted is told: on the site's own page, and in the sentence why of the list. */
export function toldTable(ranks: readonly SiteRank[], plantedAt: ReadonlyMap<string, Planted>): string[] {
  const { visited } = rankSites(ranks);
  const rows = PLANTED.map((planted) => {
    const sites = visited.filter(({ file }) => plantedAt.get(file) === planted);
    const onPage = sites.filter(({ visit }) => isOnPage(planted, visit)).length;
    const inList = sites.filter((site) => isInList(planted, whyLine(site))).length;
    const others = visited.filter(({ file }) => plantedAt.get(file) !== planted);
    const isFault = (FAULTS as readonly string[]).includes(planted);
    const falsely = others.filter(({ visit }) => visit.faults.some(({ kind }) => kind === planted)).length;
    return [planted, sites.length, onPage, inList, isFault ? `${falsely} of ${others.length}` : '–'];
  });
  const head = ['planted', 'sites', 'on its page', 'in the list', 'claimed elsewhere'];
  return [head, ...rows].map((cells) =>
    cells
      .map((cell) => String(cell).padEnd(18))
      .join('')
      .trimEnd(),
  );
}
