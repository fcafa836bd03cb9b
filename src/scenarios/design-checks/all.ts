import { arrayChecks } from './array-ratio.ts';
import { autonomyChecks } from './autonomy.ts';
import { batteryCurrentChecks } from './battery-current.ts';
import { breakerChecks } from './breakers.ts';
import { cabinetChecks } from './cabinet-days.ts';
import { chargerChecks } from './charger.ts';
import type { CheckedRun, DesignCheck } from './check.ts';
import { generatorDutyChecks } from './generator-duty.ts';
import { motorChecks } from './motors.ts';
import { phaseChecks } from './phases.ts';
import { startChecks } from './starts.ts';
import { stringChecks } from './strings.ts';
import { tankChecks } from './tank.ts';
import { warrantyChecks } from './warranty.ts';

/** Every design check, in the order in which they are shown: array, battery, inverters, generator, cabinet. */
const CHECKS: ((run: CheckedRun) => DesignCheck[])[] = [
  stringChecks,
  arrayChecks,
  batteryCurrentChecks,
  warrantyChecks,
  autonomyChecks,
  phaseChecks,
  motorChecks,
  breakerChecks,
  chargerChecks,
  generatorDutyChecks,
  startChecks,
  tankChecks,
  cabinetChecks,
];

/** Holds a simulated alternative against the rules of design; those about what it does not have are left out. */
export function designChecks(run: CheckedRun): DesignCheck[] {
  return CHECKS.flatMap((check) => check(run));
}
