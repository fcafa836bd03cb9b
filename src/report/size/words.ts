import type { Size } from '../../scenarios/many/sizes.ts';
import { asEntered } from '../numbers.ts';
import { counted, listed } from '../words.ts';

/** All sizes of a choice: "20 kW generator, 12 modules, 24 kWp, 8 kVA inverters". */
export function sizeWords(size: Size): string {
  return sizeParts(size).join(', ');
}

/** What differs from another choice: "18 modules instead of 12 modules"; "the same sizes" where nothing does. */
export function insteadWords(size: Size, from: Size): string {
  const [mine, others] = [sizeParts(size), sizeParts(from)];
  const places = mine.flatMap((part, i) => (part === others[i] ? [] : [i]));
  if (places.length === 0) return 'the same sizes';
  return `${listed(places.map((i) => mine[i]))} instead of ${listed(places.map((i) => others[i]))}`;
}

/** A part for each kind, '' left out by the site in all choices alike. */
function sizeParts({ generatorKw, modules, arrayKwp, inverterKva }: Size): string[] {
  return [
    generatorKw === null ? '' : `${asEntered(generatorKw)} kW generator`,
    modules === null ? '' : counted(asEntered(modules), 'module'),
    arrayKwp === null ? '' : `${asEntered(Number(arrayKwp.toFixed(1)))} kWp`,
    `${asEntered(inverterKva)} kVA inverters`,
  ].filter((part) => part !== '');
}

/** A choice in little room: "20 kW · 12 · 24 kWp · 8 kVA". */
export function shortSize({ generatorKw, modules, arrayKwp, inverterKva }: Size): string {
  return [
    generatorKw === null ? '' : `${asEntered(generatorKw)} kW`,
    modules === null ? '' : `${asEntered(modules)} mod.`,
    arrayKwp === null ? '' : `${asEntered(Number(arrayKwp.toFixed(1)))} kWp`,
    `${asEntered(inverterKva)} kVA`,
  ]
    .filter((part) => part !== '')
    .join(' · ');
}
