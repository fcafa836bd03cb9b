import type { Visit } from './visit.ts';

/** One site of a folder after its visit; without one where its site file or its log could not be read. */
export interface SiteRank {
  /** name of the site; that of its file where it says none */
  site: string;
  file: string;
  visit: Visit | null;
  /** its site file names no log, which is no problem of it */
  noLog: boolean;
  /** why there is no visit, a sentence each */
  problems: string[];
}
