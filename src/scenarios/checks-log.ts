import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

type Logged = Pick<Site, 'log' | 'arrays' | 'battery' | 'inverter' | 'generator' | 'tank'>;

/** The columns of a log must be of things that the site has, each once. */
export function checkLog({ log, arrays, battery, inverter, generator, tank }: Logged, tell: Tell): void {
  if (log === null) return;
  const entries = Object.entries(log.columns);
  if (entries.length === 0) tell.refuse(['log', 'columns'], 'no column', 'at least one column of the log');
  const seen = new Map<string, string>();
  for (const [header, column] of entries) {
    const path = ['log', 'columns', header];
    const what = column.is === 'array' && column.name !== undefined ? `array ${column.name}` : column.is;
    const before = seen.get(what);
    if (before !== undefined)
      tell.refuse([...path, 'is'], `a second column for '${what}'`, `one; '${before}' is it already`);
    seen.set(what, header);
    if (log.timeColumns?.includes(header))
      tell.refuse(path, 'a column of date and time', 'a column of values');
    if (column.is === 'array') checkArray(column.name, path, arrays, tell);
    const phase = /^load phase (\d)$/.exec(column.is)?.[1];
    if (phase !== undefined && Number(phase) > inverter.phases)
      tell.refuse([...path, 'is'], column.is, `a phase of the site, which has ${inverter.phases}`);
    if (column.is === 'fuel level' && column.unit === '%' && tank === null)
      tell.refuse(
        [...path, 'unit'],
        '% without a tank',
        'a tank in the site file, of which it is a share; or L',
      );
    if (column.is === 'charge' && battery === null)
      tell.refuse([...path, 'is'], 'charge without a battery', 'a battery in the site file');
    if (column.is.startsWith('battery') && battery === null)
      tell.refuse([...path, 'is'], `${column.is} without a battery`, 'a battery in the site file');
    if (column.is.startsWith('generator') && generator === null)
      tell.doubt(
        [...path, 'is'],
        `${column.is} of a site without a generator`,
        'a generator in the site file',
      );
  }
  checkBattery(seen, tell);
}

function checkArray(name: string | undefined, path: string[], arrays: Site['arrays'], tell: Tell): void {
  if (arrays.length === 0)
    tell.refuse([...path, 'is'], 'array of a site without arrays', 'arrays in the site file');
  else if (name !== undefined && !arrays.some((array) => array.name === name))
    tell.refuse([...path, 'name'], `'${name}'`, `one of ${arrays.map((array) => array.name).join(', ')}`);
}

/** Power is one column, or current with the voltage (or with the bus voltage of the site file). */
function checkBattery(seen: ReadonlyMap<string, string>, tell: Tell): void {
  const current = seen.get('battery current');
  const voltage = seen.get('battery voltage');
  if (current !== undefined && seen.has('battery power'))
    tell.refuse(['log', 'columns', current, 'is'], 'battery current beside battery power', 'one of the two');
  else if (current !== undefined && voltage === undefined)
    tell.doubt(
      ['log', 'columns', current, 'is'],
      'battery current without battery voltage',
      'a column of the voltage; the bus voltage of the site file (battery.busV) is taken in its place',
    );
}
