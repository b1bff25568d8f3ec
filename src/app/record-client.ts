/** Record and contact sheets, made by the program behind the page. */
import type { FrameRow } from "../shoots/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { ask } from "./server.ts";

/** Both are worked out finely first, on a machine that may be busy. */
const PATIENCE_MS = 170_000;

/** Feet are read where letter paper is used. */
function papers(units: LengthUnits): URLSearchParams {
  return new URLSearchParams({ paper: units === "feet" ? "letter" : "a4", units });
}

function within(signal: AbortSignal): AbortSignal {
  return AbortSignal.any([signal, AbortSignal.timeout(PATIENCE_MS)]);
}

/** The photographs that a record of that plan would have, the pick first. */
export async function recordFrames(shoot: string, key: string): Promise<readonly FrameRow[]> {
  const address = `./api/shoots/${encodeURIComponent(shoot)}/record/frames?key=${encodeURIComponent(key)}`;
  return (await (await ask(address)).json()) as FrameRow[];
}

/** `key`: of which plan of the shoot; that of its pick where it is null.
 * Errors  WorkError with the server's own words */
export async function recordPdf(
  shoot: string,
  key: string | null,
  units: LengthUnits,
  signal: AbortSignal,
): Promise<Blob> {
  const query = papers(units);
  if (key !== null) query.set("key", key);
  const address = `./api/shoots/${encodeURIComponent(shoot)}/record?${query}`;
  return (await ask(address, { signal: within(signal) })).blob();
}

/** Errors  WorkError with the server's own words */
export async function contactFile(
  planText: string,
  asked: { readonly form: "pdf" | "png"; readonly person: number; readonly units: LengthUnits },
  signal: AbortSignal,
): Promise<Blob> {
  const query = papers(asked.units);
  query.set("form", asked.form);
  query.set("person", String(asked.person));
  return (
    await ask(`./api/contact?${query}`, { method: "POST", body: planText, signal: within(signal) })
  ).blob();
}
