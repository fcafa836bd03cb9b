import type { Visit } from './visit.ts';

/** One site of a folder after its visit; without one where its site file or its log could not be read. */
export interface SiteRank {
  /** name of the site; that of its file where that could not be read */
  site: string;
  file: string;
  visit: Visit | null;
  /** why there is no visit, a sentence each; else what was doubtful enough to be said in a list */
  problems: string[];
}
