import { describeSheet } from '../../scenarios/data-sheet.ts';
import { isUsable } from '../../scenarios/issue.ts';
import { checkStudy } from '../../scenarios/run-study.ts';
import { besideSite, printIssues, readSiteText } from './files.ts';

/** `darkweek check SITE`: every problem and doubt, and the data sheets; nothing is simulated. */
export function checkCommand(site: string, options: { step?: number }, version: string): void {
  const text = readSiteText(site);
  if (text === null) return;
  const request = { text, file: site, readFile: besideSite(site), stepMin: options.step, version };
  const { issues, maker } = checkStudy(request);
  for (const sheet of maker?.sheets ?? []) process.stdout.write(`${describeSheet(sheet).join('\n')}\n`);
  printIssues(issues);
  const problems = issues.filter((issue) => issue.severity === 'error').length;
  const doubts = issues.length - problems;
  process.stdout.write(
    `${problems} ${problems === 1 ? 'problem' : 'problems'}, ${doubts} ${doubts === 1 ? 'doubt' : 'doubts'}\n`,
  );
  if (!isUsable(issues)) process.exitCode = 1;
}
