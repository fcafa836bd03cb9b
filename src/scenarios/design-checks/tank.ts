import type { Tank } from '../../sim/plant.ts';
import type { DarkWeek } from '../study.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged, notKnown, type Rule } from './check.ts';
import { shown } from './measures.ts';

/** How long the fuel lasts in the dark week. */
export function tankChecks(run: CheckedRun): DesignCheck[] {
  const { tank, generator } = run.plant;
  if (tank === null || generator === null) return [];
  if (run.darkWeek === null) return [notKnown(fullRule, ['period.days'], { note: 'Seven days at least.' })];
  const perDay = litresIn(run, run.darkWeek) / 7;
  return [fullTank(tank, perDay), ...(tank.orderAtL >= 0 ? [ordered(tank, perDay)] : [])];
}

const fullRule: Rule = {
  key: 'tank.darkWeek',
  title: 'Fuel tank in the dark week',
  rule: 'A full tank lasts a week at the use of the dark week.',
  bound: 'least',
  unit: 'days',
  source: COMMON_PRACTICE,
};
const WEEK_DAYS = 7;

/** What lasts a year lasts. */
const MOST_DAYS = 365;

function daysOf(litres: number, perDay: number): number {
  return perDay > 0 ? Math.min(MOST_DAYS, litres / perDay) : MOST_DAYS;
}

function useNote(litres: number, perDay: number): string {
  return perDay > 0
    ? `${shown(litres)} L usable, ${shown(perDay)} L a day.`
    : 'No fuel is burnt in the dark week.';
}

function fullTank({ capacityL, reserveL }: Tank, perDay: number): DesignCheck {
  const litres = capacityL - reserveL;
  return judged(
    fullRule,
    daysOf(litres, perDay),
    { fine: WEEK_DAYS, acceptable: WEEK_DAYS / 2 },
    useNote(litres, perDay),
  );
}

function ordered({ orderAtL, reserveL, leadH }: Tank, perDay: number): DesignCheck {
  const litres = Math.max(0, orderAtL - reserveL);
  const lead = leadH / 24;
  return judged(
    {
      key: 'tank.order',
      title: 'Fuel order in the dark week',
      rule: 'From the level at which fuel is ordered the tank lasts until the delivery, at the use of the dark week.',
      bound: 'least',
      unit: 'days',
      source: 'order level and delivery time of the site file',
    },
    daysOf(litres, perDay),
    { fine: lead, acceptable: lead },
    useNote(litres, perDay),
  );
}

/** Fuel of the runs within a span; one that is partly within counts by its time. */
function litresIn({ ledger }: CheckedRun, { fromStep, toStep }: DarkWeek): number {
  const [fromH, toH] = [(fromStep * ledger.stepMin) / 60, (toStep * ledger.stepMin) / 60];
  return ledger.runs.reduce((sum, { startH, endH, litres }) => {
    const within = Math.min(endH, toH) - Math.max(startH, fromH);
    return within > 0 && endH > startH ? sum + (litres * within) / (endH - startH) : sum;
  }, 0);
}
