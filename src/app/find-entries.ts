/** What else the brief's form takes: a place on the clock, a list of lenses, names. */
import type { Brief, Want } from "../plan/index.ts";
import { type Entry, FREE } from "./find-spans.ts";

type Catchlight = NonNullable<Want["catchlight"]>;
/** As in the plan: as finely as it is told. */
const WITHIN = 0.5;

/** "1:30", "12:00" */
function hourText(hours: number): string {
  const minutes = Math.round(hours * 60);
  return `${Math.floor(minutes / 60) % 12 || 12}:${String(minutes % 60).padStart(2, "0")}`;
}

export function clockText(clock: Catchlight | null): string {
  if (clock === null) return FREE;
  const minutes = Math.round(clock.within * 60);
  return `${hourText(clock.clock)} ± ${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

const CLOCK = /^(\d{1,2})(?::(\d{2}))?(?:\s*o['’]?clock)?$/i;

function hours(text: string): number | null {
  const match = CLOCK.exec(text.trim());
  if (match === null) return null;
  const [hour, minute] = [Number(match[1]), Number(match[2] ?? 0)];
  return hour <= 12 && minute < 60 ? hour + minute / 60 : null;
}

export function parseClock(typed: string): Entry<Catchlight | null> {
  const text = typed.trim();
  if (/^(|free|any)$/i.test(text)) return { ok: true, value: null };
  const [at = "", within] = text.split(/\s*(?:±|\+\/-|\+-|,?\s*within)\s*/i);
  const clock = hours(at);
  const wide = within === undefined ? WITHIN : hours(within);
  if (clock === null || wide === null)
    return { ok: false, why: `“${text}” is no time on a clock: give one such as 1:30, or 10:30 ± 0:30.` };
  return { ok: true, value: { clock: clock % 12, within: wide } };
}

export function lensesText(lenses: Brief["lenses"]): string {
  return lenses.length === 0 ? "the one that is on" : `${lenses.join(", ")} mm`;
}

export function parseLenses(typed: string): Entry<number[]> {
  const text = typed.trim().replace(/\s*mm$/i, "");
  if (text === "" || /^(the one|free|any)/i.test(text)) return { ok: true, value: [] };
  const lenses = text.split(/\s*(?:,|;|\band\b|\s)\s*/).map((part) => Number(part.replace(/mm$/i, "")));
  if (lenses.some((lens) => !(lens > 0)))
    return {
      ok: false,
      why: `“${typed.trim()}” is no list of lenses: give focal lengths such as 50, 85, 135.`,
    };
  return { ok: true, value: [...new Set(lenses)].sort((a, b) => a - b) };
}

export function parseName(typed: string): Entry<string> {
  const name = typed.replace(/\s+/g, " ").trim();
  return name === "" ? { ok: false, why: "It needs a name." } : { ok: true, value: name };
}
