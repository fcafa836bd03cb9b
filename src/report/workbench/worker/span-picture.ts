import type { AlternativeResult } from '../../../scenarios/study.ts';
import { alone, duration } from '../../numbers.ts';
import { daySpan, hoursOfStep, localMs, type StudyView, shortDay, timeOfDay } from '../../view.ts';
import { dayAndTime } from '../../why-start.ts';
import { counted, START_REASONS } from '../../words.ts';
import type { SpanPicture, SpanRun } from '../messages.ts';

/** Load and what supplies it over a span of steps, as columns of pixels. */
export function spanPicture(
  view: StudyView,
  result: AlternativeResult,
  fromStep: number,
  toStep: number,
  width: number,
): SpanPicture {
  const { columns, inputs, plant } = result;
  const mean = (sum: (i: number) => number) => meanOf(sum, fromStep, toStep, width);
  const { batteryKw, generatorKw, unservedKw, dcUsedKw, acUsedKw, socFrac } = columns;
  const stack = [
    { name: 'array', kw: mean((i) => dcUsedKw[i] + acUsedKw[i]) },
    { name: 'battery', kw: mean((i) => Math.max(0, -batteryKw[i])) },
    { name: 'generator', kw: mean((i) => generatorKw[i]) },
    { name: 'unserved', kw: mean((i) => unservedKw[i]) },
  ];
  return {
    fromStep,
    toStep,
    localMs: localMs(view, hoursOfStep(view, fromStep)),
    title: spanTitle(view, result, fromStep, toStep),
    loadKw: mean((i) => inputs.loadKw.reduce((sum, phase) => sum + phase[i], 0)),
    stack: stack.filter(({ kw }) => kw.some((value) => value > 0)),
    chargeKw: mean((i) => Math.max(0, batteryKw[i])),
    soc: plant.battery ? lastOf(socFrac, fromStep, toStep, width) : null,
    runs: runsIn(view, result, fromStep, toStep),
  };
}

function meanOf(valueAt: (i: number) => number, from: number, to: number, width: number): Float32Array {
  const means = new Float32Array(width);
  const steps = to - from;
  for (let column = 0; column < width; column++) {
    const start = from + Math.floor((column * steps) / width);
    const end = Math.max(start + 1, from + Math.floor(((column + 1) * steps) / width));
    let sum = 0;
    for (let i = start; i < end; i++) sum += valueAt(i);
    means[column] = sum / (end - start);
  }
  return means;
}

function lastOf(values: Float64Array, from: number, to: number, width: number): Float32Array {
  return Float32Array.from({ length: width }, (_, column) => {
    const end = Math.max(1, Math.floor(((column + 1) * (to - from)) / width));
    return values[from + end - 1];
  });
}

function runsIn(view: StudyView, { ledger }: AlternativeResult, fromStep: number, toStep: number): SpanRun[] {
  const fromH = hoursOfStep(view, fromStep);
  const lengthH = hoursOfStep(view, toStep) - fromH;
  const shareOf = (hours: number) => Math.max(0, Math.min(1, (hours - fromH) / lengthH));
  return ledger.runs.flatMap(({ startH, endH, cause, litres }, run) => {
    if (endH <= fromH || startH >= fromH + lengthH) return [];
    const length = `${duration(endH - startH)}, ${alone('litres', litres)}`;
    const text = `${dayAndTime(view, startH)}, ${length}: ${START_REASONS[cause]}`;
    return [{ run, cause, from: shareOf(startH), to: shareOf(endH), text }];
  });
}

function spanTitle(view: StudyView, result: AlternativeResult, fromStep: number, toStep: number): string {
  const [from, to] = [fromStep, toStep].map((step) => localMs(view, hoursOfStep(view, step)));
  const wholeDays = from % 86_400_000 === 0 && to % 86_400_000 === 0;
  const when = wholeDays
    ? daySpan(from, to - 1)
    : `${shortDay(from)}, ${timeOfDay(from)}, to ${shortDay(to)}, ${timeOfDay(to)}`;
  const { inputs, columns, plant } = result;
  const kwh = (series: readonly Float64Array[]) => {
    let sum = 0;
    for (const one of series) for (let i = fromStep; i < toStep; i++) sum += one[i];
    return (sum * inputs.stepMin) / 60;
  };
  const parts = [`load ${alone('kwh', kwh(inputs.loadKw))}`];
  if (inputs.dcArrayKw || inputs.acArrayKw)
    parts.push(`array ${alone('kwh', kwh([columns.dcUsedKw, columns.acUsedKw]))} used`);
  if (plant.generator) {
    const runs = runsIn(view, result, fromStep, toStep).length;
    parts.push(`generator ${alone('kwh', kwh([columns.generatorKw]))} in ${counted(String(runs), 'run')}`);
  }
  const unserved = kwh([columns.unservedKw]);
  parts.push(unserved > 1e-6 ? `${alone('kwh', unserved)} unserved` : 'all load served');
  return `${when}: ${parts.join(', ')}`;
}
