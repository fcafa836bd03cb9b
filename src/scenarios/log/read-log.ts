import { makeClock, offsetAt } from '../clock.ts';
import { Findings } from '../findings.ts';
import type { Place } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import type { Path } from '../site-document.ts';
import { tryRead } from '../site-read.ts';
import type { Site } from '../site-schema.ts';
import { clockBySun, NOT_KNOWN } from './clock-by-sun.ts';
import { derived, layRecord } from './read-columns.ts';
import { type RowIntervals, rowIntervals } from './read-intervals.ts';
import { type LogRows, readRows } from './read-rows.ts';
import { onWholeSteps } from './read-snap.ts';
import type { ClockFinding, RecordResult, SiteRecord } from './site-record.ts';

/**
 * Reads the log that a site file names, on one axis, its clock put right by the sun where that is clear.
 * @param placeOf where a part of the site file stands
 * @returns every problem and doubt; no record with a problem among them. Totals that the file has only in parts (load
 * by phase, every array) are summed up.
 */
export function readLog(site: Site, readFile: ReadFile, placeOf: (path: Path) => Place): RecordResult {
  const { log } = site;
  if (log === null) {
    const at = placeOf(['site']);
    const want = 'the group `log`: the file that the recorder wrote, and its columns';
    return {
      record: null,
      issues: [{ severity: 'error', code: 'no-log', path: 'log', got: 'none', want, at }],
    };
  }
  const found = new Findings(log.file);
  const bytes = tryRead(log.file, ['log', 'file'], readFile, placeOf, found.issues);
  if (bytes === null) return { record: null, issues: found.issues };
  const rows = readRows(bytes, log, log.timeZone ?? site.site.timeZone, found);
  if (rows === null) return { record: null, issues: found.issues };
  const record = recordOf(rows, site, found);
  return { record: found.hasErrors ? null : record, issues: found.issues };
}

function recordOf(rows: LogRows, site: Site, found: Findings): SiteRecord {
  const asWritten = layAt(rows, site, NOT_KNOWN, found);
  // what it says of values is said once, of the record that is handed out
  const clock = clockBySun(derived(asWritten, site), site, found);
  return derived(layAt(rows, site, clock, new Findings(found.issues[0]?.at.file ?? ''), onWholeSteps), site);
}

function layAt(
  rows: LogRows,
  site: Site,
  clock: ClockFinding,
  found: Findings,
  move = (intervals: RowIntervals, _offsetS: number) => intervals,
): SiteRecord {
  const log = site.log as NonNullable<Site['log']>;
  const firstS = rows.atS[0];
  const atS = rows.atS.map(
    (at) => at + 3600 * (clock.addedH + (clock.driftHPerDay * (at - firstS)) / 86_400),
  );
  const local = makeClock(site.site.timeZone, atS[0], atS[atS.length - 1]);
  const offsetS = local ? offsetAt(local, atS[0]) : 0;
  const intervals = move(rowIntervals(atS, log.stamp), offsetS);
  return layRecord({ rows, intervals, clock, site, log, offsetS }, found);
}
