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
