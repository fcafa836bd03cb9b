import { siteRating } from './plant-from-site.ts';
import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

export function checkCabinet({ cabinet, weather }: Pick<Site, 'cabinet' | 'weather'>, tell: Tell): void {
  if (!cabinet) return;
  if (!weather) tell.refuse(['cabinet'], 'a cabinet', 'a weather file with the air temperature');
  const { heater, cooler } = cabinet;
  if (heater && heater.onC >= heater.offC)
    tell.refuse(['cabinet', 'heater', 'onC'], `${heater.onC} °C`, `below offC, ${heater.offC} °C`);
  if (cooler && cooler.onC <= cooler.offC)
    tell.refuse(['cabinet', 'cooler', 'onC'], `${cooler.onC} °C`, `above offC, ${cooler.offC} °C`);
  if (heater && cooler && heater.offC >= cooler.offC)
    tell.refuse(
      ['cabinet', 'heater', 'offC'],
      `${heater.offC} °C`,
      `below the cooler's offC, ${cooler.offC} °C`,
    );
}

/** A fuel curve that ends this far from the rating was meant for another generator. */
const CURVE_END_FRAC = 0.1;

export function checkGenerator({ generator }: Pick<Site, 'generator'>, tell: Tell): void {
  if (!generator) return;
  const { fuel, ratedKw, siteDerating } = generator;
  const onSite = siteRating(siteDerating);
  if (siteDerating !== null && onSite < 1)
    tell.doubt(
      ['generator', 'siteDerating'],
      `${ratedKw} kW that are ${(ratedKw * onSite).toFixed(1)} kW on site by ISO 3046-1`,
      "the maker's own figure for this altitude and heat; the runs use the lower one",
    );
  let rises = true;
  const mustRise = (i: number, key: 'kW' | 'lPerH', unit: string) => {
    const [before, now] = [fuel[i - 1][key], fuel[i][key]];
    if (now > before) return;
    rises = false;
    const want = `more than the point before, ${before} ${unit}`;
    tell.refuse(['generator', 'fuel', i, key], `${now} ${unit}`, want);
  };
  for (let i = 1; i < fuel.length; i++) {
    mustRise(i, 'kW', 'kW');
    mustRise(i, 'lPerH', 'L/h');
  }
  if (!rises) return;
  const full = fuel[fuel.length - 1];
  const perKwh = full.lPerH / full.kW;
  if (perKwh < 0.2 || perKwh > 0.6)
    tell.doubt(
      ['generator', 'fuel'],
      `${perKwh.toFixed(2)} L/kWh at the highest point`,
      '0.25 to 0.45, common practice',
    );
  if (Math.abs(full.kW / ratedKw - 1) > CURVE_END_FRAC)
    tell.doubt(
      ['generator', 'fuel'],
      `a fuel curve up to ${full.kW} kW`,
      `one up to the rating, ${ratedKw} kW; its last stretch is carried on, or cut`,
    );
}

export function checkTank({ generator, tank }: Pick<Site, 'generator' | 'tank'>, tell: Tell): void {
  if (!tank) return;
  if (!generator) tell.refuse(['tank'], 'a tank', 'a generator');
  const { capacityL, initialL, reserveL, orderAtL, fillDates } = tank;
  if (initialL > capacityL) tell.refuse(['tank', 'initialL'], `${initialL} L`, `at most ${capacityL} L`);
  if (reserveL >= capacityL) tell.refuse(['tank', 'reserveL'], `${reserveL} L`, `less than ${capacityL} L`);
  else if (initialL <= reserveL)
    tell.doubt(['tank', 'initialL'], `${initialL} L`, `above the unusable reserve, ${reserveL} L`);
  if (orderAtL !== null && orderAtL >= capacityL)
    tell.refuse(['tank', 'orderAtL'], `${orderAtL} L`, `less than ${capacityL} L`);
  else if (orderAtL !== null && orderAtL <= reserveL)
    tell.doubt(['tank', 'orderAtL'], `${orderAtL} L`, `above the unusable reserve, ${reserveL} L`);
  if (orderAtL === null && fillDates.length === 0)
    tell.doubt(['tank'], 'a tank that nobody fills', 'orderAtL, or fillDates');
}
