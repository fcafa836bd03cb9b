import { withValue } from '../../../scenarios/edit-site.ts';
import { DEMOS } from '../demos.ts';
import { edit } from '../edits.ts';
import { isSecondTab } from '../keep.ts';
import type { LookedAtFile } from '../messages.ts';
import { forgetFiles, openDemo, openEmpty, openFiles, openServed, openText, servedSites } from '../open.ts';
import * as state from '../state.ts';
import { IssueList } from './issue-list.tsx';

/** Opening, and what was read: files, their data sheets, and every doubt with its line. */
export function Files() {
  const refused = state.refused.value;
  return (
    <div class="files">
      {refused && (
        <section class="care" aria-labelledby="refused-title">
          <h2 id="refused-title">{refused.file} was not opened</h2>
          <p>What was open still is. This is wrong or doubtful in it:</p>
          <IssueList issues={refused.issues} />
          <p class="actions">
            <button type="button" onClick={() => openAllTheSame(refused)}>
              Open it all the same, to put it right
            </button>
            <button
              type="button"
              onClick={() => {
                state.refused.value = null;
              }}
            >
              Leave it
            </button>
          </p>
        </section>
      )}
      <Open />
      {state.looked.value.map((file) => (
        <Looked key={file.file} file={file} />
      ))}
      <section aria-labelledby="read-title">
        <h2 id="read-title">What {state.fileName} reads</h2>
        {(state.site.value?.sheets ?? []).map((lines) => (
          <pre key={lines[0]}>{lines.join('\n')}</pre>
        ))}
        {state.issues.value.length === 0 ? (
          <p class="soft">No problem and no doubt.</p>
        ) : (
          <IssueList issues={state.issues.value} />
        )}
      </section>
    </div>
  );
}

async function openAllTheSame({ text, file }: { text: string; file: string }): Promise<void> {
  await openText(text, file);
  state.view.value = 'site';
}

function Open() {
  const served = servedSites();
  return (
    <section aria-labelledby="open-title">
      <h2 id="open-title">Open</h2>
      <p>
        Drop a site file and the load and weather files that it names anywhere on this page, or choose them.
        They stay in this browser; nothing is sent anywhere.
        {isSecondTab && ' Another tab of the workbench is open: each tab keeps by itself what is open in it.'}
      </p>
      <p class="actions">
        <label class="choose">
          Choose files
          <input
            type="file"
            multiple
            onChange={(event) => {
              const { files } = event.currentTarget;
              if (files) void openFiles(files);
            }}
          />
        </label>
      </p>
      {served && (
        <>
          <h3>In this folder</h3>
          <ul class="begin">
            {served.map((site) => (
              <li key={site}>
                <button type="button" onClick={() => openServed(site)}>
                  {site}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <h3>Begin with</h3>
      <ul class="begin">
        {DEMOS.map((demo) => (
          <li key={demo.file}>
            <button type="button" onClick={() => openDemo(demo)}>
              {demo.name}
            </button>{' '}
            {demo.about}; invented
          </li>
        ))}
        <li>
          <button type="button" onClick={() => openEmpty()}>
            An empty site
          </button>{' '}
          the least that can be simulated, to be filled in
        </li>
      </ul>
      {state.fileNames.value.length > 0 && (
        <p class="soft">
          Files that this page holds: {state.fileNames.value.join(', ')}.{' '}
          <button type="button" class="quiet" onClick={() => forgetFiles()}>
            Forget them
          </button>
        </p>
      )}
    </section>
  );
}

function Looked({ file: { file, kind, lines, issues, entry } }: { file: LookedAtFile }) {
  const isUsed = state.text.value.includes(file);
  return (
    <section aria-labelledby={`looked-${file}`}>
      <h2 id={`looked-${file}`}>{file}</h2>
      {lines.length > 0 && <pre>{lines.join('\n')}</pre>}
      <IssueList issues={issues} />
      {kind === 'none' && !isUsed && <p>It cannot be used as it is.</p>}
      {kind === 'log' ? (
        <p>
          It is the site’s own log. The year is simulated without it; the command “darkweek log” reads it.
        </p>
      ) : (
        isUsed && <p class="soft">The site file names it.</p>
      )}
      {entry && !isUsed && (
        <p class="actions">
          {kind === 'weather' ? (
            <button
              type="button"
              class="main"
              onClick={() => edit(withValue(state.text.value, ['weather'], entry))}
            >
              Use it as the weather
            </button>
          ) : (
            <>
              <button
                type="button"
                class="main"
                onClick={() => edit(withValue(state.text.value, ['load'], [entry]))}
              >
                Use it as the load
              </button>
              <button type="button" onClick={() => edit(withLoadAdded(entry))}>
                Add it to the load
              </button>
            </>
          )}
        </p>
      )}
    </section>
  );
}

function withLoadAdded(entry: Record<string, unknown>): string {
  const count = state.fields.value.find(({ path }) => path === 'load')?.children.length ?? 0;
  return withValue(state.text.value, ['load', count], entry);
}
