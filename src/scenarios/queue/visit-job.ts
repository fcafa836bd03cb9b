import { issueSentence } from '../issue.ts';
import type { SiteRank } from '../visit/site-rank.ts';
import { visitSite } from '../visit/visit-site.ts';
import { SITE_TEXT } from './job.ts';
import type { Doer } from './kinds.ts';

/** A visit to one site of a folder by its log. */
export interface VisitJob {
  /** of the site file, beside the folder */
  file: string;
  /** named in the site file, and not there: a problem of the site, not of the job */
  absent: string[];
  /** whether new settings are looked for, which takes longest */
  retunes: boolean;
}

export type VisitJobResult = SiteRank;

/** Visits one site after another. */
export function makeVisitDoer(): Doer<'visit'> {
  return async ({ version, payload, readFile }) => {
    const { file, absent, retunes } = payload;
    const readPresent = (path: string) => {
      if (absent.includes(path)) throw new Error(`no file ${path}`);
      return readFile(path);
    };
    const text = new TextDecoder().decode(readFile(SITE_TEXT));
    const { visit, issues } = await visitSite({ text, file, readFile: readPresent, version, retunes });
    // as it comes from a queue: what JSON does not have is not there
    return JSON.parse(
      JSON.stringify({
        site: visit?.site.name ?? file,
        file,
        visit,
        problems: visit ? [] : issues.filter(({ severity }) => severity === 'error').map(issueSentence),
      }),
    );
  };
}
