import { deratingFactor } from '../../sim/inverter.ts';
import { type CheckedRun, COMMON_PRACTICE, type DesignCheck, judged, type Rule } from './check.ts';
import { type DesignStretch, designStretch } from './design-days.ts';
import { rangeOf, sentences, shown } from './measures.ts';

/** The cabinet on the hottest and on the coldest design day. */
export function cabinetChecks(run: CheckedRun): DesignCheck[] {
  const hot = designStretch(run, 'hottest');
  const cold = designStretch(run, 'coldest');
  if (hot === null || cold === null) return [];
  return [
    hotAir(run, hot),
    hotPower(run, hot),
    ...(run.plant.battery ? [hotCells(run, hot), coldCells(run, cold), ...coldCharge(run, cold)] : []),
  ];
}

const SOURCE = `${COMMON_PRACTICE}; the limits are those of the site file`;

function dayNote({ days, lowC, highC }: DesignStretch, sun: string): string {
  return `${days} days alike, ${shown(lowC)} to ${shown(highC)} °C, ${sun}.`;
}

const FULL_SUN = 'full sun on the cabinet';
const SHADE = 'no sun on the cabinet';

function hotAir({ plant }: CheckedRun, hot: DesignStretch): DesignCheck {
  const { derateKneeC, derateC } = plant.inverter;
  return judged(
    {
      key: 'cabinet.hotAir',
      title: 'Cabinet air on the hottest design day',
      rule: 'The air stays where the inverters give full power, and by no means passes the end of their derating.',
      bound: 'most',
      unit: '°C',
      source: SOURCE,
    },
    rangeOf(hot.lastDay.cabinetC).high,
    { fine: derateKneeC, acceptable: derateC },
    dayNote(hot, FULL_SUN),
  );
}

/** Half the day's highest load is the least that derated inverters may carry. */
const LEAST_OF_LOAD = 0.5;

function hotPower({ plant }: CheckedRun, hot: DesignStretch): DesignCheck {
  const { ratedKw, derateKneeC, derateC, derateFrac } = plant.inverter;
  const air = rangeOf(hot.lastDay.cabinetC).high;
  const left = ratedKw * deratingFactor(air, derateKneeC, (1 - derateFrac) / (derateC - derateKneeC));
  const day = hot.ledger.periods[1];
  return judged(
    {
      key: 'cabinet.hotPower',
      title: 'Inverter power left on the hottest design day',
      rule: 'At its hottest, the inverter of a phase still carries the highest load of that day.',
      bound: 'least',
      unit: 'kW',
      source: SOURCE,
    },
    left,
    { fine: hot.highestLoadKw, acceptable: LEAST_OF_LOAD * hot.highestLoadKw },
    sentences(
      `${shown((100 * left) / ratedKw)} % of ${shown(ratedKw)} kW on each phase at ${shown(air)} °C.`,
      day.unservedKwh > 0 ? `${shown(day.unservedKwh)} kWh of load go unserved that day.` : '',
    ),
  );
}

function hotCells(run: CheckedRun, hot: DesignStretch): DesignCheck {
  const { chargeHotFullC, chargeHotNoneC } = run.plant.battery ?? { chargeHotFullC: 0, chargeHotNoneC: 0 };
  return judged(
    {
      key: 'cabinet.hotCells',
      title: 'Battery cells on the hottest design day',
      rule: 'Cells stay where they take their full charge, and by no means where they take none.',
      bound: 'most',
      unit: '°C',
      source: SOURCE,
    },
    hot.hottestCellC,
    { fine: chargeHotFullC, acceptable: chargeHotNoneC },
    sentences(
      dayNote(hot, FULL_SUN),
      hot.lostKwh > 0 ? `${shown(hot.lostKwh)} kWh of charge are refused that day.` : '',
    ),
  );
}

function coldCells(run: CheckedRun, cold: DesignStretch): DesignCheck {
  const { chargeNoneC, chargeFullC } = run.plant.battery ?? { chargeNoneC: 0, chargeFullC: 0 };
  // at the temperature itself nothing is taken any more
  const takesNone = chargeNoneC + 1e-6;
  return judged(
    {
      key: 'cabinet.coldCells',
      title: 'Battery cells on the coldest design day',
      rule: 'Cells stay where they take their full charge, and by no means where they take none.',
      bound: 'least',
      unit: '°C',
      source: `${SOURCE}; lithium iron phosphate takes no charge at 0 °C: ${COMMON_PRACTICE}`,
    },
    cold.coldestCellC,
    { fine: chargeFullC, acceptable: takesNone },
    dayNote(cold, SHADE),
  );
}

/** Percent of what the arrays offer. */
const MOST_LOST = 5;
const TOO_MUCH_LOST = 50;

function coldCharge(_: CheckedRun, cold: DesignStretch): DesignCheck[] {
  if (cold.offeredKwh <= 0) return [];
  const rule: Rule = {
    key: 'cabinet.coldCharge',
    title: 'Charge lost to cold on the coldest design day',
    rule: 'Cold cells refuse next to nothing of what the arrays offer on a clear day in that cold.',
    bound: 'most',
    unit: '%',
    source: COMMON_PRACTICE,
  };
  return [
    judged(
      rule,
      (100 * cold.lostKwh) / cold.offeredKwh,
      { fine: MOST_LOST, acceptable: TOO_MUCH_LOST },
      `${shown(cold.lostKwh)} of ${shown(cold.offeredKwh)} kWh.`,
    ),
  ];
}
