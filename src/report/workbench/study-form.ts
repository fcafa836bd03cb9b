import { signal } from '@preact/signals';
import { RULES, type Season } from '../../scenarios/many/settings.ts';
import * as state from './state.ts';
import type { StudyAsked, StudyKind } from './study-messages.ts';
import { varyChoices } from './study-state.ts';

/** What stands in the forms of the studies, as typed, by the name of the field; it stays while the page is open. */
const typed = signal<Record<string, string>>({});

export function type(name: string, text: string): void {
  typed.value = { ...typed.value, [name]: text };
}

export function textOf(name: string, fallback = ''): string {
  return typed.value[name] ?? fallback;
}

/** Paths that one would vary first, where the site has them. */
const FIRST_VARIED = [
  'control.charge.startSoc',
  'battery.modules',
  'generator.ratedKw',
  'control.peak.startKw',
  'inverter.ratedKva',
];
export const MOST_ROWS = 4;

/** What the row of a number to vary has: a path, values and the price of one more. */
export function rowOf(i: number): { path: string; values: string; price: string } {
  const first = FIRST_VARIED.filter((path) => varyChoices.value.some((one) => one.path === path));
  const known = textOf(`path-${i}`, first[i] ?? varyChoices.value[i]?.path ?? '');
  const isThere = known === 'alternative' || varyChoices.value.some(({ path }) => path === known);
  const path = isThere ? known : (first[i] ?? '');
  return { path, values: textOf(`values-${path}`, suggestedFor(path)), price: textOf(`price-${path}`) };
}

export function rowCount(): number {
  return Math.min(MOST_ROWS, Number(textOf('rows', '2')));
}

function suggestedFor(path: string): string {
  if (path === 'alternative')
    return (state.site.value?.alternatives ?? []).map(({ name }) => JSON.stringify(name)).join(', ');
  return varyChoices.value.find((one) => one.path === path)?.values ?? '';
}

/** The alternative that a search is of; the one in hand where nothing else was chosen. */
export function chosenAlternative(): string {
  const names = (state.site.value?.alternatives ?? []).map(({ name }) => name);
  const wanted = textOf('of', state.inHandName.value);
  return names.includes(wanted) ? wanted : names[0];
}

/** What is asked, from what is typed; native checks of the fields have been passed. */
export function askedOf(kind: StudyKind): StudyAsked {
  const step = numberOf('step');
  const common = step === undefined ? {} : { stepMin: step };
  const [filed] = state.site.value?.alternatives ?? [];
  const chosen = chosenAlternative();
  const alternative = chosen === filed?.name ? undefined : chosen;
  if (kind === 'sweep') {
    const rows = Array.from({ length: rowCount() }, (_, i) => rowOf(i)).filter(({ path }) => path !== '');
    const prices = rows.filter(({ price }) => price !== '').map(({ path, price }) => `${path}=${price}`);
    const vary = rows.map(({ path, values }) => `${path}=${values}`);
    return { kind, vary, prices, sample: numberOf('sample'), unserved: numberOf('unserved'), ...common };
  }
  if (kind === 'stress') {
    const only = textOf('only');
    const one = only === '' ? {} : { only };
    return { kind, ...one, runs: numberOf('stress-runs'), seed: textOf('seed') || undefined, ...common };
  }
  const limits = limitsTyped();
  if (kind === 'tune') {
    const rules = RULES.filter((rule) => textOf(`rule-${rule}`, 'yes') === 'yes');
    const all = rules.length === RULES.length || rules.length === 0;
    return {
      ...{ kind, alternative, limits, seasons: seasonsTyped(), runs: numberOf('tune-runs') },
      ...{ rules: all ? null : rules, ...common },
    };
  }
  const sizes = {
    generatorKw: listOf('generators'),
    inverterKva: listOf('inverters'),
    modules: listOf('modules'),
    arrayKwp: listOf('arrays'),
  };
  const file = textOf('catalogue-file');
  const catalogue = file === '' ? null : { file, text: textOf('catalogue-text') };
  return { kind, alternative, limits, sizes, catalogue, ...common };
}

function limitsTyped() {
  const charge = numberOf('least-charge');
  const limits = {
    unservedKwh: numberOf('most-unserved'),
    startsADay: numberOf('most-starts'),
    runHours: numberOf('most-hours'),
    nightHours: numberOf('most-night-hours'),
    leastSoc: charge === undefined ? undefined : charge / 100,
  };
  return Object.fromEntries(Object.entries(limits).filter(([, value]) => value !== undefined));
}

/** 'winter=11,12,1,2' */
export const SEASON_PATTERN = '\\s*[^=]+=\\s*(0?[1-9]|1[0-2])(\\s*,\\s*(0?[1-9]|1[0-2]))*\\s*';

function seasonsTyped(): Season[] {
  const text = textOf('season');
  if (text.trim() === '') return [];
  const [name, months] = text.split('=');
  return [{ name: name.trim(), months: months.split(',').map(Number) }];
}

/** Numbers with commas between them. */
export const LIST_PATTERN = '\\s*\\d*\\.?\\d+(\\s*,\\s*\\d*\\.?\\d+)*\\s*';

function listOf(name: string): number[] | undefined {
  const text = textOf(name).trim();
  return text === '' ? undefined : text.split(',').map(Number);
}

function numberOf(name: string): number | undefined {
  const text = textOf(name).trim();
  return text === '' ? undefined : Number(text);
}
