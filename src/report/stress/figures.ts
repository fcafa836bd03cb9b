import type { Band } from '../../scenarios/many/percentile.ts';
import type { StressFigure, StressStudy, StressSummary } from '../../scenarios/many/stress-result.ts';
import { bareFigure, digits, type Kind } from '../numbers.ts';

export interface BandFigure {
  label: string;
  kind: Kind;
  of: (summary: StressSummary) => Band;
}

/** What is told in bands, in the order in which it is shown; what the site has not is left out. */
export function bandFigures({ alternatives }: StressStudy): BandFigure[] {
  const hasGenerator = alternatives.some(({ has }) => has.generator);
  const hasMoney = alternatives.some(({ runs }) => runs.some(({ lifeCycleCost }) => lifeCycleCost !== 0));
  const year = (label: string, kind: Kind, figure: StressFigure): BandFigure => {
    return { label, kind, of: (summary) => summary.year[figure] };
  };
  return [
    ...(hasGenerator
      ? [year('Fuel a year', 'litres', 'fuelL'), year('Generator runs a year', 'hours', 'runH')]
      : []),
    ...(hasMoney && hasGenerator ? [year('Running cost a year', 'money', 'running')] : []),
    year('Unserved a year', 'kwh', 'unservedKwh'),
    ...(hasMoney
      ? [
          {
            label: 'Life-cycle cost',
            kind: 'money' as Kind,
            of: (summary: StressSummary) => summary.lifeCycleCost,
          },
        ]
      : []),
  ];
}

/** "2,100 / 2,880 / 3,900": the 10, 50 and 90 % values. */
export function bandText(kind: Kind, band: Band): string {
  return bandTexts(kind, band).join(' / ');
}

export function bandTexts(kind: Kind, { p10, p50, p90 }: Band): string[] {
  const decimals = kind === 'kwh' && p90 < 100 ? 1 : 0;
  return [p10, p50, p90].map((value) => bareFigure(kind, value, value === 0 ? 0 : decimals));
}

/** "99.4 %", never rounded to all or none where it is neither. */
export function shareText(part: number, of: number): string {
  if (part === of) return '100 %';
  const percent = (100 * part) / of;
  return `${digits(percent < 99 ? percent : Math.min(99.9, percent), percent > 10 && percent < 90 ? 0 : 1)} %`;
}
