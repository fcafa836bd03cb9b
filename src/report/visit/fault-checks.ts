import type { FaultKind } from '../../scenarios/visit/visit.ts';

const LICENSED = 'This is work for licensed people.';

/**
 * What to check first, by fault: what anyone can look at comes first, then what is work for licensed people, as all of
 * it is behind covers. Common practice.
 */
export const FAULT_CHECKS: Record<FaultKind, string> = {
  'dead-string': `From the ground: is a row of modules shaded, covered or damaged? Then the fuse, isolator and connectors of each string, and the current of each string against the others at the same time. An array is live whenever there is light, and a string under load must not be unplugged: the arc can kill. ${LICENSED}`,
  'phase-missing': `At the board: is the phase’s breaker or a residual-current device off, and do the inverters show an alarm or one phase less? What feeds and leaves that phase is live on both sides of an open breaker. ${LICENSED}`,
  'weak-charging': `In the settings: charging current, AC input limit and the generator’s charging target against the commissioning sheet; does the set hold its voltage and frequency on load, or do the chargers step back? Then the chargers one by one: is one of them off or missing, is the air in the cabinet so hot that they derate? Opening chargers or the generator’s board can kill. ${LICENSED}`,
  'soc-drift':
    'In the settings of the meter: capacity, charge efficiency, and the voltage and current at which it counts as full. Does anything draw from the battery that does not pass its shunt? Until it is put right, thresholds act on a charge that is not there: let the battery be charged full regularly. Work at the battery’s terminals, which cannot be switched off, is for licensed people.',
  'soc-jump':
    'In the meter’s list of events: was it restarted or set anew, or did a module leave or join the bank at that time? Then the data link between battery and inverters. Work at the battery’s terminals, which cannot be switched off, is for licensed people.',
  'heater-off': `Does the heater warm by hand or by its test? Its breaker, its thermostat and where the sensor sits; the charge below which it is blocked against the commissioning sheet. A battery below freezing must not be charged. Heaters run on mains voltage, which can kill. ${LICENSED}`,
  'cooler-off': `Are filters, fins or openings blocked, does its fan run, do the doors close? Its breaker and its switching temperatures against the commissioning sheet. Coolers run on mains voltage, which can kill. ${LICENSED}`,
  'night-load':
    'With the people at the site: what was added or changed on that day, and what is still on at night? Switch circuits off one by one at their breakers and watch the load. A pump that never stops or a heater that never switches off may be broken itself. What is behind covers is work for licensed people.',
  'fuel-loss':
    'At the tank, with no flame and no engine running: the ground below, filter, hoses, return line and drain, lock and cap; somebody may be taking fuel. Compare the level by dipstick with the gauge, and with what deliveries and runs should leave. Spilt fuel burns and poisons water: stop it first. A gauge can be wrong too; its wiring is work for licensed people.',
};
