import fc from 'fast-check';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { checksLine, checkTexts, differingVerdicts } from '../../src/report/check-facts.ts';
import { studyJson } from '../../src/report/json.ts';
import { reportPage } from '../../src/report/page.ts';
import { terminalReport } from '../../src/report/terminal.ts';
import { type DesignCheck, judged } from '../../src/scenarios/design-checks/check.ts';
import { fixtureStudy } from './fixture.ts';

const study = fixtureStudy({ stepMin: 60, days: 9, alternatives: 2 });
const [filed, twice] = study.alternatives;

function check(value: number, fine: number, unit = 'A', bound: DesignCheck['bound'] = 'most'): DesignCheck {
  return judged({ key: 'k', title: 'T', rule: 'R.', bound, unit, source: 'S' }, value, {
    fine,
    acceptable: fine,
  });
}

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('value, limit and margin of a check', () => {
  it.each([
    [check(213.6, 250, 'V'), '214 V', 'at most 250 V', '+36 V'],
    [check(22.78, 20, '%'), '22.8 %', 'at most 20.0 %', '−2.8 pts'],
    [check(-4.7, 10, '°C', 'least'), '−4.7 °C', 'at least 10.0 °C', '−14.7 K'],
    [check(0.832, 0.5, 'days', 'least'), '0.83 days', 'at least 0.50 days', '+0.33 days'],
    [check(3, 4, 'starts'), '3 starts', 'at most 4 starts', '+1 start'],
    [check(Number.POSITIVE_INFINITY, 8, 'h'), '∞ h', 'at most 8.00 h', '–'],
    [{ ...check(1, 2), value: null, limit: null, margin: null }, '–', '–', '–'],
  ])('%#', (each, value, limit, margin) => {
    const texts = checkTexts(each);
    expect([texts.value, texts.limit, texts.margin].map(plain)).toEqual([value, limit, margin]);
  });

  it('never look the same where one is beyond the other by a thousandth of the unit', () => {
    const size = fc.double({ min: 0.01, max: 5000, noNaN: true });
    fc.assert(
      fc.property(size, fc.double({ min: 0.001, max: 10, noNaN: true }), (limit, more) => {
        const texts = checkTexts(check(limit + more, limit));
        expect(texts.margin).not.toMatch(/^[−+]?0[ \u00a0]/);
        expect(texts.margin).toMatch(/^−/);
      }),
    );
  });
});

describe('the verdicts', () => {
  it('are counted in a line, with titles for the first and what differs for the others', () => {
    expect(checksLine(study, filed)).toBe(
      'Design checks: 1 fine, 1 to look at (Charger against generator: not too large), 1 not acceptable (Battery current in an inverter overload), 1 not known (Motors: start on the inverters).',
    );
    expect(checksLine(study, twice)).toBe(
      'Design checks: 2 fine, 1 to look at, 0 not acceptable, 1 not known; otherwise than with “as filed”: Battery current in an inverter overload (fine).',
    );
    const same = { ...study, alternatives: [filed, { ...twice, checks: filed.checks }] };
    expect(checksLine(same, same.alternatives[1])).toMatch(/1 not known; as with “as filed”\.$/);
  });

  it('stand in the terminal, and in the JSON with all they are made of', () => {
    const text = terminalReport(study, 80, false).replace(/\s+/g, ' ');
    expect(text).toContain(checksLine(study, filed));
    expect(text).toContain(checksLine(study, twice));
    expect(studyJson(study).alternatives[1].checks).toEqual(JSON.parse(JSON.stringify(twice.checks)));
  });

  it('of which alternatives differ are found; a check that one lacks among them unless it is fine for the others', () => {
    const surge = {
      title: 'Battery current in an inverter overload',
      verdicts: ['not acceptable', 'fine'],
    };
    expect(differingVerdicts(study)).toEqual([surge]);
    // the first two checks are fine and not acceptable as filed
    const fewer = { ...study, alternatives: [filed, { ...twice, checks: filed.checks.slice(2) }] };
    expect(differingVerdicts(fewer)).toEqual([{ ...surge, verdicts: ['not acceptable', null] }]);
  });
});

describe('the page', () => {
  const { document } = parseHTML(reportPage(study));
  const rowsOf = (id: string) => [
    ...(document.getElementById(id)?.querySelectorAll('table.checks tbody tr') ?? []),
  ];

  it('shows every check of every alternative with rule, source and verdict, worst first', () => {
    for (const [i, result] of study.alternatives.entries()) {
      const rows = rowsOf(`alternative-${i + 1}`);
      expect(rows).toHaveLength(result.checks.length);
      for (const each of result.checks) {
        const row = rows.find((found) => found.textContent.includes(each.title));
        for (const words of [each.rule, each.source, each.verdict]) expect(row?.textContent).toContain(words);
      }
    }
    expect(rowsOf('alternative-1').map((row) => row.lastElementChild?.textContent)).toEqual([
      'not acceptable',
      'look at',
      'not known',
      'fine',
    ]);
  });

  it('marks what comes out otherwise than with the first', () => {
    const bold = [...document.querySelectorAll('table.verdicts td b')].map((cell) => cell.textContent);
    expect(bold).toEqual(['fine']);
  });

  it('says which key of the site file is missing, and who decides', () => {
    expect(rowsOf('alternative-1')[2].textContent).toContain('The site file lacks motors.');
    expect(document.getElementById('checks')?.textContent).toContain(
      'Local codes and licensed practice decide.',
    );
  });

  it('says so where nothing differs, and nothing where nothing was checked', () => {
    const alike = { ...study, alternatives: [filed, { ...twice, checks: filed.checks }] };
    expect(reportPage(alike)).toContain('No check comes out differently between the alternatives.');
    const none = { ...study, alternatives: study.alternatives.map((each) => ({ ...each, checks: [] })) };
    expect(reportPage(none)).not.toMatch(/design checks/i);
  });
});
