import { keepTrial, putBack, trialAsAlternative } from '../alternatives.ts';
import type { FigureRow } from '../messages.ts';
import * as state from '../state.ts';
import { IssueList } from './issue-list.tsx';

/** Figures that answer the page's question; the others are folded away. */
const FIRST = [
  'runH',
  'nightH',
  'starts',
  'fuelL',
  'unservedKwh',
  'minSoc',
  'curtailedKwh',
  'runningFirstYear',
  'lifeCycleCost',
];

/** What happens in the year: in words, in figures, and what the trial changes about it. */
export function Figures() {
  const picture = state.picture.value;
  if (!picture) return null;
  const { rows, sentences, trialWords } = picture;
  const isTrial = state.isTrial.value;
  const first = rows.filter(({ key }) => FIRST.includes(key));
  const rest = rows.filter(({ key }) => !FIRST.includes(key));
  return (
    <section class="figures" aria-labelledby="figures-title">
      <h2 id="figures-title">{isTrial ? 'On trial' : 'What happens'}</h2>
      {isTrial && (
        <div class="trial">
          <p>
            <strong>{trialWords.length > 0 ? trialWords.join('; ') : 'nothing different'}</strong>, beside{' '}
            {state.inHandName}
          </p>
          <p class="actions">
            <button type="button" class="main" onClick={() => keepTrial()}>
              Keep it in {state.inHandName}
            </button>
            <button type="button" onClick={() => trialAsAlternative()}>
              Make it an alternative
            </button>
            <button type="button" onClick={putBack}>
              Put back
            </button>
          </p>
        </div>
      )}
      <IssueList issues={state.trialIssues.value} />
      <FigureTable rows={first} isTrial={isTrial} />
      <div class={`sentences ${state.unfinished.value ? 'waiting' : ''}`} aria-live="polite">
        {sentences.slice(0, 3).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      <details>
        <summary>More figures</summary>
        <FigureTable rows={rest} isTrial={isTrial} />
      </details>
    </section>
  );
}

function FigureTable({ rows, isTrial }: { rows: FigureRow[]; isTrial: boolean }) {
  return (
    <table class="figure-table">
      <thead class="unseen">
        <tr>
          <th scope="col">Figure</th>
          <th scope="col">{isTrial ? 'On trial' : 'In hand'}</th>
          <th scope="col">Difference</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ key, label, part, trialText, differenceText, better }) => (
          <tr key={key} class={part ? 'part' : ''} data-figure={key}>
            <th scope="row">{label}</th>
            <td>{trialText}</td>
            <td class={better === null ? '' : better ? 'better' : 'worse'}>
              {differenceText}
              {better !== null && <span class="unseen"> {better ? 'better' : 'worse'}</span>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
