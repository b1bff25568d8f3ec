/** What the page asks of the workbench, over HTTP. */
import type { LengthUnits } from "../units/index.ts";
import type { SentReading } from "../workbench/index.ts";
import type { ConnectionParts } from "./connection.ts";

/** Why something was not done, and what to do. */
export interface Refusal {
  readonly problem: string;
  readonly cure: string;
  /** seconds until it may be tried again; 0 where at once */
  readonly wait_s: number;
}

const AWAY: Refusal = {
  problem: "the workbench does not answer",
  cure: "is this device in the same Wi-Fi, and is sharing still on there?",
  wait_s: 0,
};
const PATIENCE_MS = 8000;

export function liveFrom(units: LengthUnits): ConnectionParts["follow"] {
  return async (signal, { onStatus, onText }) => {
    const answer = await fetch(`./api/live?units=${units}`, { signal, cache: "no-store" });
    onStatus(answer.status);
    if (!answer.ok || answer.body === null) return;
    const reader = answer.body.getReader();
    const decoder = new TextDecoder();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      onText(decoder.decode(value, { stream: true }));
    }
  };
}

/** Null where it was done. */
export const pair = (code: string, name: string) => send("POST", "./pair", { code, name });

export const tick = (thing: string, isPlaced: boolean) => send("PUT", "./api/placed", { thing, isPlaced });

export const sendReading = (reading: SentReading) => send("POST", "./api/readings", reading);

async function send(method: "POST" | "PUT", address: string, body: unknown): Promise<Refusal | null> {
  const abort = new AbortController();
  const timer = setTimeout(() => abort.abort(), PATIENCE_MS);
  try {
    const answer = await fetch(address, {
      method,
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
      signal: abort.signal,
    });
    return answer.ok ? null : refusalOf(await answer.json().catch(() => null), answer);
  } catch {
    return AWAY;
  } finally {
    clearTimeout(timer);
  }
}

function refusalOf(said: unknown, answer: Response): Refusal {
  const wait_s = Math.max(0, Math.ceil(Number(answer.headers.get("retry-after") ?? 0)) || 0);
  if (typeof said === "object" && said !== null && "problem" in said && "cure" in said)
    return { problem: String(said.problem), cure: String(said.cure), wait_s };
  return { ...AWAY, wait_s };
}

export function sheetAddress(units: LengthUnits, language: string): string {
  return `./api/sheet?paper=${isAmerican(language) ? "letter" : "a4"}&units=${units}`;
}

/** Where feet are the tape's, and paper is letter. */
export function isAmerican(language: string): boolean {
  return /^en-(US|LR)$/i.test(language);
}

/** How this device may be called, from what its browser says of itself. */
export function suggestedName(userAgent: string): string {
  if (/iPhone/.test(userAgent)) return "iPhone";
  if (/iPad/.test(userAgent)) return "iPad";
  if (/Android/.test(userAgent)) return /Mobile/.test(userAgent) ? "Android phone" : "Android tablet";
  if (/Macintosh/.test(userAgent)) return "Mac";
  return "the assistant's device";
}
