import { type CheckedRun, type DesignCheck, judged, notKnown, type Rule } from './check.ts';
import { perYear, scaledNote, sentences, shown } from './measures.ts';

type Warranty = NonNullable<NonNullable<CheckedRun['site']['battery']>['warranty']>;

const SOURCE = 'the maker’s warranty, as the site file states it';

/** A year's use of the battery against what its warranty covers in the years that it is given for. */
export function warrantyChecks(run: CheckedRun): DesignCheck[] {
  const { battery } = run.site;
  if (run.plant.battery === null || battery === null) return [];
  if (battery.warranty === null) return [notKnown(cyclesRule, ['battery.warranty'])];
  const checks = [
    cycles(run, battery.warranty),
    throughput(run, battery.warranty, battery.modules),
    ...temperatures(run, battery.warranty),
  ];
  return checks.filter((check) => check !== null);
}

const cyclesRule: Rule = {
  key: 'warranty.cycles',
  title: 'Battery use against its warranty: cycles a year',
  rule: 'Full cycles a year stay within the cycles of the warranty shared out over its years; else it ends sooner.',
  bound: 'most',
  unit: 'cycles a year',
  source: SOURCE,
};

function endsAfter(used: number, covered: number, years: number): string {
  return used > covered ? `Used up after ${shown((covered * years) / used)} years instead of ${years}.` : '';
}

function cycles(run: CheckedRun, { cycles: covered, years }: Warranty): DesignCheck | null {
  const { battery } = run.plant;
  if (covered === undefined || battery === null) return null;
  const full = run.ledger.totals.dischargeKwh / battery.dischargeEff / battery.capacityKwh;
  const used = perYear(run, full);
  return judged(
    cyclesRule,
    used,
    { fine: covered / years },
    sentences(endsAfter(used, covered / years, years), scaledNote(run)),
  );
}

function throughput(run: CheckedRun, warranty: Warranty, modules: number): DesignCheck | null {
  const { throughputKwhPerModule, years } = warranty;
  if (throughputKwhPerModule === undefined) return null;
  const used = perYear(run, run.ledger.totals.dischargeKwh);
  const covered = (throughputKwhPerModule * modules) / years;
  return judged(
    {
      key: 'warranty.throughput',
      title: 'Battery use against its warranty: energy a year',
      rule: 'The energy discharged a year stays within that of the warranty shared out over its years; else it ends sooner.',
      bound: 'most',
      unit: 'kWh a year',
      source: SOURCE,
    },
    used,
    { fine: covered },
    sentences(endsAfter(used, covered, years), scaledNote(run)),
  );
}

function temperatures({ ledger }: CheckedRun, { lowestC, highestC }: Warranty): DesignCheck[] {
  const { coldestCellC, hottestCellC } = ledger.extremes;
  const rule = (key: string, words: string, bound: Rule['bound']): Rule => ({
    key: `warranty.${key}`,
    title: `Battery against its warranty: ${words} cells of the run`,
    rule: 'Cells stay within the temperatures of the warranty.',
    bound,
    unit: '°C',
    source: SOURCE,
  });
  const checks: DesignCheck[] = [];
  if (lowestC !== undefined)
    checks.push(
      judged(rule('cold', 'coldest', 'least'), coldestCellC, { fine: lowestC, acceptable: lowestC }),
    );
  if (highestC !== undefined)
    checks.push(
      judged(rule('hot', 'hottest', 'most'), hottestCellC, { fine: highestC, acceptable: highestC }),
    );
  return checks;
}
