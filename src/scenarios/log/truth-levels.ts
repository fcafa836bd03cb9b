import type { StepColumns } from '../../sim/columns.ts';
import { fuelRateLPerH, fuelStretches } from '../../sim/fuel.ts';
import type { Inputs } from '../../sim/inputs.ts';
import type { Plant } from '../../sim/plant.ts';

/** Stretches of a run, one after the other. */
type Stretches = readonly { plant: Plant; inputs: Inputs; columns: StepColumns }[];

/** State of charge as its meter shows it: RULES.md, end of the step. */
export function shownSoc(stretches: Stretches): Float64Array {
  const shown: number[] = [];
  let error = 0;
  for (const { plant, inputs, columns } of stretches) {
    const display = plant.battery?.display;
    for (const soc of columns.socFrac) {
      if (display) {
        const grown = error + (display.driftPerH * inputs.stepMin) / 60;
        error = soc >= display.resetSoc ? 0 : Math.min(display.mostFrac, Math.max(-display.mostFrac, grown));
      } else error = 0;
      shown.push(Math.min(1, Math.max(0, soc + error)));
    }
  }
  return Float64Array.from(shown);
}

/**
 * Fuel in the tank at the end of each step: what the engine burns in the steps in which it runs, taken as whole ones,
 * and deliveries by the same rules as in the engine.
 */
export function fuelLevels(stretches: Stretches): Float64Array {
  const levels: number[] = [];
  let level = stretches[0].plant.tank?.initialL ?? 0;
  let waitH: number | null = null;
  for (const { plant, inputs, columns } of stretches) {
    const { tank, generator } = plant;
    if (!tank || !generator) throw new Error('no level without a tank and a generator');
    const { breaks, lines } = fuelStretches(generator.fuelKw, generator.fuelLPerH);
    const refills = new Set(inputs.refillSteps ?? []);
    const hours = inputs.stepMin / 60;
    for (const [i, kw] of columns.generatorKw.entries()) {
      if (refills.has(i)) level = tank.capacityL;
      if (waitH !== null && waitH <= 0) {
        level = tank.capacityL;
        waitH = null;
      }
      if (columns.cause[i] > 0) level -= fuelRateLPerH(kw, ...breaks, ...lines) * hours;
      level = Math.max(level, 0);
      if (waitH !== null) waitH -= hours;
      else if (tank.orderAtL >= 0 && level <= tank.orderAtL) waitH = tank.leadH;
      levels.push(level);
    }
  }
  return Float64Array.from(levels);
}
