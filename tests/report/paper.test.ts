/** The small paper that the workbench draws on: the same drawings as on a whole document. */
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { makePaper } from '../../src/report/charts/paper.ts';
import { moneyFrontier } from '../../src/report/size/parts.ts';
import { alternativePart } from '../../src/report/stress/parts.ts';
import { axisView } from '../../src/report/sweep/axis-view.ts';
import { pictures } from '../../src/report/sweep/pictures.ts';
import { howFlat } from '../../src/report/tune/parts.ts';
import { replayWorst } from '../../src/scenarios/many/stress-replay.ts';
import { planStress, runStress } from '../../src/scenarios/many/stress-study.ts';
import { sizeResult, tuneResult } from './search-fixture.ts';
import { KW, MODULES, madeSweep, SOC } from './sweep/made-sweep.ts';

const whole = () => parseHTML('<!doctype html><html><body></body></html>').document;

/** Attributes by their names: their order means nothing. */
function sorted(html: string): string {
  return html.replace(/<([a-z]+)((?: [\w:-]+="[^"]*")+)/g, (_, name: string, attributes: string) => {
    const list = attributes.match(/ [\w:-]+="[^"]*"/g) ?? [];
    return `<${name}${list.map(styleAsWritten).sort().join('')}`;
  });
}

/** Signs that need no escape in an attribute may have one. */
function styleAsWritten(attribute: string): string {
  return attribute.replaceAll('&lt;', '<').replaceAll('&gt;', '>');
}

const STRESSED = `
site: { name: Test, latitudeDeg: 45, longitudeDeg: 10, timeZone: '+01:00', invented: true }
period: { start: 2025-01-01, days: 365, stepMin: 60 }
appliances: [{ name: lights, watts: 400, dutyPercent: 50 }]
weather:
  format: monthly
  globalKwh: [1.2, 2.0, 3.2, 4.4, 5.3, 5.9, 6.0, 5.2, 3.9, 2.5, 1.4, 1.0]
  lowC: [-3, -2, 2, 5, 10, 13, 15, 15, 11, 7, 2, -2]
  highC: [4, 7, 12, 16, 21, 25, 28, 27, 22, 16, 9, 5]
arrays: [{ name: roof, kWp: 3, tiltDeg: 40, azimuthDeg: 180, coupling: dc, controllerA: 60 }]
battery: { modules: 1, moduleKwh: 5, moduleChargeKw: 2.5, moduleDischargeKw: 3 }
inverter: { phases: 1, ratedKva: 3, chargerKw: 1.5 }
generator: { ratedKw: 3, fuel: [{ kW: 0, lPerH: 0.5 }, { kW: 3, lPerH: 1.4 }] }
control: { charge: { startSoc: 0.3, stopSoc: 0.7 } }
money: { fuelPerL: 1.8, years: 2 }
`;

describe('paper without a document', () => {
  const drawn: Record<string, (paper: Document) => string> = {
    'a map': (paper) => pictures(madeSweep([KW, SOC]), [KW, SOC].map(axisView), paper).html,
    'a curve': (paper) => pictures(madeSweep([KW]), [KW].map(axisView), paper).html,
    'maps of three numbers': (paper) =>
      pictures(madeSweep([KW, SOC, MODULES]), [KW, SOC, MODULES].map(axisView), paper).html,
    'what settings cost': (paper) => howFlat(tuneResult(), paper).html,
    frontiers: (paper) => moneyFrontier(sizeResult(), paper).html,
    'bands and a dark week': (paper) => {
      const { plan } = planStress({
        ...{ text: STRESSED, file: 's.yaml', version: '1', runs: 2 },
        readFile: () => {
          throw new Error('no file');
        },
      });
      if (plan === null) throw new Error('a wrong site');
      for (const _ of runStress(plan, () => null));
      return alternativePart(plan.study, plan.study.alternatives[0], replayWorst(plan, 0), 0, paper).html;
    },
  };
  for (const [name, draw] of Object.entries(drawn))
    it(`draws ${name} as on a whole document`, () => {
      const here = sorted(draw(makePaper()));
      expect(here.match(/<svg [^>]*class="chart"/g)?.length).toBeGreaterThan(0);
      expect(here).toBe(sorted(draw(whole())));
    });
});
