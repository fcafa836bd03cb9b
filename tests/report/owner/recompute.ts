/** Every figure of the owner's report worked out anew from site and run, by the key that stands beside it on the page. */
import type { OwnerSource } from '../../../src/report/owner/source.ts';
import type { Money } from '../../../src/scenarios/money.ts';
import type { AlternativeResult } from '../../../src/scenarios/study.ts';
import type { StartCause } from '../../../src/sim/causes.ts';
import type { Ledger } from '../../../src/sim/ledger.ts';

const sum = (values: Iterable<number>) => [...values].reduce((total, value) => total + value, 0);
const yearsOf = (ledger: Ledger) => (ledger.count * ledger.stepMin) / (60 * 24 * 365);

/** @param spans steps of the day and the weeks shown, by their key, from the dates on the page */
export function recompute(key: string, source: OwnerSource, spans: Record<string, [number, number]>): number {
  const result = source.study.alternatives[source.proposed];
  const [group, ...rest] = key.split('.');
  if (group === 'choice') {
    const other = source.study.alternatives[Number(rest[0])];
    if (rest[1] === 'difference') return Math.abs(other.money.lifeCycleCost - result.money.lifeCycleCost);
    return choice(rest[1], other.ledger, other.money);
  }
  if (group === 'case') {
    const run = rest[0] === 'asPlanned' ? result : source.whatIfs.find(({ kind }) => kind === rest[0])!;
    return choice(rest[1], run.ledger, run.money);
  }
  if (group in spans) return inSpan(rest[0], result, spans[group]);
  if (group === 'whatIf') return whatIf(rest[0], source);
  if (group === 'array') return source.alternatives[source.proposed].site.arrays[Number(rest[0])].kWp;
  if (group === 'starts' && rest.length > 0)
    return result.ledger.totals.startsByCause[rest[0] as StartCause] / yearsOf(result.ledger);
  if (group === 'batteryYear') return result.money.batteryReplacedInYears[Number(rest[0])];
  if (group === 'overhaulYear') return result.money.overhaulsInYears[Number(rest[0])];
  const plain = plainFigures(source, result);
  if (!(key in plain)) throw new Error(`a figure that no test knows: ${key}`);
  return plain[key]();
}

function choice(name: string, ledger: Ledger, money: Money): number {
  const per = yearsOf(ledger);
  if (name === 'runH') return ledger.totals.runH / per;
  if (name === 'fuelL') return ledger.totals.fuelL / per;
  if (name === 'interruptions') return ledger.outages.length / per;
  if (name === 'running') return running(money);
  if (name === 'capital') return money.cashFlow[0].capital;
  if (name === 'lifeCycleCost') return sum(money.cashFlow.map(({ presentValue }) => presentValue));
  throw new Error(`a figure that no test knows: ${name}`);
}

function running({ fuelFirstYear, serviceFirstYear, unservedFirstYear, visitsFirstYear }: Money): number {
  return fuelFirstYear + serviceFirstYear + unservedFirstYear + visitsFirstYear;
}

function inSpan(name: string, result: AlternativeResult, [from, to]: [number, number]): number {
  const { inputs, columns, ledger } = result;
  const stepH = inputs.stepMin / 60;
  const kwh = (series?: Float64Array) => sum(series?.subarray(from, to) ?? []) * stepH;
  const overlaps = ledger.runs
    .map(({ startH, endH }) => Math.min(endH, to * stepH) - Math.max(startH, from * stepH))
    .filter((hours) => hours > 0);
  const figures: Record<string, () => number> = {
    loadKwh: () => sum(inputs.loadKw.map(kwh)),
    arrayUsedKwh: () => kwh(columns.dcUsedKw) + kwh(columns.acUsedKw),
    arrayOfferedKwh: () => kwh(inputs.dcArrayKw) + kwh(inputs.acArrayKw),
    generatorKwh: () => kwh(columns.generatorKw),
    missingKwh: () => kwh(columns.unservedKw),
    lowestSoc: () => Math.min(...columns.socFrac.subarray(from, to)),
    runs: () => overlaps.length,
    runH: () => sum(overlaps),
  };
  return figures[name]();
}

function whatIf(name: string, { whatIfs }: OwnerSource): number {
  if (name === 'loadGrowth') return 0.2;
  if (name === 'dullLoss') return 0.3;
  if (name === 'awayDays') return 14;
  const { span, ledger } = whatIfs.find(({ kind }) => kind === 'away')!;
  const [fromH, toH] = [span!.fromStep, span!.toStep].map((step) => (step * ledger.stepMin) / 60);
  if (name === 'awayLitres')
    return sum(
      ledger.runs.filter(({ startH }) => startH >= fromH && startH < toH).map(({ litres }) => litres),
    );
  if (name === 'awayOff')
    return ledger.outages.filter(({ startH, endH }) => endH > fromH && startH < toH).length;
  throw new Error(`a figure that no test knows: ${name}`);
}

function plainFigures(source: OwnerSource, result: AlternativeResult): Record<string, () => number> {
  const { site } = source.alternatives[source.proposed];
  const { ledger, money, plant, controls, inputs } = result;
  const { totals, runs, outages } = ledger;
  const per = yearsOf(ledger);
  const battery = site.battery!;
  const capacity = () => battery.modules * battery.moduleKwh;
  const usable = () => (1 - battery.cutoffSoc) * capacity();
  const byMonth = (values: readonly number[]) => {
    const months = new Float64Array(12);
    for (const [i, value] of values.entries()) months[i % 12] += value / per;
    return months;
  };
  const hours = outages.map(({ startH, endH }) => endH - startH);
  const standstills = () => {
    const ends = [0, ...runs.map(({ endH }) => endH)];
    const starts = [...runs.map(({ startH }) => startH), ledger.count * (ledger.stepMin / 60)];
    return starts.map((start, i) => start - ends[i]);
  };
  const array = () => totals.dcUsedKwh + totals.acUsedKwh;
  return {
    inverterKva: () => site.inverter.ratedKva * site.inverter.unitsPerPhase,
    batteryKwh: capacity,
    usableKwh: usable,
    modules: () => battery.modules,
    standAloneH: () => (usable() * battery.dischargeEfficiency) / (totals.loadKwh / (per * 8760)),
    arraysKwp: () => sum(site.arrays.map(({ kWp }) => kWp)),
    generatorKw: () => plant.generator!.ratedKw,
    startSoc: () => controls.charge!.startSoc,
    stopSoc: () => controls.charge!.stopSoc,
    handStartSoc: () => controls.hand!.startSoc,
    handStopSoc: () => controls.hand!.stopSoc,
    urgentSoc: () => controls.urgentSoc,
    shedSoc: () => controls.shed!.belowSoc,
    tankL: () => plant.tank!.capacityL,
    usableTankL: () => plant.tank!.capacityL - plant.tank!.reserveL,
    orderAtL: () => plant.tank!.orderAtL,
    leadDays: () => plant.tank!.leadH / 24,
    runH: () => totals.runH / per,
    nightH: () => totals.nightH / per,
    fuelL: () => totals.fuelL / per,
    starts: () => totals.starts / per,
    deliveries: () => totals.deliveries / per,
    deliveredL: () => totals.deliveredL / per,
    sunShare: () => array() / (array() + totals.generatorKwh),
    'mostMonth.runH': () => Math.max(...byMonth(ledger.periods.map((month) => month.runH))),
    longestRestDays: () => Math.max(...standstills()) / 24,
    interruptions: () => outages.length / per,
    interruptedH: () => sum(hours) / per,
    longestInterruptionH: () => Math.max(...hours),
    loadStepMin: () => inputs.stepMin,
    runDays: () => (ledger.count * ledger.stepMin) / 1440,
    capital: () => money.cashFlow[0].capital,
    running: () => running(money),
    runningPerMonth: () => running(money) / 12,
    fuelCost: () => money.fuelFirstYear,
    serviceCost: () => money.serviceFirstYear,
    unservedCost: () => (totals.unservedKwh * site.money.unservedPerKwh) / per,
    visitsCost: () => (totals.visits * site.money.visitCost) / per,
    fuelPrice: () => site.money.fuelPerL,
    fuelPriceDoubled: () => site.money.fuelPerL * 2,
    cheapestMonth: () => Math.min(...byMonth(money.runningByMonth)),
    dearestMonth: () => Math.max(...byMonth(money.runningByMonth)),
    years: () => money.cashFlow.length - 1,
    lifeCycleCost: () => sum(money.cashFlow.map(({ presentValue }) => presentValue)),
    discountRate: () => money.discountRate,
    batteryPrice: () => battery.modules * site.money.batteryPerModule,
    serviceEveryH: () => site.money.serviceEveryH,
    services: () => totals.runH / per / site.money.serviceEveryH,
    yearsPerService: () => (site.money.serviceEveryH * per) / totals.runH,
    exerciseDays: () => site.control.exercise!.everyDays,
    exerciseMin: () => controls.exercise!.runH * 60,
  };
}
