/** What keeps array energy from the site, in the order in which it acts. */
export const ARRAY_LOSSES = [
  'horizon',
  'snow',
  'belowWindow',
  'aboveWindow',
  'inputCurrent',
  'inputPower',
  'output',
] as const;

export type ArrayLoss = (typeof ARRAY_LOSSES)[number];

/**
 * Energy of an array or other source by month, all as it would arrive behind its converter [kWh]:
 * what is offered and all losses together are what open sky, no snow and no limits would give.
 */
export interface ArrayYield {
  name: string;
  kind: 'array' | 'source';
  coupling: 'dc' | 'ac';
  /** by the periods of the run */
  offeredKwh: number[];
  lostKwh: Record<ArrayLoss, number[]>;
}

export function newYield(
  { name, coupling }: Pick<ArrayYield, 'name' | 'coupling'>,
  kind: ArrayYield['kind'],
  periods: number,
): ArrayYield {
  const none = () => new Array<number>(periods).fill(0);
  const lostKwh = Object.fromEntries(ARRAY_LOSSES.map((loss) => [loss, none()])) as ArrayYield['lostKwh'];
  return { name, kind, coupling, offeredKwh: none(), lostKwh };
}

/** Energy that one cause keeps from the site, of all arrays together [kWh]. */
export function lostKwh(yields: readonly ArrayYield[], loss: ArrayLoss): number {
  return sumOf(yields.map((one) => sumOf(one.lostKwh[loss])));
}

export function sumOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum;
}
