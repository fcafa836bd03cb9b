import { edit, stepBack, stepForward } from '../edits.ts';
import { save } from '../save.ts';
import * as state from '../state.ts';
import { FieldGroup, FieldRow } from './field.tsx';
import { IssueList } from './issue-list.tsx';
import { useDraft } from './use-draft.ts';

/** Every value of the site file, and the file itself. */
export function Site() {
  const fields = state.fields.value;
  return (
    <div class="site-view">
      <section aria-labelledby="values-title">
        <h2 id="values-title">
          Every value, {state.inHand.value === 0 ? 'as filed' : `as in ${state.inHandName.value}`}
        </h2>
        <p class="soft">
          A value in grey is a default, which the file does not state.
          {state.inHand.value > 0 && ' What is changed here becomes a change of this alternative.'}
          {state.errors.value.length > 0 && ' The pictures show the file as it was last right.'}
        </p>
        {fields.map((field) =>
          field.kind === 'group' || field.kind === 'list' ? (
            <FieldGroup key={field.path} field={field} open={field.path === 'control'} />
          ) : (
            <FieldRow key={field.path} field={field} />
          ),
        )}
      </section>
      <FileText />
    </div>
  );
}

/** The text of the file, to be read and edited as it is. */
function FileText() {
  const draft = useDraft<HTMLTextAreaElement>(state.text.value);
  const goTo = (line: number) => {
    const { current } = draft.ref;
    if (!current) return;
    const lines = current.value.split('\n');
    const from = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
    current.focus();
    current.setSelectionRange(from, from + (lines[line - 1]?.length ?? 0));
    current.scrollTop = (line - 4) * (current.scrollHeight / lines.length);
  };
  return (
    <section class="file-text" aria-labelledby="file-title">
      <h2 id="file-title">The file itself, {state.fileName}</h2>
      <IssueList issues={state.issues.value} onPlace={goTo} />
      <p class="actions">
        <button type="button" onClick={() => stepBack()} disabled={state.undoable.value === 0}>
          Undo
        </button>
        <button type="button" onClick={() => stepForward()} disabled={state.redoable.value === 0}>
          Redo
        </button>
        <button type="button" class="main" onClick={save}>
          Save the file
        </button>
      </p>
      <textarea
        {...draft}
        aria-label="Text of the site file"
        spellcheck={false}
        rows={30}
        onChange={(event) => edit(event.currentTarget.value)}
      />
    </section>
  );
}
