import type { Band } from '../../scenarios/many/percentile.ts';
import {
  type StressAlternative,
  type StressStudy,
  type StressSummary,
  type StressTerms,
  summaryOf,
  worstYear,
} from '../../scenarios/many/stress-result.ts';
import { alone, asEntered, digits, duration, figure } from '../numbers.ts';
import { capital, counted, listed, OUTAGE_REASONS, quoted } from '../words.ts';
import { shareText } from './figures.ts';

/** What an owner should know of an alternative under stress; for the further ones also against the first. */
export function stressSentences(study: StressStudy, one: StressAlternative): string[] {
  const { currency } = study.site;
  const summary = summaryOf(one);
  const [first] = study.alternatives;
  return [
    ...supply(summary),
    ...(one.has.generator ? [burnt(summary.year.fuelL, one)] : []),
    ...(one.runs.some(({ lifeCycleCost }) => lifeCycleCost !== 0) ? [cost(summary, one, currency)] : []),
    ...(one === first ? [] : against(first, one, currency)),
    worst(one),
  ].map((sentence) => `${capital(sentence)}.`);
}

function supply({ years, yearsWithoutUnserved, runsWithoutUnserved, year, causes }: StressSummary): string[] {
  if (yearsWithoutUnserved === years) return [`in none of ${digits(years)} years does any load go unserved`];
  const share = `${digits(yearsWithoutUnserved)} of ${digits(years)} years (${shareText(yearsWithoutUnserved, years)}) pass without any load unserved`;
  const most = `the worst leaves ${alone('kwh', year.unservedKwh.most)}`;
  const [main] = causes;
  const why =
    main.frac > 0.995
      ? `all of it because ${OUTAGE_REASONS[main.cause]}`
      : `${digits(100 * main.frac)} % of all that goes unserved because ${OUTAGE_REASONS[main.cause]}`;
  return [`${share}, ${counted(digits(runsWithoutUnserved), 'run')} as a whole; ${most}, ${why}`];
}

function burnt({ p10, p50, p90, most }: Band, { plain }: StressAlternative): string {
  const litres = (value: number) => figure('litres', value, 0);
  return `it burns ${litres(p50)} in a middling year, more than ${litres(p90)} in one year of ten, less than ${litres(p10)} in one of ten, and at most ${litres(most)}; with nothing drawn it is ${litres(plain.fuelL)} a year`;
}

function cost({ lifeCycleCost }: StressSummary, { plain }: StressAlternative, currency: string): string {
  const money = (value: number) => figure('money', value, 0, currency);
  const { p10, p50, p90 } = lifeCycleCost;
  return `the life-cycle cost is ${money(p50)} in a middling run, with eight of ten runs between ${money(p10)} and ${money(p90)}; with nothing drawn it is ${money(plain.lifeCycleCost)}`;
}

/** Both meet the same years, so that run is compared with run. */
function against(first: StressAlternative, other: StressAlternative, currency: string): string[] {
  const count = Math.min(first.runs.length, other.runs.length);
  const saved = Array.from(
    { length: count },
    (_, i) => first.runs[i].lifeCycleCost - other.runs[i].lifeCycleCost,
  );
  if (saved.every((value) => value === 0)) return [];
  const cheaper = saved.filter((value) => value > 0).length;
  const [least, most] = [Math.min(...saved), Math.max(...saved)];
  const words = (value: number) =>
    `${figure('money', Math.abs(value), 0, currency)} ${value < 0 ? 'more' : 'less'}`;
  const range = count > 1 ? `, from ${words(least)} to ${words(most)}` : '';
  return [
    `it costs less than ${quoted(first.name)} in ${digits(cheaper)} of ${counted(digits(count), 'run')}${range}`,
  ];
}

function worst(one: StressAlternative): string {
  const { run, year } = worstYear(one);
  const of = one.runs[run - 1];
  const found = of.years[year - 1];
  const parts = [
    one.has.generator ? figure('litres', found.fuelL, 0) : '',
    found.unservedKwh > 0
      ? `${alone('kwh', found.unservedKwh)} unserved in ${duration(found.unservedH)}`
      : 'nothing unserved',
  ].filter((part) => part !== '');
  return `the worst year is year ${year} of run ${run}, with ${listed(parts)} (${circumstances(of, found)})`;
}

function circumstances(
  { loadFactor, fuelPriceFactor }: StressAlternative['runs'][number],
  { capacityFrac, draw }: StressAlternative['runs'][number]['years'][number],
): string {
  return listed([
    `load times ${digits(loadFactor, 2)}`,
    ...(fuelPriceFactor === 1 ? [] : [`fuel price times ${digits(fuelPriceFactor, 2)}`]),
    ...(capacityFrac === null ? [] : [`a battery at ${digits(100 * capacityFrac)} % of its capacity`]),
    `weather year ${draw.weather + 1}`,
    ...(draw.late ? ['a delivery late or missed'] : []),
  ]);
}

/** What the runs were drawn from, in sentences. */
export function termSentences(terms: StressTerms): string[] {
  const { runs, years, seed, weather, load, fuelPrice, loadGrowth } = terms;
  const { startFailureChance, lateDelivery } = terms;
  const range = ([low, high]: readonly [number, number]) =>
    low === high
      ? `times ${asEntered(low)}`
      : `times ${asEntered(low)} to ${asEntered(high)}, drawn evenly for each run`;
  const weathers = {
    made: `each year one of ${weather.count} made from the monthly means of the weather as filed (mean daily sun, lowest and highest temperature; their means are met over all of them), drawn with putting back; wind, snow and rain stay as filed`,
    listed: `each year one of the ${weather.count} listed in the site file, drawn with putting back`,
    repeat: 'the same year again and again',
  };
  const percent = (share: number) => `${asEntered(100 * share)} %`;
  return [
    `${counted(String(runs), 'run')} of ${counted(String(years), 'year')} each, seed ‘${seed}’: the same seed gives the same figures.`,
    `Weather: ${weathers[weather.kind]}.`,
    `Load: ${range(load)}${loadGrowth === 0 ? '' : `, and ${percent(loadGrowth)} more each year`}.`,
    ...(fuelPrice[0] === 1 && fuelPrice[1] === 1 ? [] : [`Fuel price: ${range(fuelPrice)}.`]),
    ...(startFailureChance === null ? [] : [`Start attempts that fail: ${percent(startFailureChance)}.`]),
    ...(lateDelivery === null
      ? []
      : [
          `Fuel: in ${percent(lateDelivery.chance)} of the years deliveries on order come ${asEntered(lateDelivery.days)} days late${lateDelivery.fixed ? ', and one of the fixed deliveries is missed' : ''}.`,
        ]),
  ];
}
