import { FLAT_FRAC } from '../../scenarios/many/flat.ts';
import { runningCostOf } from '../../scenarios/many/score.ts';
import type { OtherYear, TunedSetting, TuneResult } from '../../scenarios/many/tune-result.ts';
import { brokenWords, limitList } from '../limit-words.ts';
import { alone, digits, figure } from '../numbers.ts';
import { capital, listed } from '../words.ts';
import { flatWords, isIndifferent } from './flat-words.ts';
import { settingName, settingValue } from './rule-words.ts';

/** The answer in a few sentences: what to set, what it gains, how much it matters, what was kept to. */
export function tuneSentences(result: TuneResult): string[] {
  return [
    whatToSet(result),
    ...gained(result),
    ...inOtherYears(result),
    ...howFlat(result),
    ...keptTo(result),
  ].map((sentence) => `${capital(sentence)}.`);
}

function whatToSet({ settings, years }: TuneResult): string {
  const changed = settings.filter(({ chosen, today }) => chosen !== today);
  if (changed.length === 0)
    return `today’s settings cost least: over ${years} years none of the sets tried is cheaper`;
  return listed(
    changed.map(({ rule, season, values, chosen, today }) => {
      const [now, before] = [values[chosen], values[today]].map((value) => settingValue(rule, value));
      return `${settingName({ rule, season })} ${now} instead of ${before}`;
    }),
  );
}

function gained({ today, chosen, years, site, settings }: TuneResult): string[] {
  if (settings.every((one) => one.chosen === one.today)) return [];
  const saved = runningCostOf(today) - runningCostOf(chosen);
  const share = saved / Math.abs(runningCostOf(today));
  const starts = Math.round(chosen.starts - today.starts);
  const money = figure('money', Math.abs(saved), 0, site.currency);
  const parts = [
    difference(alone('litres', Math.abs(chosen.fuelL - today.fuelL)), chosen.fuelL - today.fuelL, 'fuel'),
    difference(alone('hours', Math.abs(chosen.runH - today.runH)), chosen.runH - today.runH, 'running'),
    difference(digits(Math.abs(starts)), starts, Math.abs(starts) === 1 ? 'start' : 'starts'),
  ].filter((part) => part !== null);
  return [
    ...(parts.length > 0 ? [`a year has ${listed(parts)}`] : []),
    `over ${years} years that ${saved >= 0 ? 'saves' : 'costs'} ${money} in today’s money, ${digits(100 * Math.abs(share), 1)} % of all that is paid after the start`,
  ];
}

/** "723 L less fuel"; null where it is the same. */
function difference(amount: string, value: number, what: string): string | null {
  if (Math.abs(value) < 0.05) return null;
  const less = /starts?$/.test(what) ? 'fewer' : 'less';
  return `${amount} ${value < 0 ? less : 'more'} ${what}`;
}

const YEAR_WORDS: Record<OtherYear['kind'], string> = {
  'more load': 'with a tenth more load',
  'less load': 'with a tenth less load',
  'less sun': 'with a tenth less sun',
};

/** Whether it holds in years for which it was not chosen. */
function inOtherYears({ otherYears, settings, site, limits }: TuneResult): string[] {
  if (otherYears.length === 0 || settings.every((one) => one.chosen === one.today)) return [];
  const money = (value: number) => figure('money', Math.abs(value), 0, site.currency);
  const parts = otherYears.map(({ kind, today, chosen, broken }) => {
    const saved = today - chosen;
    const limit =
      broken.length > 0 ? `, but has ${listed(broken.map((key) => brokenWords(key, limits)))}` : '';
    return `${YEAR_WORDS[kind]} it ${saved >= 0 ? 'saves' : 'costs'} ${money(saved)}${limit}`;
  });
  return [`in years that it was not chosen for: ${parts.join('; ')}`];
}

function howFlat({ settings }: TuneResult): string[] {
  const percent = digits(100 * FLAT_FRAC);
  const mattering = settings.filter((one) => !isIndifferent(one));
  const others = settings.filter(isIndifferent);
  const parts = mattering.map((one) => `${settingName(one)} ${flatWords(one)}`);
  const sentences: string[] = [];
  if (parts.length > 0)
    sentences.push(
      `one setting at a time, the others as chosen, costs within ${percent} % and keeps the limits: ${listed(parts)}`,
    );
  if (others.length > 0) sentences.push(`it does not matter what these are: ${listed(others.map(nameOf))}`);
  return sentences;
}

function nameOf(setting: TunedSetting): string {
  return settingName(setting);
}

function keptTo({ limits, brokenChosen, brokenToday }: TuneResult): string[] {
  const words = (keys: TuneResult['brokenToday']) => listed(keys.map((key) => brokenWords(key, limits)));
  const sentences = [`limits: ${listed(limitList(limits))}`];
  if (brokenToday.length > 0) sentences.push(`today’s settings do not keep them: ${words(brokenToday)}`);
  if (brokenChosen.length > 0)
    sentences.push(
      `no set was found that keeps them all; the one shown is nearest, with ${words(brokenChosen)}`,
    );
  return sentences;
}

/** How it was searched, for whoever wants to know whether something was missed. */
export function effortSentences({ effort, stepMin, calendarEntries }: TuneResult): string[] {
  const { fineRuns, coarseRuns, trials, points, ranOut } = effort;
  const sets = points >= 1e6 ? `${digits(points / 1e6)} million` : digits(points);
  const used = trials.find(({ isUsed }) => isUsed);
  const sentences = [
    `${digits(fineRuns)} of ${sets} sets of values were simulated in steps of ${stepMin} min${coarseRuns > 0 ? `, and ${digits(coarseRuns)} in coarser steps` : ''}`,
    'sets spread evenly over all settings come first, then descents from the best of them and from today’s, then every setting by itself over all its values, until nothing is better; settings whose change gains nothing are left as they are today',
  ];
  for (const { stepMin: coarse, variants, rank, isUsed } of trials)
    sentences.push(
      `${coarse} min ranks ${variants} of them ${isUsed ? 'as' : 'unlike'} ${stepMin} min (rank correlation ${digits(rank, 2)})${isUsed ? ', and chose which others were looked at finely' : ', and was not used'}`,
    );
  if (trials.length > 0 && !used) sentences.push(`so all figures are from steps of ${stepMin} min`);
  if (ranOut)
    sentences.push(
      'the search ended because its runs were used up: more runs (--runs) may find something better',
    );
  if (calendarEntries > 0)
    sentences.push(
      `the calendar in the site file has ${calendarEntries === 1 ? 'one entry, which was' : `${calendarEntries} entries, which were`} left as ${calendarEntries === 1 ? 'it is' : 'they are'}`,
    );
  return sentences.map((sentence) => `${capital(sentence)}.`);
}
