import * as state from './state.ts';

/** Hands the site file to the browser to be saved, comments and all: what the command line reads. */
export function save(): void {
  const url = URL.createObjectURL(new Blob([state.text.value], { type: 'text/plain' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = state.fileName.value || 'site.yaml';
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
  state.savedText.value = state.text.value;
  state.said.value = `${link.download} saved.`;
}
