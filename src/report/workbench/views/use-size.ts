import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

/** The width of an element as it is laid out [px]. */
export function useWidth<T extends Element>(): [RefObject<T | null>, number] {
  const element = useRef<T>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const { current } = element;
    if (!current) return;
    setWidth(Math.floor(current.getBoundingClientRect().width));
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry.contentRect.width)));
    observer.observe(current);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}

/** Whether the system asks for dark; false while printing. */
export function useDark(): boolean {
  const [dark, setDark] = useState(() => matchMedia('(prefers-color-scheme: dark)').matches);
  useEffect(() => {
    const query = matchMedia('(prefers-color-scheme: dark)');
    const follow = () => setDark(query.matches);
    const light = () => setDark(false);
    query.addEventListener('change', follow);
    addEventListener('beforeprint', light);
    addEventListener('afterprint', follow);
    return () => {
      query.removeEventListener('change', follow);
      removeEventListener('beforeprint', light);
      removeEventListener('afterprint', follow);
    };
  }, []);
  return dark;
}
