import type { SizeResult } from '../../scenarios/many/size-result.ts';
import { type Html, html } from '../html.ts';
import { asEntered, digits } from '../numbers.ts';
import { listed } from '../words.ts';

/** Prices by the site file's keys, in words. */
const FROM_SITE: Record<string, string> = {
  perModule: 'battery modules',
  perKwp: 'arrays',
  perInverterKva: 'inverters',
  perGeneratorKw: 'generators',
};

/** What the sizes were priced by. */
export function priceList({ prices, lists, site }: SizeResult): Html {
  const { catalogue, file, fromSite } = prices;
  const { generators, inverters, battery, array } = catalogue;
  const shown = (items: readonly string[]) => items.join('; ');
  const money = (value: number) => digits(value);
  return html`<h3>Prices, in ${catalogue.currency}</h3>
<p>From ${file}${catalogue.invented ? ', whose prices are invented: put real offers in their place' : ''}. A size between two is priced on the line through them. What the site has now is priced in the same way, and only the difference is added to the capital in the site file.${catalogue.currency === site.currency ? '' : ` The site counts in ${site.currency}.`}</p>
<ul>
<li>Generators: ${shown(generators.filter(({ ratedKw }) => lists.generatorKw.includes(ratedKw)).map(({ ratedKw, phases, price }) => `${asEntered(ratedKw)} kW, ${phases === 1 ? 'one phase' : 'three phases'}, ${money(price)}`))}.</li>
<li>Inverters, a unit: ${shown(inverters.filter(({ ratedKva }) => lists.inverterKva.includes(ratedKva)).map(({ ratedKva, price }) => `${asEntered(ratedKva)} kVA, ${money(price)}`))}.</li>
<li>Battery: ${money(battery.perKwh)} a kWh. Arrays: ${money(array.perKwp)} a kWp.</li>
${fromSite.length > 0 ? html`<li>The site file has prices of its own for ${listed(fromSite.map((key) => FROM_SITE[key] ?? key))}.</li>` : null}
</ul>`;
}
