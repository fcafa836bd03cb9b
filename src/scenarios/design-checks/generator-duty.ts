import { highestDayAverages } from '../../sim/electrical/day-average.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged, notKnown, type Rule } from './check.ts';
import { hoursOf, perYear, scaledNote, sentences, shown } from './measures.ts';

/** How hard the generator works, against its minimum load and the class of its rating. */
export function generatorDutyChecks(run: CheckedRun): DesignCheck[] {
  const { generator } = run.plant;
  if (generator === null) return [];
  return [lowLoad(run), ...classChecks(run, generator.ratedKw)];
}

/** Percent of the hours on load that may be below 30 %. */
const MOST_LOW = 20;
const TOO_LOW = 50;

/** Warm-up and cool-down have no load, and must have none. */
function lowLoad({ ledger }: CheckedRun): DesignCheck {
  const { lowLoadH, runH, onLoadH } = ledger.totals;
  const rest = lowLoadH - (runH - onLoadH);
  // sums over a year leave a trace of rounding
  const low = rest > 1e-6 ? rest : 0;
  return judged(
    {
      key: 'generator.lowLoad',
      title: 'Generator below 30 % of its rating',
      rule: 'At most a fifth of the hours on load are below 30 %, where a diesel cokes up.',
      bound: 'most',
      unit: '%',
      source: `30 %: NFPA 110, 8.4.2, for monthly exercise (seen second hand); a fifth of the hours: ${COMMON_PRACTICE}`,
    },
    onLoadH > 0 ? (100 * low) / onLoadH : 0,
    { fine: MOST_LOW, acceptable: TOO_LOW },
    `${shown(low)} of ${shown(onLoadH)} h.`,
  );
}

/** What a class of ISO 8528-1 allows: hours a year, and percent of the rating on average over 24 h. */
export const CLASSES = {
  continuous: { name: 'continuous (COP)', hours: null, average: 100 },
  prime: { name: 'prime (PRP)', hours: null, average: 70 },
  limitedTime: { name: 'limited-time (LTP)', hours: 500, average: 100 },
  standby: { name: 'emergency standby (ESP)', hours: 200, average: 70 },
} as const;

const averageRule: Rule = {
  key: 'generator.average',
  title: 'Generator: average over 24 h against its rating class',
  rule: 'Over any 24 h the load averages at most what the class of the rating allows; standstill does not count, and less than 30 % counts as 30 %.',
  bound: 'most',
  unit: '%',
  source: 'ISO 8528-1: 70 % for prime and standby ratings (seen second hand); how it is averaged from memory',
};

function classChecks(run: CheckedRun, ratedKw: number): DesignCheck[] {
  const { ratingClass } = run.site.generator ?? {};
  if (ratingClass === undefined) return [notKnown(averageRule, ['generator.ratingClass'])];
  const { name, hours, average } = CLASSES[ratingClass];
  const checks = [dayAverage(run, ratedKw, name, average)];
  if (hours !== null) checks.push(yearlyHours(run, name, hours));
  return checks;
}

/** Only in days with at least this much running is a high average more than a short run's. */
const LONG_DAY_H = 12;

/** A high average of a short run is worth a question to the maker; one of half a day is overload. */
function dayAverage(run: CheckedRun, ratedKw: number, name: string, allowed: number): DesignCheck {
  const { columns, ledger } = run;
  const [highest, long] = highestDayAverages(
    columns.generatorKw,
    runningHours(run),
    ledger.stepMin / 60,
    ratedKw,
    [0, LONG_DAY_H],
  );
  if (highest === null) return judged(averageRule, 0, { fine: allowed }, 'It never runs.');
  const value = 100 * highest.shareOfRating;
  const isOverload = long !== null && 100 * long.shareOfRating > allowed + 1e-9;
  return judged(
    averageRule,
    value,
    { fine: allowed, acceptable: isOverload ? allowed : undefined },
    sentences(
      `Rated ${name}; in the highest 24 h it runs ${shown(highest.runH)} h.`,
      value > allowed && !isOverload
        ? `No day with ${LONG_DAY_H} h of running is above; ask its maker whether short runs may be.`
        : '',
    ),
  );
}

/** Hours that the engine runs in each step. */
export function runningHours({ ledger }: Pick<CheckedRun, 'ledger'>): Float64Array {
  const stepH = ledger.stepMin / 60;
  const hours = new Float64Array(ledger.count);
  for (const { startH, endH } of ledger.runs)
    for (let i = Math.floor(startH / stepH + 1e-9); i < ledger.count && i * stepH < endH; i++)
      hours[i] += Math.max(0, Math.min(endH, (i + 1) * stepH) - Math.max(startH, i * stepH));
  return hours;
}

function yearlyHours(run: CheckedRun, name: string, allowed: number): DesignCheck {
  return judged(
    {
      key: 'generator.hours',
      title: 'Generator: hours a year against its rating class',
      rule: 'It runs no more hours a year than the class of its rating allows.',
      bound: 'most',
      unit: 'h a year',
      source: 'ISO 8528-1: 500 h limited-time, 200 h standby (seen second hand)',
    },
    hoursOf(run) > 0 ? perYear(run, run.ledger.totals.runH) : 0,
    { fine: allowed, acceptable: allowed },
    sentences(`Rated ${name}.`, scaledNote(run)),
  );
}
