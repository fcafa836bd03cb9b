import { describe, expect, it } from 'vitest';
import { logPage } from '../../src/report/log/page.ts';
import { clockWords, describeRecord } from '../../src/report/log/record-words.ts';
import { stripBins } from '../../src/report/log/strip.ts';
import { FARM_SITE, plainLines, readLines } from '../scenarios/log/small-log.ts';

const lines = plainLines();
lines.splice(101, 20);
const { record, issues } = readLines(lines);
if (record === null) throw new Error('no record');

describe("what is told of a site's own log", () => {
  it('has each column with its sum or mean, and the gaps', () => {
    const told = describeRecord(record).join('\n');
    expect(told).toContain('480 steps of 15 min, 2025-02-28T23:00 to 2025-03-05T23:00 UTC');
    expect(told).toMatch(
      /Charge % \[%\]: charge; mean 7\d\.\d %, 50\.0 to 100 %, 4\.2 % missing, in steps of 1 %, as written/,
    );
    expect(told).toContain('460 rows; 1 gap of 5.00 h, the longest 5.00 h from 2025-03-02T00:00Z');
    expect(told).toContain('nothing tells whether it is right');
  });

  it('says what was done about the clock', () => {
    expect(clockWords({ addedH: -1, driftHPerDay: 0, by: 'sun' })).toBe(
      'clock: put right by the sun; −60 min added at the start of the log',
    );
    expect(clockWords({ addedH: 0.5, driftHPerDay: -1 / 60, by: 'sun' })).toContain(
      '+30 min added at the start of the log, and −7.0 min more every week',
    );
  });

  it('is on a page with a picture of each column, and cautions', () => {
    const page = logPage(FARM_SITE, record, issues);
    expect(page.match(/<svg class="chart"/g) ?? page.match(/role="img"/g)).toHaveLength(5);
    expect(page).toContain('Can this be trusted');
    expect(page).toMatch(/can kill/);
  });

  it('draws a gap as a gap', () => {
    const load = record.columns.loadKw as Float64Array;
    const bins = stripBins(load, record.axis, 1, 3600);
    expect(bins).toHaveLength(480);
    expect(bins.filter(({ mean }) => Number.isNaN(mean))).toHaveLength(20);
    expect(bins[0].at.toISOString()).toBe('2025-03-01T00:07:30.000Z');
  });
});
