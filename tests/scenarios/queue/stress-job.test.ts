import { describe, expect, it } from 'vitest';
import { planStress, runStress } from '../../../src/scenarios/many/stress-study.ts';
import { JobRefused, SITE_TEXT } from '../../../src/scenarios/queue/job.ts';
import { makeStressDoer, stressJobs, stressUnits } from '../../../src/scenarios/queue/stress-job.ts';
import { DAIRY, finished, requestOf } from '../many/small-dairy.ts';

const TEXT = `${DAIRY}stress: { weatherYears: 2, runs: 2 }\n`;
const request = requestOf(TEXT, { only: 'five modules' });
const planned = () => {
  const { plan } = planStress(request);
  if (plan === null) throw new Error('no plan');
  return plan;
};
const readFrom = (text: string) => (path: string) => {
  if (path !== SITE_TEXT) throw new Error(`no file ${path}`);
  return new TextEncoder().encode(text);
};

describe('runs of a stress as jobs', () => {
  const plan = planned();
  const jobs = stressJobs(plan, request, {}, stressUnits(plan));
  const atHand = (i: number, text = TEXT) => {
    const { version, payload } = jobs[i];
    return { version, payload: { ...payload }, readFile: readFrom(text), filesKey: text };
  };

  it('are one each, and give what they give one after another, in any order', () => {
    const study = finished(runStress(planned(), () => null));
    const inTurn = study.alternatives.flatMap(({ runs }) => runs);
    expect(jobs).toHaveLength(4);
    const doer = makeStressDoer();
    for (const i of [3, 0, 2, 1]) expect(doer(atHand(i))).toEqual([inTurn[i]]);
  });

  it('are refused with other inputs, and by an engine that gives other numbers', () => {
    const doer = makeStressDoer();
    const other = () => doer(atHand(0, TEXT.replace('modules: 3', 'modules: 4')));
    expect(other).toThrow(JobRefused);
    expect(other).toThrow('the inputs that came with the job are not those');
    const { payload, ...job } = atHand(0);
    const engine = () => doer({ ...job, payload: { ...payload, firstYear: `${payload.firstYear} ` } });
    expect(engine).toThrow(JobRefused);
    expect(engine).toThrow('gives other numbers here');
  });
});
