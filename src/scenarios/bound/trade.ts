/**
 * What a stretch of time can put into the battery against what its generator burns: a rising curve that bends
 * down. Its first point has the least fuel; stretches follow, the best kWh a litre first.
 */
export interface Trade {
  /** fuel that is burnt whatever happens [L], what is stored with it [kWh, negative: drawn], generated with it [kWh] */
  leastL: number;
  storedKwh: number;
  generatedKwh: number;
  stretches: Stretch[];
}

/** More fuel, up to so much, and what each litre of it stores and generates. */
interface Stretch {
  litres: number;
  storedPerL: number;
  generatedPerL: number;
}

/** A way of running: litres, stored and generated in the same time (or per hour). */
export interface Mode {
  fuelL: number;
  storedKwh: number;
  generatedKwh: number;
}

/**
 * The trade open to somebody who may divide the time among modes: the upper hull of their points.
 * @param modes one or more
 */
export function tradeAmong(modes: readonly Mode[]): Trade {
  const sorted = [...modes].sort((a, b) => a.fuelL - b.fuelL || b.storedKwh - a.storedKwh);
  const hull: Mode[] = [];
  for (const mode of sorted) {
    if (hull.length > 0 && mode.storedKwh <= hull[hull.length - 1].storedKwh) continue;
    while (hull.length > 1 && !bendsDown(hull[hull.length - 2], hull[hull.length - 1], mode)) hull.pop();
    hull.push(mode);
  }
  const [{ fuelL, storedKwh, generatedKwh }] = hull;
  const stretches = hull.slice(1).map((mode, i) => {
    const litres = mode.fuelL - hull[i].fuelL;
    return {
      litres,
      storedPerL: (mode.storedKwh - hull[i].storedKwh) / litres,
      generatedPerL: (mode.generatedKwh - hull[i].generatedKwh) / litres,
    };
  });
  return { leastL: fuelL, storedKwh, generatedKwh, stretches };
}

/** Whether the middle point is above the line between its neighbours. */
function bendsDown(a: Mode, b: Mode, c: Mode): boolean {
  return (
    (b.storedKwh - a.storedKwh) * (c.fuelL - a.fuelL) > (c.storedKwh - a.storedKwh) * (b.fuelL - a.fuelL)
  );
}

/**
 * Several stretches of time, each with a trade of its own, as one: fuel goes where it stores most.
 * Where that makes many stretches, lines of some are carried on in place of those between them: the result is
 * nowhere below the exact curve, and at no and at all fuel on it.
 */
export function sumOfTrades(trades: readonly Trade[]): Trade {
  if (trades.length === 1) return trades[0];
  const sum: Trade = { leastL: 0, storedKwh: 0, generatedKwh: 0, stretches: [] };
  for (const trade of trades) {
    sum.leastL += trade.leastL;
    sum.storedKwh += trade.storedKwh;
    sum.generatedKwh += trade.generatedKwh;
    for (const stretch of trade.stretches) sum.stretches.push({ ...stretch });
  }
  sum.stretches.sort((a, b) => b.storedPerL - a.storedPerL);
  while (sum.stretches.length > MOST_STRETCHES) leaveOutOne(sum.stretches);
  return sum;
}

const MOST_STRETCHES = 6;

/** Leaves out the inner stretch whose neighbours' lines meet least above it. */
function leaveOutOne(stretches: Stretch[]): void {
  let least = Number.POSITIVE_INFINITY;
  let at = 1;
  for (let j = 1; j < stretches.length - 1; j++) {
    const lift = lengthenedL(stretches, j) * (stretches[j - 1].storedPerL - stretches[j].storedPerL);
    if (lift < least) {
      least = lift;
      at = j;
    }
  }
  const lengthened = lengthenedL(stretches, at);
  const { litres, generatedPerL } = stretches[at];
  lengthen(stretches[at - 1], lengthened, generatedPerL);
  lengthen(stretches[at + 1], litres - lengthened, generatedPerL);
  stretches.splice(at, 1);
}

/** How much of a stretch goes to the one before it when both neighbours' lines are carried on until they meet [L]. */
function lengthenedL(stretches: readonly Stretch[], j: number): number {
  const [before, { litres, storedPerL }, after] = [stretches[j - 1], stretches[j], stretches[j + 1]];
  const fall = before.storedPerL - after.storedPerL;
  return fall > 0 ? (litres * (storedPerL - after.storedPerL)) / fall : litres;
}

function lengthen(stretch: Stretch, byL: number, generatedPerL: number): void {
  const litres = stretch.litres + byL;
  stretch.generatedPerL = (stretch.generatedPerL * stretch.litres + generatedPerL * byL) / litres;
  stretch.litres = litres;
}
