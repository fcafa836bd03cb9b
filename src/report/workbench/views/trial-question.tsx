import { useEffect, useRef } from 'preact/hooks';
import { keepTrial } from '../alternatives.ts';
import * as state from '../state.ts';
import { trialQuestion } from '../trial-question.ts';

/** What becomes of a trial that is not kept. */
export function TrialQuestion() {
  const answer = trialQuestion.value;
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (answer) box.current?.showModal();
  }, [answer]);
  if (!answer) return null;
  const words = state.picture.value?.trialWords.join('; ');
  return (
    <dialog ref={box} aria-labelledby="trial-question" onCancel={() => answer(false)}>
      <h2 id="trial-question">Something is on trial and not kept</h2>
      <p>
        {words ? `${words}, beside ${state.inHandName.value}.` : `A trial beside ${state.inHandName.value}.`}{' '}
        What is to become of it?
      </p>
      <p class="actions">
        <button
          type="button"
          class="main"
          onClick={async () => {
            await keepTrial();
            answer(true);
          }}
        >
          Keep it in {state.inHandName}
        </button>
        <button type="button" onClick={() => answer(true)}>
          Drop it
        </button>
        <button type="button" onClick={() => answer(false)}>
          Go back to it
        </button>
      </p>
    </dialog>
  );
}
