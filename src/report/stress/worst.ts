import type { WorstYear } from '../../scenarios/many/stress-replay.ts';
import type { StressStudy } from '../../scenarios/many/stress-result.ts';
import { darkWeekChart } from '../charts/dark-week.ts';
import { FULL_WIDTH, HALF_WIDTH } from '../charts/draw.ts';
import { type Html, html } from '../html.ts';
import { alone } from '../numbers.ts';
import { figureBox } from '../page/figure-box.ts';
import { daySpan, hoursOfStep, localMs, makeAxisView } from '../view.ts';

/** The dark week of an alternative's worst year, and the week with most unserved load where that is another. */
export function worstWeeks({ start }: StressStudy, worst: WorstYear, paper: Document): Html {
  const { axis, timeZone, darkWeek, shortWeek, runs } = worst;
  const view = makeAxisView({ axis, timeZone });
  const drawn = { ...worst, ledger: { stepMin: axis.stepMin, runs } };
  const days = ({ fromStep, toStep }: { fromStep: number; toStep: number }) =>
    daySpan(localMs(view, hoursOfStep(view, fromStep)), localMs(view, hoursOfStep(view, toStep)) - 1);
  const picture = (week: { fromStep: number; toStep: number }, title: string, note?: string) => {
    const drawing = (width: number) =>
      darkWeekChart(view, drawn, week.fromStep, week.toStep, width, title, paper);
    return figureBox(title, { wide: drawing(FULL_WIDTH), narrow: drawing(HALF_WIDTH) }, { full: true, note });
  };
  const { loadKwh, arrayKwh, generatorKwh, unservedKwh } = darkWeek;
  const missing = unservedKwh > 0 ? `; ${alone('kwh', unservedKwh)} go unserved` : '; nothing goes unserved';
  const title = `the dark week of the worst year, ${days(darkWeek)}: the load takes ${alone('kwh', loadKwh)}, the array offers ${alone('kwh', arrayKwh)}, the generator gives ${alone('kwh', generatorKwh)}${missing}`;
  const note = `Days by the calendar of ${start.slice(0, 4)}, which every year has. All powers are drawn to one scale; the mean of each moment is filled, a thin line marks the highest.`;
  return html`${picture(darkWeek, title, note)}
${
  shortWeek
    ? picture(
        shortWeek,
        `the week of that year with most load unserved, ${days(shortWeek)}: ${alone('kwh', shortWeek.unservedKwh)}`,
      )
    : null
}`;
}
