import { checkCharge, checkControl, checkRules } from './checks-control.ts';
import { checkFiles, checkMonthlyWeather, checkPlace } from './checks-data.ts';
import { checkDesign, checkMachines, checkStrings } from './checks-design.ts';
import { checkHorizon, checkResistance } from './checks-horizon.ts';
import { checkLeadAcid } from './checks-lead-acid.ts';
import { checkLog } from './checks-log.ts';
import { checkChosenLoads, checkFaults, checkHand, checkSpans, checkSpansInPeriod } from './checks-people.ts';
import { checkArrays, checkBattery, checkEfficiency, checkInverter } from './checks-power.ts';
import { checkBatteryCabinets, checkCalendar, checkSets } from './checks-sets.ts';
import { checkCabinet, checkGenerator, checkTank } from './checks-shelter.ts';
import { checkConverterInput, checkSky, checkSources } from './checks-sky.ts';
import type { Issue } from './issue.ts';
import type { Path, SiteDocument } from './site-document.ts';
import type { SiteParts } from './site-file.ts';
import type { Site } from './site-schema.ts';

/** How a check tells what it found: at which path, what is there, and what would be right. */
export interface Tell {
  refuse(path: Path, got: string, want: string): void;
  doubt(path: Path, got: string, want: string): void;
}

/** A check across values, and the groups that it looks at. */
type Check = [needs: (keyof Site)[], run: (site: Site, tell: Tell) => void];

const CHECKS: Check[] = [
  [['site', 'period', 'tank'], checkPlace],
  [['battery'], checkBattery],
  [['battery'], checkLeadAcid],
  [['control'], checkControl],
  [['control', 'generator'], checkRules],
  [['control', 'battery'], checkCharge],
  [['cabinet', 'weather'], checkCabinet],
  [['generator'], checkGenerator],
  [['generator', 'tank'], checkTank],
  [['arrays', 'battery', 'inverter', 'weather'], checkArrays],
  [['load', 'appliances', 'inverter', 'weather'], checkFiles],
  [['weather', 'site'], checkMonthlyWeather],
  [['inverter', 'battery'], checkInverter],
  [['people', 'faults'], checkSpans],
  [['people', 'faults', 'period'], checkSpansInPeriod],
  [['faults', 'inverter', 'generator'], checkFaults],
  [['control', 'battery', 'generator'], checkHand],
  [['control', 'load', 'appliances', 'shiftable', 'inverter', 'battery'], checkChosenLoads],
  [['control'], checkCalendar],
  [['generator', 'secondGenerator', 'inverter'], checkSets],
  [['batteryCabinets', 'battery', 'weather'], checkBatteryCabinets],
  [['inverter'], checkEfficiency],
  [['sky', 'period', 'arrays'], checkSky],
  [['arrays'], checkConverterInput],
  [['sources', 'arrays', 'battery', 'inverter'], checkSources],
  [['arrays'], checkStrings],
  [['motors', 'breakers', 'inverter'], checkMachines],
  [['design'], checkDesign],
  [['horizon', 'weather'], checkHorizon],
  [['battery', 'money'], checkResistance],
  [['log', 'arrays', 'battery', 'inverter', 'generator', 'tank'], checkLog],
];

/**
 * Checks across values that a schema of single values cannot make.
 * @param parts the groups of a site that pass the schema; checks that look at another are left out
 */
export function checkSite(parts: SiteParts, document: SiteDocument): Issue[] {
  const issues: Issue[] = [];
  const teller = (severity: Issue['severity'], code: string) => (path: Path, got: string, want: string) => {
    issues.push({ severity, code, path: path.join('.'), got, want, at: document.placeOf(path) });
  };
  const tell: Tell = { refuse: teller('error', 'contradiction'), doubt: teller('doubt', 'doubt') };
  for (const [needs, run] of CHECKS)
    if (needs.every((group) => parts[group] !== undefined)) run(parts as Site, tell);
  return issues;
}
