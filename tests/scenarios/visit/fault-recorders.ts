/** Recorders drawn at random, and tanks that swell in the heat. */
import { type RecorderTraits, recordTruth, USUAL_RECORDER } from '../../../src/scenarios/log/recorder.ts';
import { RECORDED, type Recorded, type SiteRecord } from '../../../src/scenarios/log/site-record.ts';
import type { Truth } from '../../../src/scenarios/log/truth.ts';
import type { SiteName, World } from './fault-worlds.ts';

/** Evenly from 0 to 1. */
export type Draw = () => number;

export function pick<T>(draw: Draw, from: readonly T[]): T {
  return from[Math.floor(draw() * from.length)];
}

function traitsOf(
  draw: Draw,
  name: SiteName,
  seed: string,
  needs: readonly Recorded[] | 'all',
  stepMin: number,
): RecorderTraits {
  const small = name === 'hut';
  const columns =
    needs === 'all' ? RECORDED : RECORDED.filter((column) => needs.includes(column) || draw() > 0.15);
  return {
    ...USUAL_RECORDER,
    ...{ seed, columns, stepMin },
    arraysAlone: needs !== 'all' || draw() > 0.15,
    noiseFrac: 0.004 + 0.016 * draw(),
    noiseK: 0.1 + 0.3 * draw(),
    noiseL: (small ? 0.2 : 1) * (0.3 + draw()),
    quantum: {
      ...{ socFrac: pick(draw, [0.001, 0.01]), kw: pick(draw, small ? [0.001, 0.005] : [0.001, 0.01, 0.02]) },
      ...{ c: pick(draw, [0.1, 0.5]), l: small ? 0.1 : pick(draw, [0.1, 1]), wPerM2: 1 },
    },
    gapsADay: 0.15 * draw(),
    longestGapH: 4 + 16 * draw(),
  };
}

/** Fuel that swells and shrinks with the temperature of a tank that follows the outside with half a day's delay. */
function swollen(truth: Truth, draw: Draw): Truth {
  const { fuelL, outsideC, axis } = truth;
  if (!fuelL || !outsideC) return truth;
  const share = 0.3 + 0.7 * draw();
  const delaySteps = ((6 + 12 * draw()) * 60) / axis.stepMin;
  let tankC = outsideC[0];
  return {
    ...truth,
    fuelL: fuelL.map((litres, i) => {
      tankC += (outsideC[i] - tankC) / delaySteps;
      return litres * (1 + 0.00083 * share * (tankC - 15));
    }),
  };
}

/** The log of a site by a recorder drawn at random. @param needs columns that it has at the least; 'all': all that there are */
export function logOf(
  of: World,
  truth: Truth,
  draw: Draw,
  seed: string,
  needs: readonly Recorded[] | 'all',
): SiteRecord {
  return recordTruth(
    swollen(truth, draw),
    traitsOf(draw, of.name, seed, needs, of.stepMin === 5 && seed.includes('weak') ? 5 : 15),
  );
}
