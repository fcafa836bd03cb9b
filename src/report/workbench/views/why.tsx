import { stopSlow } from '../slow-work.ts';
import * as state from '../state.ts';

/** Why the picked run started, and what would have avoided it. */
export function Why() {
  const told = state.told.value;
  if (state.askedRun.value === null) return null;
  return (
    <section class="why" aria-labelledby="why-title" aria-live="polite">
      <h2 id="why-title">Why did it start?</h2>
      {state.telling.value && (
        <p>
          Running the year again with other sizes and thresholds…{' '}
          <button
            type="button"
            onClick={() => {
              stopSlow();
              state.askedRun.value = null;
            }}
          >
            Stop
          </button>
        </p>
      )}
      {told && (
        <>
          <h3>{told.heading}</h3>
          <p>{told.why.join(' ')}</p>
          <ul>
            {told.remedies.map((remedy) => (
              <li key={remedy}>{remedy}</li>
            ))}
          </ul>
          <p class="soft">{told.note}</p>
        </>
      )}
    </section>
  );
}
