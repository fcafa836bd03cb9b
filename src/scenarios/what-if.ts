import { makeColumns, type StepColumns } from '../sim/columns.ts';
import type { Inputs } from '../sim/inputs.ts';
import type { Ledger } from '../sim/ledger.ts';
import { simulate } from '../sim/simulate.ts';
import type { Alternative } from './alternatives.ts';
import { changedSite } from './apply-changes.ts';
import { batteryLifeYears } from './battery-life.ts';
import type { InputMaker } from './inputs-from-site.ts';
import { moneyOf } from './life-cycle.ts';
import type { Money } from './money.ts';
import type { Site } from './site-schema.ts';
import type { AlternativeResult } from './study.ts';

/** How much more load, and how much less sun in the months that have least: assumptions, told where they are used. */
export const LOAD_GROWTH = 0.2;
export const DULL_LOSS = 0.3;
const DULL_MONTHS = 3;
const AWAY_DAYS = 14;

/** One thing that may come otherwise, and what the same system does then. */
export interface WhatIf {
  kind: 'fuelDoubles' | 'loadGrows' | 'dullWinter' | 'away';
  ledger: Ledger;
  money: Money;
  /** of it all, the part that the question is about: steps, the last not included; null where it is about the year */
  span: { fromStep: number; toStep: number } | null;
}

/**
 * Runs an alternative again: diesel twice the price; a fifth more load at every moment; three tenths less sun in the
 * three months in which the arrays could give least; nobody there for the fourteen days around the dark week. What
 * the site cannot have (no generator, no array, a run of less than a year) is left out.
 */
export function whatIfs(alternative: Alternative, result: AlternativeResult, maker: InputMaker): WhatIf[] {
  const { site, capital } = alternative;
  const made = maker.make(site);
  if (made === null) throw new Error('no series for a site that was simulated');
  const { periodEnds } = made;
  const run = (kind: WhatIf['kind'], inputs: Inputs, span: WhatIf['span'] = null): WhatIf => {
    const columns = makeColumns(inputs.count);
    const ledger = simulate(result.plant, result.controls, inputs, { columns, periodEnds });
    return { kind, ledger, money: moneyOf(site, capital, ledger, lifeOf(site, inputs, columns)), span };
  };
  const all: WhatIf[] = [];
  if (result.plant.generator) all.push(fuelDoubles(alternative, result));
  all.push(run('loadGrows', moreLoad(result.inputs)));
  const dull = lessSun(result.inputs, periodEnds);
  if (dull) all.push(run('dullWinter', dull));
  const away = awaySpan(result);
  const absent = away && withoutPeople(site, result, maker, away);
  if (absent) all.push(run('away', absent, away));
  return all;
}

/** The money of an alternative at another fuel price, as it is run. @param times the price as filed */
export function moneyAtFuelPrice(
  { site, capital }: Alternative,
  result: AlternativeResult,
  times: number,
): Money {
  const money = { ...site.money, fuelPerL: site.money.fuelPerL * times };
  return moneyOf({ ...site, money }, capital, result.ledger, result.batteryLifeYears);
}

function fuelDoubles(alternative: Alternative, result: AlternativeResult): WhatIf {
  const money = moneyAtFuelPrice(alternative, result, 2);
  return { kind: 'fuelDoubles', ledger: result.ledger, money, span: null };
}

function lifeOf(site: Site, inputs: Inputs, columns: StepColumns): number | null {
  return batteryLifeYears(site, inputs.stepMin, columns);
}

function moreLoad(inputs: Inputs): Inputs {
  const grown = (phases: readonly Float64Array[]) =>
    phases.map((phase) => phase.map((kw) => kw * (1 + LOAD_GROWTH)));
  const { loadKw, sheddableKw } = inputs;
  return {
    ...inputs,
    loadKw: grown(loadKw),
    ...(sheddableKw ? { sheddableKw: grown(sheddableKw) } : {}),
  };
}

/** Null without an array, or where the run is shorter than a year: there is no winter to name then. */
function lessSun(inputs: Inputs, periodEnds: readonly number[]): Inputs | null {
  const { dcArrayKw, acArrayKw } = inputs;
  if (periodEnds.length < 12) return null;
  const energy = periodEnds.map((to, i) => {
    const from = i === 0 ? 0 : periodEnds[i - 1];
    return sumOf(dcArrayKw, from, to) + sumOf(acArrayKw, from, to);
  });
  if (energy.every((kwh) => kwh === 0)) return null;
  const dullest = new Set(dullestMonths(energy));
  const dulled = (series: Float64Array | undefined) => {
    const copy = series?.slice();
    for (const [i, to] of periodEnds.entries())
      if (dullest.has(i % 12))
        for (let step = i === 0 ? 0 : periodEnds[i - 1]; step < to; step++)
          if (copy) copy[step] *= 1 - DULL_LOSS;
    return copy;
  };
  return {
    ...inputs,
    ...(dcArrayKw ? { dcArrayKw: dulled(dcArrayKw) } : {}),
    ...(acArrayKw ? { acArrayKw: dulled(acArrayKw) } : {}),
  };
}

/** Places in the year (0 to 11, from the first month of the run) of the months with least sun. */
function dullestMonths(energy: readonly number[]): number[] {
  const byMonth = Array.from({ length: 12 }, (_, month) => ({
    month,
    kwh: energy.filter((_each, i) => i % 12 === month).reduce((sum, kwh) => sum + kwh, 0),
  }));
  return byMonth
    .sort((a, b) => a.kwh - b.kwh)
    .slice(0, DULL_MONTHS)
    .map(({ month }) => month);
}

/** Fourteen days with the dark week in the middle, within the run; null where it has no such week. */
function awaySpan({ darkWeek, inputs }: AlternativeResult): WhatIf['span'] {
  const perDay = 1440 / inputs.stepMin;
  if (darkWeek === null || inputs.count < AWAY_DAYS * perDay) return null;
  const wanted = darkWeek.fromStep - Math.floor((AWAY_DAYS - 7) / 2) * perDay;
  const fromStep = Math.min(Math.max(0, wanted), inputs.count - AWAY_DAYS * perDay);
  return { fromStep, toStep: fromStep + AWAY_DAYS * perDay };
}

/** The same series with nobody there in the days of a span; the days are those of the site's calendar. */
function withoutPeople(
  site: Site,
  { inputs }: AlternativeResult,
  maker: InputMaker,
  span: NonNullable<WhatIf['span']>,
): Inputs | null {
  const perDay = 1440 / inputs.stepMin;
  const dayOf = (step: number) =>
    new Date(Date.parse(`${site.period.start}T00:00Z`) + Math.floor(step / perDay) * 86_400_000)
      .toISOString()
      .slice(0, 10);
  const away = [...site.people.away, { from: dayOf(span.fromStep), to: dayOf(span.toStep) }];
  return maker.make(changedSite(site, { 'people.away': away }), false)?.inputs ?? null;
}

function sumOf(series: Float64Array | undefined, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += series?.[i] ?? 0;
  return sum;
}
