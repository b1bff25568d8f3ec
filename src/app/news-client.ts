/** News from the server. Of all windows of a browser one listens and passes on: a browser holds six connections to one
 * server, and each window that listened would keep one for good. */
import type { NewsFeed } from "../workbench/index.ts";
import type { ServerWord, Windows } from "./windows.ts";

const NEWS = "./api/news";
/** A server that refuses is asked again, not often. */
const AGAIN_MS = 15_000;

export interface ServerNews extends NewsFeed {
  /** Called when the server is there again, or another window listens: something may have been missed. The answer ends it. */
  onHello(listener: () => void): () => void;
}

export function connectNews(windows: Windows): ServerNews {
  const listeners = new Set<(word: ServerWord) => void>();
  const hear = (word: ServerWord) => {
    for (const listener of [...listeners]) listener(word);
  };
  windows.subscribe((word) => {
    if (word.kind === "server") hear(word.word);
  });
  const pass = (word: ServerWord) => {
    hear(word);
    windows.tell({ kind: "server", word });
  };
  if (navigator.locks === undefined) listen(hear);
  // held until this window goes; then the next one listens
  else void navigator.locks.request("tapemark-news", () => new Promise<never>(() => listen(pass)));
  const add = (listener: (word: ServerWord) => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  };
  return {
    subscribe: (listener) =>
      add((word) => {
        if (word.kind !== "hello") listener(word);
      }),
    onHello: (listener) =>
      add((word) => {
        if (word.kind === "hello") listener();
      }),
  };
}

function listen(hear: (word: ServerWord) => void): void {
  const source = new EventSource(NEWS);
  source.onmessage = (event: MessageEvent<string>) => hear(JSON.parse(event.data) as ServerWord);
  source.onerror = () => {
    // one that does not answer is asked again by the browser itself
    if (source.readyState === EventSource.CLOSED) setTimeout(() => listen(hear), AGAIN_MS);
  };
}

/** Where no server is behind the page. */
export const NO_NEWS: ServerNews = { subscribe: () => () => false, onHello: () => () => false };
