import { describe, expect, it } from 'vitest';
import { SITE_TEXT } from '../../../src/scenarios/queue/job.ts';
import { jobId, storedJob } from '../../../src/scenarios/queue/stored-job.ts';
import { keptVisits, visitLine } from '../../../src/scenarios/sites/kept-visits.ts';
import { visitJob } from '../../../src/scenarios/sites/site-jobs.ts';
import { SMALL_SITE, smallSiteFile } from '../small-site.ts';

const site = (text = SMALL_SITE) => ({ file: 'a/site.yaml', text, readFile: smallSiteFile });
const nameOf = (text: string, version = '1', retunes = false) =>
  jobId(storedJob(visitJob(site(text), version, retunes)));

describe('the job of a site', () => {
  it('has every file with it that the site names, and knows those that are not there', () => {
    const job = visitJob(
      site(`${SMALL_SITE}log: { file: log.csv, columns: { soc: { is: charge, unit: "%" } } }\n`),
      '1',
      false,
    );
    expect(Object.keys(job.files).sort()).toEqual([SITE_TEXT, 'load.csv', 'sky.csv'].sort());
    expect(job.payload).toEqual({ file: 'a/site.yaml', absent: ['log.csv'], retunes: false });
    expect(job.files['load.csv']).toEqual(smallSiteFile('load.csv'));
  });

  it('has another name for other inputs, another version and another question, and else the same', () => {
    const names = [
      nameOf(SMALL_SITE),
      nameOf(SMALL_SITE.replace('fuelPerL: 1.5', 'fuelPerL: 1.6')),
      nameOf(SMALL_SITE, '2'),
      nameOf(SMALL_SITE, '1', true),
    ];
    expect(new Set(names).size).toBe(4);
    expect(nameOf(SMALL_SITE)).toBe(names[0]);
  });

  it('is made of a site file that cannot be parsed, too', () => {
    const job = visitJob(site('site: { name: [\n'), '1', false);
    expect(Object.keys(job.files)).toEqual([SITE_TEXT]);
  });
});

describe('finished visits', () => {
  const rank = { site: 'A', file: 'a.yaml', visit: null, noLog: true, problems: [] };

  it('are read as they were written; a line that was cut off, and what else is there, are not', () => {
    const text = `${visitLine('1', rank)}\n{"id":"2"}\nnull\n${visitLine('3', rank).slice(0, -9)}`;
    expect(keptVisits(text)).toEqual(new Map([['1', rank]]));
  });
});
