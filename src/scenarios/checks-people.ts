import { MOST_SHIFTABLE } from '../sim/plant.ts';
import type { Tell } from './site-checks.ts';
import type { Path } from './site-document.ts';
import type { Site } from './site-schema.ts';

type Spans = Pick<Site, 'people' | 'faults'>;

function spansOf({ people, faults }: Spans): [Path, { from: string; to: string }][] {
  const lists: [Path, readonly { from: string; to: string }[]][] = [
    [['people', 'away'], people.away],
    [['faults', 'generator'], faults.generator],
    [['faults', 'bypass'], faults.bypass],
    [['faults', 'units'], faults.units],
  ];
  return lists.flatMap(([path, spans]) => spans.map((span, i): [Path, typeof span] => [[...path, i], span]));
}

/** Spans must have a length, and a set or unit that fails must be there. */
export function checkSpans(site: Spans, tell: Tell): void {
  for (const [path, { from, to }] of spansOf(site))
    if (to <= from) tell.refuse([...path, 'to'], to, `after ${from}; the last day is not included`);
  for (const [i, { from, to }] of site.people.attended.entries())
    if (from === to) tell.refuse(['people', 'attended', i], `${from} to ${to}`, 'two times that differ');
}

/** A span beside the period does nothing: mostly a wrong year. */
export function checkSpansInPeriod({ period, ...site }: Spans & Pick<Site, 'period'>, tell: Tell): void {
  const { start, days } = period;
  const end = new Date(Date.parse(`${start}T00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
  for (const [path, { from, to }] of spansOf(site))
    if (to > from && (to <= start || from >= end))
      tell.doubt(
        path,
        `${from} to ${to}`,
        `some of it in the period, ${days} days from ${start}; it does nothing`,
      );
}

export function checkFaults(site: Pick<Site, 'faults' | 'inverter' | 'generator'>, tell: Tell): void {
  const { faults, inverter, generator } = site;
  if (!generator && faults.generator.length > 0)
    tell.refuse(['faults', 'generator'], 'a generator out of order', 'a generator');
  if (!generator && faults.bypass.length > 0)
    tell.refuse(['faults', 'bypass'], 'a board on the generator alone', 'a generator');
  for (const [i, { phase, units }] of faults.units.entries()) {
    if (phase > inverter.phases)
      tell.refuse(['faults', 'units', i, 'phase'], `phase ${phase}`, `at most ${inverter.phases}`);
    if (units > inverter.unitsPerPhase)
      tell.refuse(['faults', 'units', i, 'units'], `${units}`, `at most ${inverter.unitsPerPhase} a phase`);
  }
}

/** A generator that nobody but a person starts needs a person. */
export function checkHand(
  { control, battery, generator }: Pick<Site, 'control' | 'battery' | 'generator'>,
  tell: Tell,
): void {
  const { hand, full } = control;
  if (hand && !battery) tell.refuse(['control', 'hand'], 'a rule by state of charge', 'a battery');
  if (full && !battery) tell.refuse(['control', 'full'], 'a full charge', 'a battery');
  if (hand && hand.stopSoc <= hand.startSoc)
    tell.refuse(['control', 'hand', 'stopSoc'], `${hand.stopSoc}`, `above startSoc, ${hand.startSoc}`);
  if (hand && battery && hand.startSoc <= battery.cutoffSoc)
    tell.doubt(
      ['control', 'hand', 'startSoc'],
      `${hand.startSoc}`,
      `above the cut-off, ${battery.cutoffSoc}; else somebody is asked when it is dark already`,
    );
  if (control.exercise && generator && control.exercise.runMin / 60 > (control.maxRunH ?? 24))
    tell.doubt(['control', 'exercise', 'runMin'], `${control.exercise.runMin} min`, 'within the longest run');
}

/** What charge drops or shifts must be there to be dropped or shifted. */
export function checkChosenLoads(
  site: Pick<Site, 'control' | 'load' | 'appliances' | 'shiftable' | 'inverter' | 'battery'>,
  tell: Tell,
): void {
  const { control, load, appliances, shiftable, inverter, battery } = site;
  const { shed } = control;
  const sheddable = [...load, ...appliances].some((each) => each.class === 'sheddable');
  if (shed && shed.aboveSoc <= shed.belowSoc)
    tell.refuse(['control', 'shed', 'aboveSoc'], `${shed.aboveSoc}`, `above belowSoc, ${shed.belowSoc}`);
  if (shed && !battery) tell.refuse(['control', 'shed'], 'a rule by state of charge', 'a battery');
  if (shed && !sheddable)
    tell.doubt(['control', 'shed'], 'nothing to shed', "a load or appliance of class 'sheddable'");
  if (!shed && sheddable) tell.doubt(['control'], 'sheddable load that nothing sheds', 'control.shed');
  const parts = shiftable.reduce((sum, { phase }) => sum + (phase === 'all' ? inverter.phases : 1), 0);
  if (parts > MOST_SHIFTABLE)
    tell.refuse(
      ['shiftable'],
      `${parts} single-phase loads`,
      `at most ${MOST_SHIFTABLE}; a three-phase one is three`,
    );
  for (const [i, { phase, watts, kwhPerDay }] of shiftable.entries()) {
    if (phase !== 'all' && phase > inverter.phases)
      tell.refuse(['shiftable', i, 'phase'], `phase ${phase}`, `at most ${inverter.phases}, or 'all'`);
    if (kwhPerDay > (watts / 1000) * 24)
      tell.refuse(
        ['shiftable', i, 'kwhPerDay'],
        `${kwhPerDay} kWh`,
        `at most ${Number(((watts / 1000) * 24).toFixed(6))} kWh, its power for a day`,
      );
  }
}
