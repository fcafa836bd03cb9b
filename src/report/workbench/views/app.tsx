import { useState } from 'preact/hooks';
import { cautions } from '../../page/cautions.ts';
import { takeInHand } from '../alternatives.ts';
import { go } from '../edits.ts';
import { openFiles } from '../open.ts';
import { save } from '../save.ts';
import * as state from '../state.ts';
import { Alternatives } from './alternatives.tsx';
import { Files } from './files.tsx';
import { Many } from './many.tsx';
import { Site } from './site.tsx';
import { StudyProgress } from './study-progress.tsx';
import { TrialQuestion } from './trial-question.tsx';
import { Year } from './year.tsx';

const NAMES: Record<state.View, string> = {
  year: 'The year',
  alternatives: 'Alternatives',
  many: 'Try many',
  site: 'The site',
  files: 'Files',
};

export function App() {
  const [over, setOver] = useState(false);
  const dropped = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    if (event.dataTransfer?.files.length) void openFiles(event.dataTransfer.files);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: files may be dropped anywhere; they can be chosen by keyboard under Files
    <div
      class={over ? 'page dropping' : 'page'}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (event.relatedTarget === null) setOver(false);
      }}
      onDrop={dropped}
    >
      <a class="skip" href="#main">
        Skip to the view
      </a>
      <Head />
      <main id="main" tabIndex={-1}>
        <Wrong />
        <StudyProgress />
        {state.view.value === 'year' && <Year />}
        {state.view.value === 'alternatives' && <Alternatives />}
        {state.view.value === 'many' && <Many />}
        {state.view.value === 'site' && <Site />}
        {state.view.value === 'files' && <Files />}
      </main>
      <Foot />
      <TrialQuestion />
      <p class="unseen" role="status">
        {state.said}
      </p>
    </div>
  );
}

function Head() {
  const site = state.site.value;
  return (
    <header>
      <div class="title">
        <p class="mark">Darkweek</p>
        <h1>{site?.name ?? 'No site'}</h1>
        <p class="soft">
          {site?.invented ? 'Invented for demonstration. ' : ''}
          {site?.note}
        </p>
      </div>
      <nav aria-label="Views">
        {state.VIEWS.map((view) => (
          <button
            key={view}
            type="button"
            aria-current={state.view.value === view ? 'page' : undefined}
            onClick={() => go(view)}
          >
            {NAMES[view]}
          </button>
        ))}
      </nav>
      <div class="held">
        {site && (
          <label>
            In hand{' '}
            <select
              value={String(state.inHand.value)}
              onChange={async (event) => {
                const list = event.currentTarget;
                await takeInHand(Number(list.value));
                // somebody may have gone back to the trial
                list.value = String(state.inHand.value);
              }}
            >
              {site.alternatives.map(({ name }, i) => (
                <option key={name} value={String(i)}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
        <button type="button" onClick={save}>
          Save{state.isUnsaved.value ? '' : ' a copy'}
        </button>
      </div>
    </header>
  );
}

/** Said in every view while the file is wrong: the pictures are those of the last good one. */
function Wrong() {
  const count = state.errors.value.length;
  if (count === 0) return null;
  return (
    <p class="care" role="alert">
      {count === 1 ? 'One thing' : `${count} things`} in the site file {count === 1 ? 'is' : 'are'} wrong; the
      pictures show it as it was last right.{' '}
      <button type="button" class="quiet" onClick={() => go('site')}>
        See what
      </button>
    </p>
  );
}

function Foot() {
  const dangers = state.site.value?.dangers ?? { battery: true, array: true, generator: true };
  // made from our own words, none of them from a file
  const words = { __html: cautions(dangers).html };
  return (
    <footer>
      <div dangerouslySetInnerHTML={words} />
    </footer>
  );
}
