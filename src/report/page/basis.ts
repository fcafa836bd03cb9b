import { issueSentence } from '../../scenarios/issue.ts';
import type { DataSheet, Gap, Quantity } from '../../scenarios/series.ts';
import type { AlternativeResult } from '../../scenarios/study.ts';
import { peaksUnderstatedMin } from '../facts.ts';
import { type Html, html } from '../html.ts';
import { alone, digits, duration } from '../numbers.ts';
import { fullDate, localMs, type StudyView, timeOfDay } from '../view.ts';
import { capital, counted } from '../words.ts';

const MOST_GAPS = 20;

/** What the figures rest on: files, what was missing and how it was filled, doubts, step, version. */
export function basis(view: StudyView): Html {
  const { study } = view;
  const { sheets, doubts, axis, timeZone, site } = study;
  const coarse = peaksUnderstatedMin(study);
  return html`<section id="basis"><h2>What these figures rest on</h2>
<p>${counted(digits(axis.count), 'step')} of ${axis.stepMin} min from ${fullDate(localMs(view, 0))}, by the clock of ${timeZone}; the site at ${digits(Math.abs(site.latDeg), 2)}° ${site.latDeg < 0 ? 'south' : 'north'}, ${digits(Math.abs(site.lonDeg), 2)}° ${site.lonDeg < 0 ? 'west' : 'east'}. Within a step, powers are means: what is shorter than a step is not seen.</p>
${coarse === null ? null : html`<p><strong>Starts on a high load are understated:</strong> the load data have a step of ${coarse} min, and peaks shorter than that are not in them.</p>`}
${study.alternatives.map(efficiencyWords).map((words) => (words ? html`<p>${words}</p>` : null))}
${study.alternatives.map(wellsWords).map((words) => (words ? html`<p>${words}</p>` : null))}
${sheets.length > 0 ? html`<h3>Files read</h3>${sheets.map((sheet) => sheetPart(view, sheet))}` : null}
<h3>Doubts</h3>
${doubts.length === 0 ? html`<p>None were found in the inputs.</p>` : html`<ul>${doubts.map((doubt) => html`<li>${issueSentence(doubt)}</li>`)}</ul>`}
</section>
`;
}

/** The losses fitted to an inverter's points of efficiency, and how well; the same as the first's are not repeated. */
function efficiencyWords(
  result: AlternativeResult,
  i: number,
  all: readonly AlternativeResult[],
): string | null {
  const { efficiencyFit: fit, plant } = result;
  if (fit === null || (i > 0 && JSON.stringify(fit) === JSON.stringify(all[0].efficiencyFit))) return null;
  const idleW = digits(fit.idleShare * plant.inverter.ratedKw * 1000, 1);
  return `${i > 0 ? `${capital(result.name)}: the` : 'The'} inverters’ losses are fitted to their points of efficiency by least squares: ${idleW} W idle per phase, ${alone('share', fit.linear)} of the power and ${alone('share', fit.quadraticAtRated)} more at the rating, growing as the square. The curve is at most ${digits(fit.worst * 100, 2)} points of efficiency from a point, at ${alone('share', fit.worstShare)} of the rating.`;
}

/** The two wells of a lead-acid bank; the same as the first's are not repeated. */
function wellsWords(
  { name, plant }: AlternativeResult,
  i: number,
  all: readonly AlternativeResult[],
): string | null {
  const { battery } = plant;
  const first = all[0].plant.battery;
  if (!battery?.kinetic || (i > 0 && JSON.stringify(battery.kinetic) === JSON.stringify(first?.kinetic)))
    return null;
  const { atHandFrac, ratePerH } = battery.kinetic;
  return `${i > 0 ? `${capital(name)}: the` : 'The'} battery is lead-acid, as two wells (Manwell and McGowan 1993): ${alone('share', atHandFrac)} of its charge is at hand, the rest comes over at a rate constant of ${digits(ratePerH, 2)} per hour. Full, it holds ${digits(battery.capacityKwh, 1)} kWh at a vanishing current, of which states of charge are shares; drawn fast it gives less.`;
}

function sheetPart(view: StudyView, sheet: DataSheet): Html {
  const counts = [
    sheet.filled > 0
      ? `${counted(digits(sheet.filled), 'value')} missing and filled by a rule`
      : 'no value missing',
    sheet.duplicates > 0 ? counted(digits(sheet.duplicates), 'duplicate') : '',
    sheet.estimated > 0
      ? `${counted(digits(sheet.estimated), 'value')} marked as estimated by the source`
      : '',
  ].filter((text) => text !== '');
  return html`<h4>${sheet.file}</h4>
<p>Read as ${sheet.reader}, because ${sheet.chosenBecause}; times: ${sheet.timeZone}; step ${sheet.axis.stepMin} min. ${capital(counts.join(', '))}.</p>
<ul>${sheet.series.map((series) => html`<li>${series.name}: ${seriesWords(series.quantity, series.total, series.peak, series.loadFactor)}</li>`)}${sheet.gaps
    .slice(0, MOST_GAPS)
    .map((gap) => html`<li>${gapWords(view, sheet, gap)}</li>`)}${
    sheet.gaps.length > MOST_GAPS
      ? html`<li>and ${counted(digits(sheet.gaps.length - MOST_GAPS), 'further gap')}</li>`
      : null
  }</ul>`;
}

function seriesWords(quantity: Quantity, total: number, peak: number, loadFactor: number): string {
  if (quantity === 'loadKw' || quantity === 'generationKw')
    return `${alone('kwh', total)}, at most ${digits(peak, 1)} kW, load factor ${alone('share', loadFactor)}`;
  if (quantity === 'airC') return `mean ${digits(total, 1)} °C, at most ${digits(peak, 1)} °C`;
  if (quantity === 'precipMmPerH') return `${digits(total)} mm, at most ${digits(peak, 1)} mm an hour`;
  if (quantity === 'snowCmPerH')
    return `${digits(total)} cm of fresh snow, at most ${digits(peak, 1)} cm an hour`;
  if (quantity === 'windMPerS') return `at most ${digits(peak, 1)} m/s`;
  return `${digits(total)} kWh/m², at most ${digits(peak)} W/m²`;
}

function gapWords(view: StudyView, sheet: DataSheet, gap: Gap): string {
  const ms = localMs(view, (gap.startS - view.study.axis.startS) / 3600);
  const length = duration((gap.steps * sheet.axis.stepMin) / 60);
  return `gap of ${length} from ${fullDate(ms)}, ${timeOfDay(ms)}: ${gap.filledBy === null ? 'not filled' : `filled by ${gap.filledBy}`}`;
}

/** Version, inputs and step that made the page. */
export function footing(view: StudyView): Html {
  const { made, axis } = view.study;
  return html`<footer><p class="made">Made by Darkweek ${made.version} from inputs <code>${made.inputsHash}</code> in steps of ${axis.stepMin} min. The same inputs and version give the same figures.</p></footer>
`;
}
