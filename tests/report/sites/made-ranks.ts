/** Many sites made by hand from one visit: each with its own fuel, tank, battery and fault; some that could not be read. */
import type { SiteRank } from '../../../src/scenarios/visit/site-rank.ts';
import type { Estimate, Visit } from '../../../src/scenarios/visit/visit.ts';
import { richVisit } from '../visit/fixture-visit.ts';

/** Numbers from 0 to 1 that are the same each time. */
function spread(i: number): number {
  return (i * 0.618034 + 0.13) % 1;
}

export function madeSite(
  name: string,
  change: {
    promisedL?: number;
    usedL?: number;
    daysLeft?: number | null;
    usableKwh?: number;
    asDesigned?: boolean;
    faults?: Visit['faults'];
  },
): SiteRank {
  const visit = richVisit();
  const { ran, causes } = visit.comparison;
  const designed = { ...visit.comparison.designed, fuelL: change.promisedL ?? 1412 };
  const usedL = change.usedL ?? designed.fuelL;
  const half = 1.5;
  const usable: Estimate = {
    ...(visit.estimates.find(({ key }) => key === 'usableKwh') as Extract<Estimate, { value: number }>),
    value: change.usableKwh ?? 60,
    low: (change.usableKwh ?? 60) - half,
    high: (change.usableKwh ?? 60) + half,
  };
  return {
    site: name,
    file: `${name.toLowerCase().replaceAll(' ', '-')}.yaml`,
    noLog: false,
    problems: [],
    visit: {
      ...visit,
      site: { ...visit.site, name },
      tank: change.daysLeft === undefined ? null : { levelL: 200, litresADay: 8, daysLeft: change.daysLeft },
      faults: change.faults ?? [],
      estimates: [usable],
      comparison: {
        ...visit.comparison,
        designed,
        ran: { ...ran, fuelL: usedL },
        asDesigned: change.asDesigned ?? false,
        causes: [{ ...causes[0], fuelL: usedL - designed.fuelL }],
      },
    },
  };
}

export function unreadSite(name: string, problems: string[]): SiteRank {
  return { site: name, file: `${name}.yaml`, visit: null, noLog: false, problems };
}

export function manySites(count: number): SiteRank[] {
  const { faults } = richVisit();
  return Array.from({ length: count }, (_, i) => {
    const name = `Site ${String(i + 1).padStart(3, '0')}`;
    if (i % 40 === 7)
      return unreadSite(name, [
        'log.csv:12:3: time: found yesterday; expected a date and a time',
        'log.csv:13:3: load: found x; expected a number',
      ]);
    const promisedL = 300 + 3500 * spread(i + 17) ** 2;
    const asDesigned = i % 3 !== 0;
    return madeSite(name, {
      promisedL,
      usedL: promisedL * (asDesigned ? 0.98 + 0.04 * spread(i + 9) : 0.8 + spread(i)),
      daysLeft: i % 11 === 0 ? 40 * spread(i + 3) : 200,
      usableKwh: i % 9 === 0 ? 60 - 14 * spread(i + 5) : 60,
      asDesigned,
      faults: i % 10 === 3 ? faults.slice(0, 1 + (i % 2)) : [],
    });
  });
}
