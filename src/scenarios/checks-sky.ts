import type { Tell } from './site-checks.ts';
import type { Site } from './site-schema.ts';

/** Falls of snow must be in the period, and points of a horizon apart. */
export function checkSky({ sky, period, arrays }: Pick<Site, 'sky' | 'period' | 'arrays'>, tell: Tell): void {
  const { snow } = sky;
  if (snow && snow.allSnowC >= snow.allRainC)
    tell.refuse(['sky', 'snow', 'allSnowC'], `${snow.allSnowC} °C`, `below allRainC, ${snow.allRainC} °C`);
  const dayOf = (date: string) => Date.parse(`${date}T00:00Z`) / 86_400_000;
  const first = dayOf(period.start);
  for (const [i, { date }] of (snow?.falls ?? []).entries())
    if (dayOf(date) < first || dayOf(date) >= first + period.days)
      tell.doubt(
        ['sky', 'snow', 'falls', i, 'date'],
        date,
        `a day of the period, ${period.days} days from ${period.start}; this fall is left out`,
      );
  checkHorizon(['sky', 'horizon'], sky.horizon, tell);
  for (const [i, { horizon }] of arrays.entries())
    checkHorizon(['arrays', i, 'horizon'], horizon ?? [], tell);
}

function checkHorizon(path: (string | number)[], points: Site['sky']['horizon'], tell: Tell): void {
  const seen = new Set<number>();
  for (const [i, { azimuthDeg }] of points.entries()) {
    if (seen.has(azimuthDeg % 360))
      tell.refuse([...path, i, 'azimuthDeg'], `a second point at ${azimuthDeg}°`, 'one point in a direction');
    seen.add(azimuthDeg % 360);
  }
}

/** What the input of a converter says must fit together. */
export function checkConverterInput({ arrays }: Pick<Site, 'arrays'>, tell: Tell): void {
  for (const [i, { strings, controller }] of arrays.entries()) {
    if (!controller) continue;
    const path = ['arrays', i, 'controller'];
    const { minV, maxV, trackMaxV } = controller;
    const top = trackMaxV ?? maxV;
    if (minV >= top) tell.refuse([...path, 'minV'], `${minV} V`, `below the highest, ${top} V`);
    if (top > maxV) tell.refuse([...path, 'trackMaxV'], `${top} V`, `at most maxV, ${maxV} V`);
    if (!strings)
      tell.doubt(
        path,
        'limits of voltage and current without strings',
        'strings, from which voltage and current follow; only ratedKw acts without them',
      );
  }
}

type Supply = Pick<Site, 'sources' | 'arrays' | 'battery' | 'inverter'>;

/** Another source must have a name of its own and a side that is there. */
export function checkSources({ sources, arrays, battery, inverter }: Supply, tell: Tell): void {
  const names = new Set(arrays.map(({ name }) => name));
  for (const [i, { name, coupling, phase, columns }] of sources.entries()) {
    if (names.has(name)) tell.refuse(['sources', i, 'name'], `a second '${name}'`, 'names of their own');
    names.add(name);
    if (coupling === 'dc' && !battery) tell.refuse(['sources', i, 'coupling'], 'dc', 'a battery, or ac');
    if (phase !== 'all' && (coupling === 'dc' || phase > inverter.phases))
      tell.refuse(
        ['sources', i, 'phase'],
        `phase ${phase}`,
        coupling === 'dc' ? "'all', for a DC-coupled source" : `a phase of ${inverter.phases}, or 'all'`,
      );
    if (columns && columns.length === 0)
      tell.refuse(['sources', i, 'columns'], 'no column', 'a column of the file');
  }
  const fedBy = (parts: readonly { coupling: string; phase: unknown }[]) =>
    new Set(parts.filter(({ coupling }) => coupling === 'ac').map(({ phase }) => phase)).size;
  if (fedBy(arrays) < 2 && fedBy([...arrays, ...sources]) > 1)
    tell.doubt(
      ['sources'],
      'AC-coupled sources and arrays on different phases',
      'the same phase for all; each phase gets its share of the energy of the whole period, at every hour',
    );
}
