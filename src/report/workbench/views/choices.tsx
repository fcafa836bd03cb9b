import { useState } from 'preact/hooks';
import { takeChoice } from '../alternatives.ts';
import type { ShownStudy } from '../study-messages.ts';

const FEW = 10;
const MOST = 300;

/** The choices of a study, the best first; each becomes an alternative when it is pressed. */
export function Choices({ shown: { heads, choices, listed } }: { shown: ShownStudy }) {
  const [all, setAll] = useState(false);
  if (listed.length === 0) return null;
  const rows = listed.slice(0, all ? MOST : FEW).map((place) => choices[place]);
  const more = Math.min(MOST, listed.length) - rows.length;
  return (
    <section aria-labelledby="choices-title">
      <h3 id="choices-title">Choices</h3>
      <p class="soft">Press one, and it is added to the alternatives and taken in hand.</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard */}
      <section class="scroll" tabIndex={0} aria-label="Choices and their figures">
        <table class="choice-table">
          <thead>
            <tr>
              <th scope="col">Choice</th>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((choice) => (
              <tr key={JSON.stringify(choice.changes)}>
                <th scope="row">
                  <button type="button" class="quiet" onClick={() => takeChoice(choice)}>
                    {choice.name}
                  </button>
                  {choice.marks && <small>{choice.marks}</small>}
                </th>
                {choice.figures.map((figure, i) => (
                  <td key={heads[i]}>{figure}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {more > 0 && (
        <button type="button" onClick={() => setAll(true)}>
          Show {more} more
        </button>
      )}
    </section>
  );
}
