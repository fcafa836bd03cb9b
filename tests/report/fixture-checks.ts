import { type DesignCheck, judged, notKnown, type Rule } from '../../src/scenarios/design-checks/check.ts';

const rule = (key: string, title: string, bound: Rule['bound'], unit: string): Rule => ({
  key,
  title,
  rule: 'An invented rule of design.',
  bound,
  unit,
  source: 'invented',
});

/** Four invented checks of the farm: one of each verdict; twice the battery stands the surge. */
export function inventedChecks(capacityKwh: number): DesignCheck[] {
  const amps = (capacityKwh * 1000) / 51.2;
  return [
    judged(rule('strings.barn.cold', 'String voltage at record cold, barn array', 'most', 'V'), 213.6, {
      fine: 250,
      acceptable: 250,
    }),
    judged(
      rule('battery.surge', 'Battery current in an inverter overload', 'most', 'A'),
      1500,
      { fine: amps, acceptable: amps },
      'All inverters at 2 times their rating.',
    ),
    judged(rule('charger.most', 'Charger against generator: not too large', 'most', '%'), 80.004, {
      fine: 80,
    }),
    notKnown(rule('motor.all.inverter', 'Motors: start on the inverters', 'most', 'kVA'), ['motors']),
  ];
}
