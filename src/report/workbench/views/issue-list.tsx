import { type Issue, issueSentence } from '../../../scenarios/issue.ts';
import { counted } from '../../words.ts';

const MOST = 60;

/** Problems and doubts with file, line and column, problems first. */
export function IssueList({
  issues,
  onPlace,
}: {
  issues: readonly Issue[];
  onPlace?: (line: number) => void;
}) {
  if (issues.length === 0) return null;
  const sorted = [...issues].sort((a, b) => Number(a.severity === 'doubt') - Number(b.severity === 'doubt'));
  return (
    <ul class="issues">
      {sorted.slice(0, MOST).map((issue, i) => (
        <li key={`${i} ${issue.path}`} class={issue.severity}>
          <strong>{issue.severity === 'error' ? 'Problem' : 'Doubt'}</strong> {issueSentence(issue)}{' '}
          {onPlace && issue.at.line !== undefined && (
            <button type="button" class="quiet" onClick={() => onPlace(issue.at.line ?? 1)}>
              go to line {issue.at.line}
            </button>
          )}
        </li>
      ))}
      {sorted.length > MOST && <li>and {counted(String(sorted.length - MOST), 'more', 'more')}</li>}
    </ul>
  );
}
