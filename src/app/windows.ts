/** The other windows of this browser, which share what is kept beside the hand. */
import type { News } from "../workbench/index.ts";

/** What the server tells, and its greeting: whoever hears that may have missed something. */
export type ServerWord = News | { readonly kind: "hello" };

export type WindowWord =
  | { readonly kind: "kept"; readonly key: string }
  | { readonly kind: "server"; readonly word: ServerWord };

export interface Windows {
  /** to all others, never to this one */
  tell(word: WindowWord): void;
  /** The answer ends it. */
  subscribe(listener: (word: WindowWord) => void): () => void;
}

export function openWindows(): Windows {
  const channel = new BroadcastChannel("tapemark");
  return {
    tell: (word) => channel.postMessage(word),
    subscribe(listener) {
      const hear = (event: MessageEvent<WindowWord>) => listener(event.data);
      channel.addEventListener("message", hear);
      return () => channel.removeEventListener("message", hear);
    },
  };
}
