import { isFactor, type Uncertain } from '../../scenarios/many/uncertain.ts';
import { fieldFacts } from '../field-facts.ts';
import { asEntered, digits, figure } from '../numbers.ts';
import { capital } from '../words.ts';

const GROUP_NAMES: Record<string, string> = {
  load: 'all load',
  arrays: 'energy from arrays and other sources',
  'generator.fuel': 'fuel that the generator burns',
};

/** What an uncertain value is called: as the site file names it, else by its title. */
export function uncertainName({ path, name }: Pick<Uncertain, 'path' | 'name'>): string {
  if (name) return name;
  if (isFactor(path)) return GROUP_NAMES[path];
  const title = fieldFacts(path)?.title ?? path;
  const [owner] = path.split('.');
  if (/^an? /.test(title)) return `price of ${title}`;
  const isPlain = ['money', 'horizon'].includes(owner) || title.includes(owner);
  return isPlain ? title : `${owner}: ${title}`;
}

/** "$1.20/L", "5 %", "85 % of it". */
export function uncertainValue({ path }: Pick<Uncertain, 'path'>, value: number, currency: string): string {
  if (isFactor(path)) return `${asEntered(100 * value)} %`;
  const unit = fieldFacts(path)?.unit ?? '';
  if (unit === 'a year' || unit === '0 to 1') return `${asEntered(Number((100 * value).toFixed(2)))} %`;
  if (unit.startsWith('money'))
    return `${figure('money', value, value < 100 ? 2 : 0, currency)}${unit.slice(5)}`;
  const short = Math.abs(value) >= 100 ? digits(value) : asEntered(Number(value.toPrecision(3)));
  return unit === '' ? short : `${short} ${unit}`;
}

/** "Fuel price, $1.20/L to $3.20/L". */
export function uncertainRange(row: Uncertain, currency: string): string {
  const { low, high } = row;
  return `${capital(uncertainName(row))}, ${uncertainValue(row, low, currency)} to ${uncertainValue(row, high, currency)}`;
}
