import type { DesignCheck } from '../../scenarios/design-checks/check.ts';
import { checkTexts, VERDICTS, verdictCounts, withVerdict } from '../check-facts.ts';
import { type Html, html, raw } from '../html.ts';
import { digits } from '../numbers.ts';
import { capital, counted } from '../words.ts';
import { acceptanceTest, type TestStep } from './acceptance.ts';
import { changedCount, withOld } from './old-new.ts';
import type { Setting, SettingGroup, SheetSource } from './setting.ts';
import { batterySettings } from './settings-battery.ts';
import { cabinetSettings, fuelSettings } from './settings-cabinet.ts';
import { generatorSettings } from './settings-generator.ts';
import { startSettings } from './settings-start.ts';
import { SHEET_STYLE } from './style.ts';

/** Every setting that must be entered on site, by groups; only of what the site has. */
export function settingGroups(source: SheetSource): SettingGroup[] {
  return [startSettings, generatorSettings, batterySettings, cabinetSettings, fuelSettings]
    .map((group) => group(source))
    .filter((group) => group !== null);
}

/**
 * The commissioning sheet: settings in front, acceptance test and design checks on the back; one HTML file that reads
 * on a phone and prints on one sheet of paper.
 * @param madeOn date, yyyy-mm-dd
 * @param before what is in force now: settings that change are shown old and new
 */
export function commissioningSheet(source: SheetSource, madeOn: string, before?: SheetSource): string {
  const { study, result } = source;
  const { site, made } = study;
  const isFirst = study.alternatives[0] === result;
  const steps = acceptanceTest(source);
  const groups = before ? withOld(settingGroups(source), settingGroups(before)) : settingGroups(source);
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${site.name}: commissioning sheet</title>
<style>${raw(SHEET_STYLE)}</style>
</head>
<body>
<main>
<h1>${site.name}: commissioning sheet</h1>
<p class="made">${isFirst ? 'The site as filed' : `Alternative “${result.name}”`}. Made on ${madeOn} by Darkweek ${made.version} from inputs ${made.inputsHash}. A design aid, not a wiring design.</p>
${care(source)}
<h2>Settings</h2>
${before ? html`<p class="made"><strong>${counted(digits(changedCount(groups)), 'setting')} to change, marked: old → new.</strong> Read what is set before changing it, and write it down.</p>` : null}
${settingsTable(groups)}
<div class="back">
<h2>Acceptance test</h2>
${testTable(steps)}
${checksPart(result.checks)}
<footer><p>Site ______________________ Commissioned by ______________________ Licence ______________ Date ____________ Signature ______________________</p></footer>
</div>
</main>
</body>
</html>
`;
  return page.html;
}

function care({ site }: SheetSource): Html {
  const parts = [
    site.generator
      ? 'The engine starts by itself: lock it out before touching it. Exhaust kills in closed rooms. Change-over interlocked against back-feed.'
      : '',
    site.battery ? 'The battery’s terminals are always live; a short circuit burns.' : '',
    site.arrays.length > 0 ? 'Arrays are live in any light.' : '',
    'Earthing and neutral right for each way of supply. Work by licensed people to local codes (stand-alone power systems, battery installation, generating sets, wiring rules).',
  ];
  return html`<p class="care"><strong>Batteries, generators and mains can kill.</strong> ${parts.filter((part) => part !== '').join(' ')}</p>`;
}

function settingsTable(groups: readonly SettingGroup[]): Html {
  return html`<table class="settings">
<thead><tr><th scope="col">Setting</th><th scope="col">Enter</th><th scope="col">Why</th><th scope="col">Watch in the first month</th><th scope="col">Was set to / by / on</th></tr></thead>
${groups.map(
  ({
    title,
    note,
    settings,
  }) => html`<tbody><tr class="group"><th scope="rowgroup" colspan="5">${title}${note ? html` <small>${note}</small>` : null}</th></tr>
${settings.map(settingRow)}</tbody>
`,
)}</table>`;
}

function settingRow({ name, value, why, watch, was }: Setting): Html {
  const entered = was === undefined ? value : html`<span class="was">${was} →</span> ${value}`;
  return html`<tr${was === undefined ? null : html` class="changed"`}><th scope="row">${name}</th><td class="value">${entered}</td><td data-label="Why">${why}</td><td data-label="Watch">${watch}</td><td class="blank"><span>Was set to / by / on</span></td></tr>
`;
}

function testTable(steps: readonly TestStep[]): Html {
  return html`<table>
<thead><tr><th scope="col">Test</th><th scope="col">Do this</th><th scope="col">Expect</th><th scope="col">Read / by / on</th></tr></thead>
<tbody>${steps.map(
    ({ name, doThis, expect }) =>
      html`<tr><th scope="row">${name}</th><td data-label="Do">${doThis}</td><td data-label="Expect">${expect}</td><td class="blank"><span>Read / by / on</span></td></tr>
`,
  )}</tbody></table>`;
}

/** Design checks, worst first; what is fine in two tables side by side. */
function checksPart(checks: readonly DesignCheck[]): Html | null {
  if (checks.length === 0) return null;
  const open = VERDICTS.filter((verdict) => verdict !== 'fine').flatMap((each) => withVerdict(checks, each));
  const fine = withVerdict(checks, 'fine');
  const half = Math.ceil(fine.length / 2);
  return html`<h2>Design checks: ${verdictCounts(checks, false)}</h2>
${open.length > 0 ? checksTable(open) : null}
<div class="halves">${fine.length > 0 ? fineTable(fine.slice(0, half)) : null}${fine.length > 1 ? fineTable(fine.slice(half)) : null}</div>
<p class="made">First-cut rules; local codes and licensed practice decide.</p>`;
}

function checksTable(checks: readonly DesignCheck[]): Html {
  return html`<table class="checks">
<thead><tr><th scope="col">Check</th><th scope="col">Value</th><th scope="col">Limit</th><th scope="col">Margin</th><th scope="col">Verdict</th></tr></thead>
<tbody>${checks.map(checkRow)}</tbody></table>
`;
}

/** All of them are fine, so that needs no column. */
function fineTable(checks: readonly DesignCheck[]): Html {
  return html`<table class="checks">
<thead><tr><th scope="col">Fine</th><th scope="col">Value</th><th scope="col">Limit</th></tr></thead>
<tbody>${checks.map((check) => {
    const { value, limit } = checkTexts(check);
    return html`<tr><th scope="row">${check.title}</th><td data-label="Value">${value}</td><td data-label="Limit">${limit}</td></tr>
`;
  })}</tbody></table>
`;
}

function checkRow(check: DesignCheck): Html {
  const lacks = check.missing.length > 0 ? ` (the site file lacks ${check.missing.join(', ')})` : '';
  const { value, limit, margin } = checkTexts(check);
  return html`<tr><th scope="row">${check.title}${lacks}</th><td data-label="Value">${value}</td><td data-label="Limit">${limit}</td><td data-label="Margin">${margin}</td><td class="verdict">${capital(check.verdict)}</td></tr>
`;
}
