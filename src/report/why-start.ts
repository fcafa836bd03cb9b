import type { AlternativeResult } from '../scenarios/study.ts';
import type { ChosenFor, StartStory } from '../scenarios/why-start.ts';
import type { StartState } from '../scenarios/why-start-state.ts';
import type { GeneratorRun } from '../sim/ledger.ts';
import { alone, asEntered, digits, duration } from './numbers.ts';
import { localMs, type StudyView, shortDay, timeOfDay } from './view.ts';
import { remedySentences } from './why-start-remedies.ts';
import { capital, listed, STARTED_BECAUSE } from './words.ts';

/** One start told: when, why, what led to it, and what would have avoided it. */
export interface StartWords {
  heading: string;
  /** the cause, and the state that led to it */
  why: string[];
  /** what would have avoided it */
  remedies: string[];
}

/** A start in words; every figure in it is read from the run or from running the site again. */
export function startWords(view: StudyView, result: AlternativeResult, story: StartStory): StartWords {
  const run = result.ledger.runs[story.run];
  return {
    heading: headingOf(view, run, story),
    why: [`${capital(causeSentence(result, run, story.state))}.`, ...stateSentences(result, story.state)],
    remedies: remedySentences(view, result, story),
  };
}

/** "Tue 7 Jan, 08:26" of an instant in hours from the start of the run. */
export function dayAndTime(view: StudyView, hours: number): string {
  const ms = localMs(view, hours);
  return `${shortDay(ms)}, ${timeOfDay(ms)}`;
}

function headingOf(view: StudyView, run: GeneratorRun, { chosenFor, run: index }: StartStory): string {
  const length = duration(run.endH - run.startH);
  const what = `run ${index + 1}, ${dayAndTime(view, run.startH)}, for ${length}, ${alone('litres', run.litres)}`;
  const why = chosenFor.map((each) => chosenWords(each, run)).filter((words) => words !== '');
  return capital(why.length > 0 ? `${listed(why)}: ${what}` : what);
}

function chosenWords(chosenFor: ChosenFor, { cause }: GeneratorRun): string {
  if (chosenFor === 'longest') return 'the longest run';
  if (chosenFor === 'first of the dark week') return 'the first of the dark week';
  return chosenFor === 'typical' ? `the most typical start by ${cause}` : '';
}

function causeSentence(result: AlternativeResult, run: GeneratorRun, state: StartState): string {
  if (run.cause === 'charge') return chargeCause(result, state);
  if (run.cause === 'peak') return peakCause(result, state);
  const because = `it started because ${STARTED_BECAUSE[run.cause]}`;
  const { hand } = result.controls;
  if (run.cause !== 'hand' || !hand || state.socFrac === null) return because;
  return `${because}: somebody is asked at ${alone('share', hand.startSoc)}, and the battery was at ${alone('share', state.socFrac)} then`;
}

function chargeCause({ inputs, plant }: AlternativeResult, state: StartState): string {
  const { socFrac, lowForH, heldBack, thresholds } = state;
  if (thresholds.startSoc === null || socFrac === null) return `it started because ${STARTED_BECAUSE.charge}`;
  const calendar = thresholds.byCalendar ? ' by the calendar' : '';
  const threshold = `the ${alone('share', thresholds.startSoc)} at which it starts${calendar}`;
  const low = lowForH ?? 0;
  const at = alone('share', socFrac);
  if (plant.battery?.display)
    return `it started because the battery was shown to be at or below ${threshold}; it was at ${at} in truth`;
  const longLow = low * 60 > inputs.stepMin + 1e-6;
  const was = `it had been at or below ${threshold} for ${duration(low)}`;
  if (heldBack === 'urgent in hours' || heldBack === 'urgent in frost')
    return `it started ${heldBack === 'urgent in hours' ? 'within restricted hours' : 'although the cells were frozen'}, because the battery was at ${at}, which is urgent${longLow ? `; ${was}` : ''}`;
  if (!longLow && heldBack === null) return `it started because the battery had come down to ${threshold}`;
  const ended = heldBack === 'hours ended' ? ', and restricted hours ended' : '';
  return `it started because the battery had been at or below ${threshold} for ${duration(low)}${ended}; it was at ${at} then`;
}

function peakCause({ plant }: AlternativeResult, state: StartState): string {
  const { excess, phases, loadKw, acArrayKw, inverterLimitKw, thresholds } = state;
  const kw = (value: number) => `${digits(value, 1)} kW`;
  const names = phases.map((k) => String(k + 1));
  const who = plant.phases === 1 ? 'the load' : `${names.length > 1 ? 'phases' : 'phase'} ${listed(names)}`;
  const wanted = listed(phases.map((k) => kw(Math.max(0, loadKw[k] - acArrayKw[k]))));
  if (excess === 'threshold')
    return `it started because ${who} wanted ${wanted} of the inverters, above the ${asEntered(thresholds.peakStartKw ?? 0)} kW at which it starts${thresholds.byCalendar ? ' by the calendar' : ''}`;
  if (excess === 'inverters') {
    const limitKw = Math.min(...phases.map((k) => inverterLimitKw[k]));
    const cool = plant.inverter.ratedKw;
    const less = limitKw < cool - 0.05 ? ` then, of ${kw(cool)} when cool and all in service` : '';
    return `it started because ${who} wanted ${wanted} of the inverters, and ${names.length > 1 ? 'each' : 'they'} could carry ${kw(limitKw)}${less}`;
  }
  if (excess === 'battery')
    return 'it started because all phases together wanted more than battery and array could give';
  return 'it started because the load, with the heating or cooling of the cabinet, was too high for the inverters or above the threshold';
}

function stateSentences(result: AlternativeResult, state: StartState): string[] {
  const { loadKw, arrayKw, daysBefore, arrayKwhADay, loadKwhADay, airC } = state;
  const { usualArrayKwhADay, usualLoadKwhADay } = state;
  const loads = `${listed(loadKw.map((kw) => digits(kw, 1)))} kW${loadKw.length > 1 ? ' by phase' : ''}`;
  const hasArray = usualArrayKwhADay > 0;
  const array = hasArray ? `, and the array had ${digits(arrayKw, 1)} kW to give` : '';
  const sentences = [
    `The load was ${loads} then${array}${batteryWords(result, state)}.`,
    state.sinceRunH === null
      ? 'It had not run before.'
      : `Its last run had ended ${duration(state.sinceRunH)} before${state.afterLongestRun ? ', because it had run as long as it may' : ''}.`,
  ];
  if (daysBefore >= 1) {
    const air = airC === null ? '' : `, at ${digits(airC, 1)} °C outside`;
    const sun = hasArray
      ? `the array had ${alone('kwh', arrayKwhADay)} a day to give, ${ofUsual(arrayKwhADay, usualArrayKwhADay)}, and `
      : '';
    const span = daysBefore >= 1.95 ? `${digits(daysBefore)} days` : 'day';
    sentences.push(
      `In the ${span} before, ${sun}the load took ${alone('kwh', loadKwhADay)} a day, ${ofUsual(loadKwhADay, usualLoadKwhADay)}${air}.`,
    );
  }
  return sentences;
}

/** Where the battery had come from, and whether its cells held charging back. */
function batteryWords({ plant }: AlternativeResult, state: StartState): string {
  const { battery } = plant;
  if (battery === null) return '';
  const since =
    state.sinceFullH !== null && state.sinceFullH > 0 && state.thresholds.stopSoc !== null
      ? `; the battery had last been at ${alone('share', state.thresholds.stopSoc)} ${duration(state.sinceFullH)} before`
      : '';
  const cold = state.cellC < battery.chargeFullC;
  const hot = state.cellC > battery.chargeHotFullC;
  const cells = `at ${digits(state.cellC, 1)} °C its cells take`;
  if (state.cellC <= battery.chargeNoneC || state.cellC >= battery.chargeHotNoneC)
    return `${since}; ${cells} no charge`;
  return cold || hot ? `${since}; ${cells} only part of the charging power` : since;
}

function ofUsual(value: number, usual: number): string {
  if (usual <= 0) return 'with none usual';
  return `${alone('share', value / usual)} of the ${alone('kwh', usual)} usual`;
}
