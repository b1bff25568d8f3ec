import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The size of an element's content box, followed as it changes. */
export function useSize<E extends Element>(): [{ current: E | null }, Size | null] {
  const ref = useRef<E>(null);
  const [size, setSize] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const { width, height } = entry.contentRect;
      setSize((old) => (old?.width === width && old.height === height ? old : { width, height }));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}

/** Whether the screen is as a media query says, followed as it changes. */
export function useMedia(text: string): boolean {
  const [isSo, set] = useState(() => matchMedia(text).matches);
  useEffect(() => {
    const query = matchMedia(text);
    const follow = () => set(query.matches);
    follow();
    query.addEventListener("change", follow);
    return () => query.removeEventListener("change", follow);
  }, [text]);
  return isSo;
}

/** For the word that opens something in its own place: it has the keys again once that is closed, unless something else has. */
export function useKeysBack<E extends HTMLElement>(isOpen: boolean): { current: E | null } {
  const ref = useRef<E>(null);
  const wasOpen = useRef(isOpen);
  useLayoutEffect(() => {
    if (wasOpen.current && !isOpen && document.activeElement === document.body) ref.current?.focus();
    wasOpen.current = isOpen;
  }, [isOpen]);
  return ref;
}

export interface Readable<T> {
  get(): T;
  subscribe(listener: () => void): () => void;
}

/** Re-render when a store changes. */
export function useStore<T>(store: Readable<T>): T {
  const [value, setValue] = useState(() => store.get());
  useEffect(() => {
    const update = () => setValue(() => store.get());
    update();
    return store.subscribe(update);
  }, [store]);
  return value;
}
