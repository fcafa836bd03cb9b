import type { Issue } from '../issue.ts';
import type { VisitGround } from './ground.ts';

/** In longer steps, steps in which the engine ran at all say little of how long it ran [min] (own choice). */
const LONGEST_STEP_MIN = 15;

/** What of a site and its log a visit cannot do justice to. */
export function visitDoubts({ site, record, filed }: VisitGround): Issue[] {
  const doubts: Issue[] = [];
  const tell = (path: string, got: string, want: string) =>
    doubts.push({ severity: 'doubt', code: 'visit', path, got, want, at: filed.placeOf(path.split('.')) });
  const { stepMin } = record.axis;
  if (stepMin > LONGEST_STEP_MIN && !record.columns.generatorOn)
    tell(
      'log',
      `steps of ${stepMin} min`,
      `${LONGEST_STEP_MIN} min or less, or the engine's running contact: by its power alone, steps in which it ran count as whole ones, alike for log and design`,
    );
  if (site.shiftable.length > 0)
    tell(
      'shiftable',
      'loads that wait for surplus',
      'a log whose load leaves them out: they are run on top of the logged load',
    );
  if (site.sources.length > 0)
    tell('sources', 'further sources', 'a log of arrays that leaves them out: they are taken as filed');
  if (site.secondGenerator !== null)
    tell('secondGenerator', 'a second set', 'a log of the first set alone: nothing is said of the other');
  if (site.period.days < 365 && site.alternatives.length > 0)
    tell(
      'period.days',
      `${site.period.days} days`,
      '365: extensions are told by the year, and take this part for it',
    );
  return doubts;
}
