import { ARRAY_LOSSES, type ArrayLoss, type ArrayYield, lostKwh, sumOf } from '../scenarios/array-yields.ts';
import type { AlternativeResult } from '../scenarios/study.ts';
import { MOST_MONTHS } from './months.ts';
import type { StudyView } from './view.ts';

/** Losses that are told as one: what snow, the horizon and the converters keep from the site. */
export type LossGroup = 'snow' | 'horizon' | 'converter';

export const LOSS_GROUPS: readonly LossGroup[] = ['snow', 'horizon', 'converter'];

const LOSSES_OF: Record<LossGroup, readonly ArrayLoss[]> = {
  snow: ['snow'],
  horizon: ['horizon'],
  converter: ARRAY_LOSSES.filter((loss) => loss !== 'snow' && loss !== 'horizon'),
};

/** Energy that a group keeps from the site over the whole run [kWh]. */
export function groupKwh({ yields }: Pick<AlternativeResult, 'yields'>, group: LossGroup): number {
  return sumOf(LOSSES_OF[group].map((loss) => lostKwh(yields, loss)));
}

/** Losses below this share of what the arrays offer are not worth a line. */
const WORTH_A_LINE = 0.005;

/** Groups that keep more than a trace from the site. */
export function groupsWorthALine(result: Pick<AlternativeResult, 'yields'>): LossGroup[] {
  const offered = sumOf(result.yields.map((one) => sumOf(one.offeredKwh)));
  return LOSS_GROUPS.filter((group) => {
    const kwh = groupKwh(result, group);
    return kwh > 0 && kwh >= WORTH_A_LINE * offered;
  });
}

/** One month (or one year, of a run of more than two) of what is kept from the site [kWh]. */
export interface LossRow extends Record<LossGroup, number> {
  name: string;
  short: string;
  /** snow on each array */
  snowByArray: number[];
}

/** The months in order; empty where the run has less than two, or its periods are not the calendar's months. */
export function lossRows(view: StudyView, { yields }: Pick<AlternativeResult, 'yields'>): LossRow[] {
  const { months } = view;
  const periods = yields[0]?.offeredKwh.length ?? 0;
  if (periods !== months.length || periods < 2) return [];
  const inPeriod = (one: ArrayYield, group: LossGroup, k: number) =>
    sumOf(LOSSES_OF[group].map((loss) => one.lostKwh[loss][k]));
  const rows: LossRow[] = months.map(({ name, short }, k) => {
    const of = (group: LossGroup) => sumOf(yields.map((one) => inPeriod(one, group, k)));
    const snowByArray = yields.map((one) => inPeriod(one, 'snow', k));
    return { name, short, snow: of('snow'), horizon: of('horizon'), converter: of('converter'), snowByArray };
  });
  if (rows.length <= MOST_MONTHS) return rows;
  const years = [...new Set(months.map(({ year }) => year))];
  return years.map((year) => {
    const ofYear = rows.filter((_, k) => months[k].year === year);
    return { ...wholeLoss(ofYear), name: String(year), short: String(year) };
  });
}

/** The whole of a list of months. */
export function wholeLoss(rows: readonly LossRow[]): Omit<LossRow, 'name' | 'short'> {
  return {
    snow: sumOf(rows.map(({ snow }) => snow)),
    horizon: sumOf(rows.map(({ horizon }) => horizon)),
    converter: sumOf(rows.map(({ converter }) => converter)),
    snowByArray: (rows[0]?.snowByArray ?? []).map((_, i) => sumOf(rows.map((row) => row.snowByArray[i]))),
  };
}
