import { MONEY_CARE } from '../../page/cautions.ts';
import { go } from '../edits.ts';
import * as state from '../state.ts';
import { askedOf } from '../study-form.ts';
import { type ShownStudy, STUDIES, type StudyKind } from '../study-messages.ts';
import * as study from '../study-state.ts';
import { runStudy } from '../study-work.ts';
import { Choices } from './choices.tsx';
import { IssueList } from './issue-list.tsx';
import { SearchForm, StressForm, SweepForm } from './study-forms.tsx';
import { StudyPart } from './study-part.tsx';

const NAMES: Record<StudyKind, string> = {
  sweep: 'Vary numbers',
  tune: 'Tune the generator',
  size: 'Choose sizes',
  stress: 'Bad years',
};

const QUESTIONS: Record<StudyKind, string> = {
  sweep: 'What would other numbers cost, burn, start and leave unserved?',
  tune: 'Where should the generator start and stop, and how much does it matter?',
  size: 'How large should generator, battery, inverters and arrays be, and what does more of each buy?',
  stress: 'What if the years go badly: dull weather, more load, a start that fails, fuel that comes late?',
};

/** Studies of many runs: what to ask, and what came out, in which a choice becomes an alternative when pressed. */
export function Many() {
  const kind = study.kind.value;
  // what a row holds belongs to its number
  const isRead = kind !== 'sweep' || study.varyChoices.value.length > 0;
  return (
    <div class="many">
      <fieldset class="choices">
        <legend class="unseen">What to try</legend>
        {STUDIES.map((one) => (
          <label key={one}>
            <input
              type="radio"
              name="study"
              checked={kind === one}
              onChange={() => {
                study.kind.value = one;
              }}
            />{' '}
            {NAMES[one]}
          </label>
        ))}
      </fieldset>
      <h2>{QUESTIONS[kind]}</h2>
      {isRead ? <Asked key={kind} kind={kind} /> : <p class="soft">The site’s numbers are being read.</p>}
      <IssueList issues={study.refused.value[kind] ?? []} />
      {study.failed.value?.kind === kind && (
        <p class="care" role="alert">
          The runs broke off: {study.failed.value.why.split('\n')[0]}. What was finished is kept: run it again
          to go on from there, in longer steps if it happens again.
        </p>
      )}
      {study.shown.value[kind] && <Shown shown={study.shown.value[kind]} />}
    </div>
  );
}

function Asked({ kind }: { kind: StudyKind }) {
  return (
    <form
      // what is wrong in a fold could not be shown otherwise
      onInvalidCapture={({ target }) => (target as Element).closest('details')?.setAttribute('open', '')}
      onSubmit={(event) => {
        event.preventDefault();
        void runStudy(askedOf(kind));
      }}
    >
      {kind === 'sweep' ? <SweepForm /> : kind === 'stress' ? <StressForm /> : <SearchForm kind={kind} />}
      <p class="actions">
        <button type="submit" class="main" disabled={study.running.value !== null}>
          Run
        </button>
        {state.isTrial.value && <span class="soft">What is on trial is left out until it is kept.</span>}
      </p>
    </form>
  );
}

function Shown({ shown }: { shown: ShownStudy }) {
  const [first, ...others] = shown.parts;
  return (
    <section class="study" aria-label={`${NAMES[shown.kind]}: what came out`}>
      <p class="soft">{shown.of}</p>
      {shown.stopped && <p class="care">{shown.stopped}</p>}
      {shown.key !== study.siteKey.value && (
        <p class="care">The site file has been changed since: these figures are of the file as it was.</p>
      )}
      {shown.care.map((sentence) => (
        <p key={sentence} class="care">
          {sentence}
        </p>
      ))}
      {shown.sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {shown.choices.length > 0 && shown.parts.some(({ cells }) => cells.length > 0) && (
        <p class="soft">Press a place in a drawing, and it becomes an alternative and is taken in hand.</p>
      )}
      {first && <StudyPart part={first} shown={shown} />}
      <Choices shown={shown} />
      <div class="parts">
        {others.map((part) =>
          part.fold ? (
            <details key={part.html} class="whole-line">
              <summary>{part.fold}</summary>
              <StudyPart part={part} shown={shown} />
            </details>
          ) : (
            <StudyPart key={part.html} part={part} shown={shown} />
          ),
        )}
      </div>
      {shown.basis && (
        <details>
          <summary>What these figures rest on</summary>
          {/* made by the report's own code, in which every text of a file is escaped */}
          <div class="drawn" dangerouslySetInnerHTML={{ __html: shown.basis }} />
        </details>
      )}
      {(shown.kind === 'sweep' || shown.kind === 'stress') && <p class="soft">{MONEY_CARE}</p>}
      {shown.choices.length > 0 && (shown.kind !== 'size' || shown.stopped !== '') && (
        <p class="soft">Choices are not held against the design checks here: the report does that.</p>
      )}
      <Taken />
    </section>
  );
}

/** What a press has made, and where it is to be seen. */
function Taken() {
  if (study.taken.value !== state.inHandName.value) return null;
  return (
    <p class="actions taken-line">
      <span>
        In hand: <strong>{state.inHandName}</strong>
      </span>
      <button type="button" onClick={() => go('year')}>
        See its year
      </button>
      <button type="button" onClick={() => go('alternatives')}>
        Side by side
      </button>
    </p>
  );
}
