import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { lengthText } from "./entries.ts";

const count = (n: number, one: string, many = `${one}s`) => (n === 0 ? [] : [`${n} ${n === 1 ? one : many}`]);

/** What is in a plan, in one line: "1 light, 1 person, paper; room 7.00 × 9.00 m". */
export function contentsLine(plan: Plan, units: LengthUnits): string {
  const things = [
    ...count(plan.lights.length, "light"),
    ...count(plan.people.length, "person", "people"),
    ...count(plan.panels.length, "panel"),
    ...(plan.backdrop === null ? [] : [plan.backdrop.kind]),
  ];
  return `${things.length === 0 ? "nothing yet" : things.join(", ")}; ${roomWords(plan, units)}`;
}

/** Kept together at the end of a line. */
function roomWords({ room }: Plan, units: LengthUnits): string {
  if (room === null) return "open space";
  const sides = [room.width, room.depth].map((side) => lengthText(side, units));
  return `room ${sides.join(" × ").replace(" m ×", " ×")}`.replaceAll(" ", "\u00a0");
}

/** A title of two parts, "Split, from the manual: the main light …", is a title and its line. */
export function titleAndLine(title: string): [title: string, line: string | null] {
  const colon = title.indexOf(": ");
  if (colon < 0) return [title, null];
  const line = title.slice(colon + 2);
  return [title.slice(0, colon), line];
}

const DAY_MS = 24 * 60 * 60 * 1000;

/** "today 14:02", "yesterday 09:15", "3 Nov 2026". */
export function whenText(savedAt: string, now: Date): string {
  const then = new Date(savedAt);
  if (Number.isNaN(then.getTime()) || then.getTime() === 0) return "";
  const midnight = new Date(now.getFullYear(), now.getMonth(), now.getDate()).getTime();
  const clock = `${two(then.getHours())}:${two(then.getMinutes())}`;
  if (then.getTime() >= midnight) return `today ${clock}`;
  if (then.getTime() >= midnight - DAY_MS) return `yesterday ${clock}`;
  return `${then.getDate()} ${MONTHS[then.getMonth()]} ${then.getFullYear()}`;
}

const two = (n: number) => String(n).padStart(2, "0");
export const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
