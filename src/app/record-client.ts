/** Record and contact sheets, made by the program behind the page. */
import type { FrameRow } from "../shoots/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Progress, WorkOptions } from "../workbench/index.ts";
import { ask } from "./server.ts";

/** Both are worked out finely first, on a machine that may be busy: so long may pass without getting on. */
const PATIENCE_MS = 170_000;
/** Asked so often how far it is: a frame takes a second or two. */
const LOOK_MS = 400;

type Asked = WorkOptions & { readonly signal: AbortSignal };

/** Feet are read where letter paper is used. */
function papers(units: LengthUnits): URLSearchParams {
  return new URLSearchParams({ paper: units === "feet" ? "letter" : "a4", units });
}

/** Asks for a sheet, and beside that how far it is. */
async function sheet(
  address: string,
  query: URLSearchParams,
  init: RequestInit,
  { onProgress, signal }: Asked,
): Promise<Blob> {
  const name = crypto.randomUUID();
  query.set("as", name);
  const patience = new AbortController();
  const lost = () => patience.abort(new DOMException("nothing came for minutes", "TimeoutError"));
  let timer = setTimeout(lost, PATIENCE_MS);
  let last = "";
  const look = setInterval(async () => {
    // whether the sheet itself comes is told by the other request
    const answer = await ask(`./api/prints/${name}`, { signal }).catch(() => null);
    const progress = ((await answer?.json().catch(() => null)) ?? null) as Progress | null;
    if (progress === null || JSON.stringify(progress) === last) return;
    last = JSON.stringify(progress);
    clearTimeout(timer);
    timer = setTimeout(lost, PATIENCE_MS);
    onProgress?.(progress);
  }, LOOK_MS);
  try {
    const both = AbortSignal.any([signal, patience.signal]);
    return await (await ask(`${address}?${query}`, { ...init, signal: both })).blob();
  } finally {
    clearInterval(look);
    clearTimeout(timer);
  }
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
  work: Asked,
): Promise<Blob> {
  const query = papers(units);
  if (key !== null) query.set("key", key);
  return sheet(`./api/shoots/${encodeURIComponent(shoot)}/record`, query, {}, work);
}

/** Errors  WorkError with the server's own words */
export async function contactFile(
  planText: string,
  asked: { readonly form: "pdf" | "png"; readonly person: number; readonly units: LengthUnits },
  work: Asked,
): Promise<Blob> {
  const query = papers(asked.units);
  query.set("form", asked.form);
  query.set("person", String(asked.person));
  return sheet("./api/contact", query, { method: "POST", body: planText }, work);
}
