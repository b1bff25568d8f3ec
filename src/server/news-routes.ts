/** News over the wire: pages follow it by server-sent events, and say which work is on the table. */
import type { Hono } from "hono";
import type { Hand } from "../library/index.ts";
import type { NewsDesk } from "../workbench/index.ts";

export interface NewsParts {
  readonly news: NewsDesk;
  readonly hand: Hand;
}

/** So that a connection that was cut is noticed on either side. */
const BEAT_MS = 15_000;
/** News that a page has not fetched; one that is so far behind begins anew. */
const MOST_UNREAD = 256;
const MOST_PAGES = 64;

const HEADERS = { "content-type": "text/event-stream", "cache-control": "no-store" };
/** Whoever connects again may have missed something: it asks for what it shows once it is greeted. */
const HELLO = `retry: 1000\ndata: ${JSON.stringify({ kind: "hello" })}\n\n`;

export function addNewsRoutes(app: Hono, { news, hand }: NewsParts): void {
  let pages = 0;
  app.get("/api/news", (c) => {
    if (c.req.method === "HEAD") return c.body(null, 200, HEADERS);
    if (pages >= MOST_PAGES)
      return c.json({ problem: `${pages} pages follow the news already`, cure: "close some windows" }, 429);
    pages++;
    return c.body(
      newsStream(news, () => pages--),
      200,
      HEADERS,
    );
  });
  app.put("/api/hand", async (c) => {
    const asked = (await c.req.json<unknown>().catch(() => null)) as { key?: unknown } | null;
    if (asked?.key !== null && typeof asked?.key !== "string")
      return c.json({ problem: "that names no work", cure: "reload the page" }, 400);
    hand.set(asked.key);
    return c.body(null, 204);
  });
}

function newsStream(news: NewsDesk, onEnd: () => void): ReadableStream<Uint8Array> {
  const text = new TextEncoder();
  let end = () => {};
  return new ReadableStream<Uint8Array>({
    start(controller) {
      const send = (what: string) => {
        controller.enqueue(text.encode(what));
        if ((controller.desiredSize ?? 0) > -MOST_UNREAD) return;
        end();
        controller.close();
      };
      const unsubscribe = news.subscribe((each) => send(`data: ${JSON.stringify(each)}\n\n`));
      const timer = setInterval(() => send(": still here\n\n"), BEAT_MS);
      timer.unref();
      end = () => {
        end = () => {};
        unsubscribe();
        clearInterval(timer);
        onEnd();
      };
      send(HELLO);
    },
    cancel: () => end(),
  });
}
