import type { Study } from '../scenarios/study.ts';
import type { Ledger } from '../sim/ledger.ts';
import { peaksUnderstatedMin } from './facts.ts';
import { studySentences } from './sentences.ts';
import { makeView } from './view.ts';

/**
 * Everything of a study but the columns and series, for a script: settings, ledger, runs, outages, money.
 * Instants are ISO 8601 in UTC, other units are those of the names. A limit that is not set (a longest run of any
 * length, a peak threshold of none) is null.
 */
export function studyJson(study: Study) {
  const { site, axis, timeZone, made, sheets, doubts } = study;
  const instant = (hours: number) => isoInstant(axis.startS + hours * 3600);
  const { months } = makeView(study);
  const words = studySentences(study);
  const alternatives = study.alternatives.map(({ columns: _columns, inputs: _inputs, ...rest }, i) => ({
    ...rest,
    climate: rest.climate && { rows: rest.climate.rows },
    bound: rest.bound && { ...rest.bound, foresight: undefined },
    sentences: words[i].sentences,
    ledger: {
      ...rest.ledger,
      periods: namedPeriods(rest.ledger, months),
      runs: rest.ledger.runs.map((run) => ({ start: instant(run.startH), end: instant(run.endH), ...run })),
      outages: rest.ledger.outages.map((outage) => ({
        start: instant(outage.startH),
        end: instant(outage.endH),
        ...outage,
      })),
    },
    darkWeek: rest.darkWeek && {
      start: instant((rest.darkWeek.fromStep * axis.stepMin) / 60),
      end: instant((rest.darkWeek.toStep * axis.stepMin) / 60),
      ...rest.darkWeek,
    },
  }));
  return finite({
    made,
    site,
    start: instant(0),
    end: instant((axis.count * axis.stepMin) / 60),
    stepMin: axis.stepMin,
    steps: axis.count,
    timeZone,
    sheets,
    doubts,
    /** step of load data too coarse to show every peak that starts a generator; null where it is fine enough */
    peaksUnderstatedByLoadStepMin: peaksUnderstatedMin(study),
    alternatives,
  });
}

function namedPeriods(ledger: Ledger, months: readonly { name: string; year: number }[]) {
  const named = ledger.periods.length === months.length;
  return ledger.periods.map((totals, i) => ({
    ...(named ? { month: months[i].name, year: months[i].year } : {}),
    ...totals,
  }));
}

function isoInstant(seconds: number): string {
  return new Date(Math.round(seconds * 1000)).toISOString();
}

/** JSON has no infinity: a limit that is not set becomes null. */
function finite<Value>(value: Value): Value {
  return JSON.parse(
    JSON.stringify(value, (_, each) => (typeof each === 'number' && !Number.isFinite(each) ? null : each)),
  );
}
