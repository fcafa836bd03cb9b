import { atCellC } from '../../sim/electrical/string-voltage.ts';
import { cellTempC } from '../../sim/sky/cell-temperature.ts';
import { stringVmpV } from '../../sim/sky/string-limits.ts';
import type { ArrayPart } from '../site-schema.ts';
import {
  type CheckedRun,
  COMMON_PRACTICE,
  type DesignCheck,
  judged,
  notKnown,
  type Rule,
  unlessMissing,
} from './check.ts';
import { counted, rangeOf, sentences, shown } from './measures.ts';

/** Every array's strings against the input that they are connected to. */
export function stringChecks(run: CheckedRun): DesignCheck[] {
  return run.site.arrays.flatMap((array) => checksOf(run, array));
}

type Known = ArrayPart & Required<Pick<ArrayPart, 'strings' | 'controller'>>;

function checksOf(run: CheckedRun, array: ArrayPart): DesignCheck[] {
  const { name, strings, controller } = array;
  const missing = [
    ...(strings ? [] : [`arrays.${name}.strings`]),
    ...(controller ? [] : [`arrays.${name}.controller`]),
  ];
  if (missing.length > 0) return [notKnown(coldRule(name), missing)];
  const known = array as Known;
  return [atRecordCold(run, known), atHeat(run, known), current(known)];
}

function coldRule(name: string): Rule {
  return {
    key: `strings.${name}.cold`,
    title: `String voltage at record cold, ${name} array`,
    rule: 'The open-circuit voltage of a string at the lowest temperature stays below what the input survives.',
    bound: 'most',
    unit: 'V',
    source: 'IEC 62548 and IEC 60364-7-712: highest voltage at the lowest expected temperature (from memory)',
  };
}

/** A look is worth it this close to the highest voltage: modules and their coefficients have tolerances. */
const CLOSE_FRAC = 0.02;

/** At sunrise the cells are as cold as the air, and the string is open. */
function atRecordCold(run: CheckedRun, { name, strings, controller }: Known): DesignCheck {
  const { recordLowC } = run.site.design;
  const { airC } = run.inputs;
  if (recordLowC === undefined && !airC) return notKnown(coldRule(name), ['design.recordLowC']);
  const coldC = recordLowC ?? rangeOf(airC as Float64Array).low;
  const volts = strings.modulesInSeries * atCellC(strings.vocV, strings.vocPerK, coldC);
  const note = `${counted(strings.modulesInSeries, 'module')} in series at ${shown(coldC)} °C${recordLowC === undefined ? ', the lowest of the weather used; a record is lower' : ''}.`;
  const check = judged(
    coldRule(name),
    volts,
    { fine: controller.maxV * (1 - CLOSE_FRAC), acceptable: controller.maxV, stated: controller.maxV },
    note,
  );
  return unlessMissing(check, recordLowC === undefined ? ['design.recordLowC'] : []);
}

/** Full sun on cells above the hottest air; below its window a controller does not find the highest power. */
function atHeat(run: CheckedRun, { name, noctC, strings, controller }: Known): DesignCheck {
  const rule: Rule = {
    key: `strings.${name}.heat`,
    title: `String voltage in heat, ${name} array`,
    rule: 'The voltage of a string at its highest power stays above the lowest at which the input works, with the hottest cells.',
    bound: 'least',
    unit: 'V',
    source: `${COMMON_PRACTICE}; cell temperature after Ross (1981) at 1000 W/m²`,
  };
  const { hottestC } = run.site.design;
  const { airC } = run.inputs;
  if (hottestC === undefined && !airC) return notKnown(rule, ['design.hottestC']);
  const cellC = cellTempC(hottestC ?? rangeOf(airC as Float64Array).high, 1000, noctC);
  const volts = stringVmpV(strings, cellC);
  return judged(
    rule,
    volts,
    { fine: controller.minV, acceptable: controller.minV },
    `${counted(strings.modulesInSeries, 'module')} in series with cells at ${shown(cellC)} °C.`,
  );
}

/** Clouds' edges and snow give more than 1000 W/m²: the standards count with a quarter more. */
const BRIGHT_FACTOR = 1.25;

function current({ name, strings, controller }: Known): DesignCheck {
  const rule: Rule = {
    key: `strings.${name}.current`,
    title: `String current, ${name} array`,
    rule: 'A quarter more than the short-circuit current of all strings stays below the highest input current.',
    bound: 'most',
    unit: 'A',
    source: 'IEC 62548: 1.25 times the short-circuit current (from memory)',
  };
  if (controller.maxInputA === undefined) return notKnown(rule, [`arrays.${name}.controller.maxInputA`]);
  const amps = strings.strings * strings.iscA;
  return judged(
    rule,
    BRIGHT_FACTOR * amps,
    { fine: controller.maxInputA, acceptable: BRIGHT_FACTOR * controller.maxInputA },
    sentences(
      `${counted(strings.strings, 'string')} of ${shown(strings.iscA)} A.`,
      amps > controller.maxInputA ? 'Above the limit at 1000 W/m² already.' : '',
    ),
  );
}
