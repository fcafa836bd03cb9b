import type { AlternativeResult } from '../../scenarios/study.ts';
import { type Html, html } from '../html.ts';
import { alone, duration } from '../numbers.ts';
import { localMs, type StudyView, shortDay, timeOfDay } from '../view.ts';
import { capital, counted, OUTAGE_REASONS } from '../words.ts';
import { scrollable } from './figure-box.ts';

const MOST_LISTED = 30;

/** When load went unserved, for how long, and why. */
export function outagesPart(view: StudyView, result: AlternativeResult): Html {
  const { outages, totals } = result.ledger;
  if (outages.length === 0) return html`<h3>Interruptions</h3><p>None: all load is served.</p>`;
  const worst = [...outages].sort((a, b) => b.kwh - a.kwh).slice(0, MOST_LISTED);
  const shown = outages.filter((outage) => worst.includes(outage));
  const table = html`<table class="short"><caption>${
    shown.length < outages.length
      ? `The ${MOST_LISTED} largest of ${outages.length}; the JSON output has them all`
      : 'All of them'
  }</caption><thead><tr><th scope="col">From</th><th scope="col" class="text">Why</th><th scope="col">For</th><th scope="col">Unserved</th></tr></thead>
<tbody>${shown.map((outage) => {
    const ms = localMs(view, outage.startH);
    return html`<tr><td class="nobreak">${shortDay(ms)}, ${timeOfDay(ms)}</td><td class="text">${capital(OUTAGE_REASONS[outage.cause])}</td><td>${duration(outage.endH - outage.startH)}</td><td class="nobreak">${alone('kwh', outage.kwh)}</td></tr>`;
  })}</tbody></table>`;
  return html`<h3>Interruptions</h3>
<p>${alone('kwh', totals.unservedKwh)} of load goes unserved in ${counted(String(totals.outages), 'interruption')}, ${duration(totals.unservedH)} in all.</p>
${scrollable('Interruptions', table)}`;
}
