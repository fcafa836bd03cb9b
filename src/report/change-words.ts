import type { AlternativeResult, Change } from '../scenarios/study.ts';
import { fieldFacts } from './field-facts.ts';
import { asEntered } from './numbers.ts';
import { numberWord } from './words.ts';

/** How a value of the site file is called in a sentence. */
interface Phrase {
  /** "battery modules", "generator rating" */
  name: string;
  /** a name made of an owner and a title: "generator", "fuel curve" */
  of?: string;
  title?: string;
  /** put after the number: "kW", "min" */
  unit?: string;
  /** a share, written in percent */
  share?: boolean;
  /** things that are counted, not measured: "twenty-four battery modules" */
  one?: string;
}

const PHRASES: Record<string, Phrase> = {
  'battery.modules': { name: 'battery modules', one: 'battery module' },
  'battery.moduleKwh': { name: 'capacity of a battery module', unit: 'kWh' },
  'battery.cutoffSoc': { name: 'low cut-off', share: true },
  'inverter.ratedKva': { name: 'inverter rating per phase', unit: 'kVA' },
  'inverter.chargerKw': { name: 'charger per phase', unit: 'kW' },
  'generator.ratedKw': { name: 'generator rating', unit: 'kW' },
  'generator.siteDerating': { name: 'generator derating' },
  'tank.capacityL': { name: 'fuel tank', unit: 'L' },
  'tank.orderAtL': { name: 'fuel ordered at', unit: 'L' },
  'cabinet.heater': { name: 'cabinet heater' },
  'cabinet.cooler': { name: 'cabinet cooler' },
  'control.charge.startSoc': { name: 'generator started at', share: true },
  'control.charge.stopSoc': { name: 'generator stopped at', share: true },
  'control.charge.delayMin': { name: 'delay before it is started', unit: 'min' },
  'control.peak.startKw': { name: 'peak start per phase', unit: 'kW' },
  'control.peak.stopKw': { name: 'peak stop per phase', unit: 'kW' },
  'control.peak.delayS': { name: 'delay of the peak start', unit: 's' },
  'control.peak.holdMin': { name: 'delay of the peak stop', unit: 'min' },
  'control.charge': { name: 'start on a low battery' },
  'control.peak': { name: 'start on a high load' },
  'control.minRunMin': { name: 'minimum run', unit: 'min' },
  'control.restrictedHours': { name: 'restricted hours' },
  'control.peakAssist': { name: 'peak assist' },
  'control.continuous': { name: 'running always' },
  'control.hand': { name: 'start by hand' },
  'control.full': { name: 'periodic full charge' },
  'control.exercise': { name: 'exercise runs' },
  'control.shed': { name: 'shedding of load' },
  'control.lock': { name: 'lock-out of the inverters' },
  'control.calendar': { name: 'calendar of thresholds' },
  'control.chargeTargetKw': { name: 'output that charging aims at', unit: 'kW' },
  'generator.startFailures': { name: 'failing starts' },
  'generator.mustBleed': { name: 'bleeding by a person after running dry' },
  'inverter.overload': { name: 'short overloads' },
  'battery.leadAcid': { name: 'lead-acid battery' },
  'battery.display': { name: 'drift of the shown state of charge' },
  'people.attended': { name: 'attended hours' },
  'people.away': { name: 'days with nobody there' },
  'faults.generator': { name: 'days with the generator out of order' },
  'faults.bypass': { name: 'days with the inverters out of service' },
  'faults.units': { name: 'inverter units out of service' },
  secondGenerator: { name: 'second generating set' },
  batteryCabinets: { name: 'battery cabinets' },
  shiftable: { name: 'shiftable load' },
  'money.unservedPerKwh': { name: 'price of a kWh unserved' },
  'money.visitCost': { name: 'price of a call-out' },
  'money.fuelPerL': { name: 'fuel price per litre' },
  'sky.snow': { name: 'snow on the arrays' },
  'sky.horizon': { name: 'horizon' },
  'inverter.unitsPerPhase': { name: 'inverters per phase', one: 'inverter per phase' },
  battery: { name: 'battery' },
  generator: { name: 'generator' },
  tank: { name: 'fuel tank' },
  cabinet: { name: 'cabinet' },
  arrays: { name: 'arrays' },
};

/** What makes an alternative differ from the first: values of the one beside values of the other. */
export function changesAgainst(first: AlternativeResult, other: AlternativeResult): Change[] {
  const ofFirst = new Map(first.changes.map((change) => [change.path, change]));
  const ofOther = new Map(other.changes.map((change) => [change.path, change]));
  return [...new Set([...ofOther.keys(), ...ofFirst.keys()])]
    .map((path) => ({
      path,
      from: (ofFirst.get(path) ?? { to: ofOther.get(path)?.from }).to,
      to: (ofOther.get(path) ?? { to: ofFirst.get(path)?.from }).to,
    }))
    .filter(({ from, to }) => JSON.stringify(from) !== JSON.stringify(to));
}

/** One change in words: "twenty-four battery modules instead of twelve", "no cabinet heater". */
export function changeWords(change: Change): string {
  const { from, to } = change;
  const phrase = phraseOf(change.path);
  if (isNothing(to) && !isNothing(from))
    return phrase.of ? `${phrase.of}: no ${phrase.title}` : `no ${phrase.name}`;
  if (typeof to === 'boolean') return `${phrase.name} ${to ? 'on' : 'off'}`;
  if (phrase.one && typeof to === 'number')
    return `${numberWord(to)} ${to === 1 ? phrase.one : phrase.name}${typeof from === 'number' ? ` instead of ${numberWord(from)}` : ''}`;
  if (typeof to === 'object') return isNothing(from) ? `${phrase.name} added` : `${phrase.name} changed`;
  return `${phrase.name} ${valueWords(to, phrase)}${isPlain(from) ? ` instead of ${valueWords(from, phrase)}` : ''}`;
}

function phraseOf(path: string): Phrase {
  if (path in PHRASES) return PHRASES[path];
  const steps = path.split('.');
  if (isArrayRating(path)) return { name: ownerWords(steps.slice(0, -1)), unit: 'kWp' };
  const facts = fieldFacts(path);
  const owner = ownerWords(steps.slice(0, -1));
  const title = facts?.title ?? steps[steps.length - 1];
  const share = facts?.unit === '0 to 1';
  const unit = share || facts?.unit === 'money' ? '' : (facts?.unit ?? '');
  const more = { unit: unit || undefined, share };
  // "strings of the roof array: strings in parallel" would say it twice
  if (title.startsWith('strings ') && owner.startsWith('strings of '))
    return { name: title + owner.slice('strings'.length), ...more };
  return owner ? { name: `${owner}: ${title}`, of: owner, title, ...more } : { name: title, ...more };
}

/** What a value of the site file is called, and its unit ('' where it has none): "generator rating", "kW". */
export function valueName(path: string): { name: string; unit: string } {
  const { name, unit, share } = phraseOf(path);
  return { name, unit: share ? '%' : (unit ?? '') };
}

/** A value in words, with its unit: "20 kW", "30 %"; "none" for nothing. */
export function valueText(path: string, value: unknown): string {
  if (isNothing(value)) return 'none';
  return isPlain(value) ? valueWords(value, phraseOf(path)) : JSON.stringify(value);
}

/** True for the changes that a reader knows by name, such as the number of modules; the others follow from them. */
export function isMainChange({ path }: Change): boolean {
  return path in PHRASES || isArrayRating(path);
}

function isArrayRating(path: string): boolean {
  return /^arrays\..+\.kWp$/.test(path);
}

/** Lists whose items have names, and what one of them is called by its name or by its place. */
const ITEMS: Record<string, { named: string; counted: string }> = {
  arrays: { named: 'array', counted: 'array' },
  batteryCabinets: { named: 'cabinet', counted: 'battery cabinet' },
};

/** ['arrays', 'roof'] -> 'roof array'; ['arrays', 'roof', 'strings'] -> 'strings of the roof array'; ['arrays', '0'] -> 'array 1'; ['control', 'charge'] -> 'control, charge' */
function ownerWords(steps: readonly string[]): string {
  const [list, ...items] = steps;
  if (list === 'secondGenerator') return [PHRASES[list].name, ...items].join(', ');
  if (!(list in ITEMS) || items.length === 0) return steps.join(', ');
  const [group] = items.slice(-1);
  const hasGroup = items.length > 1 && fieldFacts(`${list}.0.${group}`) !== null;
  const item = (hasGroup ? items.slice(0, -1) : items).join('.');
  const isPlace = /^\d+$/.test(item);
  const owner = isPlace ? `${ITEMS[list].counted} ${Number(item) + 1}` : `${item} ${ITEMS[list].named}`;
  const part = group === 'controller' ? 'charge controller' : group;
  return hasGroup ? `${part} of ${isPlace ? '' : 'the '}${owner}` : owner;
}

function valueWords(value: unknown, phrase: Phrase): string {
  if (typeof value === 'number') {
    if (phrase.share) return `${asEntered(value * 100)} %`;
    return `${asEntered(value)}${phrase.unit ? ` ${phrase.unit}` : ''}`;
  }
  return typeof value === 'boolean' ? (value ? 'on' : 'off') : String(value);
}

function isNothing(value: unknown): boolean {
  return value === null || value === undefined || (Array.isArray(value) && value.length === 0);
}

function isPlain(value: unknown): boolean {
  return typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean';
}
