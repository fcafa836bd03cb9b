import type { StartCause } from '../../sim/causes.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged } from './check.ts';
import { counted, hoursOf } from './measures.ts';

/** How often the generator starts, and whether it keeps to its hours. */
export function startChecks(run: CheckedRun): DesignCheck[] {
  if (run.plant.generator === null) return [];
  const { restricted } = run.inputs;
  return [perDay(run), ...(restricted?.includes(1) ? [restrictedHours(run, restricted)] : [])];
}

/** Share of all days on which more starts are a habit rather than an odd day. */
const HABIT = 0.1;

/** Days begin with the run, which begins at midnight. */
function perDay(run: CheckedRun): DesignCheck {
  const { mostStartsPerDay: most } = run.site.design;
  const days = Math.max(1, Math.ceil(hoursOf(run) / 24));
  const starts = new Uint16Array(days);
  for (const { startH } of run.ledger.runs) starts[Math.min(days - 1, Math.floor(startH / 24))]++;
  const above = starts.filter((count) => count > most).length;
  const isHabit = above > HABIT * days;
  return judged(
    {
      key: 'starts.day',
      title: 'Most generator starts in a day',
      rule: 'The thresholds start the generator no more often in a day than stated.',
      bound: 'most',
      unit: 'starts',
      source: COMMON_PRACTICE,
    },
    Math.max(...starts),
    { fine: most, acceptable: isHabit ? most : undefined },
    above > 0 ? `More than ${most} on ${above} of ${days} days.` : '',
  );
}

/** Once a week and more is no exception. */
const OFTEN_PER_DAY = 1 / 7;

/** Restricted hours hold these back; within them they are urgent. */
const HELD_BACK: readonly StartCause[] = ['charge', 'full', 'exercise'];

/**
 * A start for charging within restricted hours is an urgent one: nothing else lets it start. With failing starts the
 * engine may turn later than it was asked for, and a start from just before those hours counts as within.
 */
function restrictedHours(run: CheckedRun, restricted: Uint8Array): DesignCheck {
  const { ledger, plant } = run;
  const stepH = ledger.stepMin / 60;
  const isRestricted = (hour: number) =>
    restricted[Math.min(ledger.count - 1, Math.max(0, Math.floor(hour / stepH + 1e-9)))] === 1;
  const startDelayH = plant.generator?.startDelayH ?? 0;
  const inside = ledger.runs.filter(({ startH }) => isRestricted(startH - startDelayH));
  const urgent = inside.filter(({ cause }) => HELD_BACK.includes(cause)).length;
  const others = inside.length - urgent;
  const outages = ledger.outages.filter(({ startH }) => isRestricted(startH)).length;
  const count = urgent + outages;
  return judged(
    {
      key: 'restricted.hours',
      title: 'Restricted hours: urgent starts and interruptions within them',
      rule: 'In restricted hours the site gets along without an urgent start and without an interruption.',
      bound: 'most',
      unit: 'times',
      source: COMMON_PRACTICE,
    },
    count,
    { fine: 0, acceptable: (OFTEN_PER_DAY * hoursOf(run)) / 24 },
    `${counted(urgent, 'urgent start')}, ${counted(outages, 'interruption')}; for another cause ${counted(others, 'start')}.`,
  );
}
