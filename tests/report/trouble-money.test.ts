/** Trouble that has a price has its own line, bar and column; without a price nothing is said of it. */
import { describe, expect, it } from 'vitest';
import { partsPaid } from '../../src/report/charts/years-money.ts';
import { reportPage } from '../../src/report/page.ts';
import { fixtureStudy } from './fixture.ts';

const plain = fixtureStudy({ stepMin: 15, alternatives: 2 });

/** 120 and 45 more in every year but the first, invented. */
const troubled = {
  ...plain,
  alternatives: plain.alternatives.map((one) => ({
    ...one,
    money: {
      ...one.money,
      unservedFirstYear: 120,
      visitsFirstYear: 45,
      cashFlow: one.money.cashFlow.map((year) =>
        year.year === 0 ? year : { ...year, unserved: 120, visits: 45, total: year.total + 165 },
      ),
    },
  })),
};

const rowsOf = (page: string, name: string) =>
  [...page.matchAll(new RegExp(`<th scope="row">${name}, first year</th><td>([^<]*)</td>`, 'g'))].map(
    (match) => match[1],
  );

describe('load unserved and call-outs in the money', () => {
  it('are lines of their own', () => {
    const page = reportPage(troubled);
    expect(rowsOf(page, 'Load unserved')).toEqual(
      plain.alternatives.map(() => expect.stringContaining('120')),
    );
    expect(rowsOf(page, 'Call-outs')).toEqual(plain.alternatives.map(() => expect.stringContaining('45')));
    expect(page).toContain('<th scope="col">Load unserved</th><th scope="col">Call-outs</th>');
  });

  it('are parts of the bars, each with its own fill', () => {
    const parts = partsPaid(troubled.alternatives[0].money);
    const names = parts.map(({ name }) => name);
    expect(names).toContain('load unserved');
    expect(names).toContain('call-outs');
    expect(new Set(parts.map(({ fill }) => fill)).size).toBe(parts.length);
  });

  it('are not spoken of without a price', () => {
    const page = reportPage(plain);
    expect(rowsOf(page, 'Load unserved')).toEqual([]);
    expect(rowsOf(page, 'Call-outs')).toEqual([]);
    expect(partsPaid(plain.alternatives[0].money).map(({ name }) => name)).not.toContain('call-outs');
  });
});

describe('the two wells of a lead-acid bank', () => {
  it('are told once where all alternatives share them, and not for lithium', () => {
    const kinetic = { atHandFrac: 0.44, ratePerH: 0.488 };
    const leadAcid = {
      ...plain,
      alternatives: plain.alternatives.map((one) => ({
        ...one,
        plant: { ...one.plant, battery: one.plant.battery && { ...one.plant.battery, kinetic } },
      })),
    };
    const told = reportPage(leadAcid).match(/44(?:\.0)?.% of its charge is at hand[^<]*0\.49 per hour/g);
    expect(told).toHaveLength(1);
    expect(reportPage(plain)).not.toContain('lead-acid');
  });
});
