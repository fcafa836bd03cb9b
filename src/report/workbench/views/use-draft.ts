import { useEffect, useRef, useState } from 'preact/hooks';

/**
 * What is being typed stays, whatever is worked out meanwhile; what was worked out shows once the field is left.
 * @param text   what the field shows while nothing is typed
 * @param answer a new one takes the place of what was typed, where the field has been left
 * @returns what a text field is given; its ref too
 */
export function useDraft<Box extends HTMLInputElement | HTMLTextAreaElement>(
  text: string,
  answer: unknown = text,
) {
  const [draft, setDraft] = useState<string | null>(null);
  const ref = useRef<Box>(null);
  useEffect(() => {
    if (document.activeElement !== ref.current) setDraft(null);
  }, [answer]);
  return {
    ref,
    value: draft ?? text,
    onInput: (event: { currentTarget: Box }) => setDraft(event.currentTarget.value),
    onBlur: () => {
      if (draft === '') setDraft(null);
    },
  };
}
