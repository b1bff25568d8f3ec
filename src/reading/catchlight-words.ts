/** Catchlights in words, for the eye and for screen readers. */
import { CATCHLIGHT_FRAME_WIDTH } from "./catchlights.ts";
import type { Catchlight } from "./types.ts";

/** Where more than so many faint ones show, they show all round: places would say nothing. */
const MOST_PLACED = 2;

/** "key at 1:30 in both eyes, 2.1 mm across (18 px in 4000); faint: white panel, floor" */
export function catchlightWords(catchlights: readonly Catchlight[]): string {
  const seen = catchlights.filter((c) => c.visible);
  const lights = namesOf(seen.filter((c) => c.kind === "light")).map((name) =>
    lightWords(
      name,
      seen.filter((c) => c.kind === "light" && c.light === name),
    ),
  );
  const faintNames = namesOf(seen.filter((c) => c.kind !== "light"));
  const faint = faintNames.map((name) => {
    const places = seen.filter((c) => c.kind !== "light" && c.light === name);
    return faintNames.length > MOST_PLACED ? name : `${name} ${placeWords(places)}`;
  });
  const parts = lights.length > 0 ? lights : ["no light in either eye"];
  return [...parts, ...(faint.length > 0 ? [`faint: ${faint.join(", ")}`] : [])].join("; ");
}

function namesOf(catchlights: readonly Catchlight[]): string[] {
  return [...new Set(catchlights.map((c) => c.light))];
}

function lightWords(name: string, places: readonly Catchlight[]): string {
  const [largest] = [...places].sort((a, b) => b.widthMillimetres - a.widthMillimetres);
  const size = largest === undefined ? "" : sizeWords(largest);
  return `${name} ${placeWords(places)}, ${size}`;
}

function placeWords([first, second]: readonly Catchlight[]): string {
  if (first === undefined) return "";
  const at = clockWords(first.clock);
  if (second === undefined) return `at ${at} in the ${first.eye} eye only`;
  const other = clockWords(second.clock);
  return at === other ? `at ${at} in both eyes` : `at ${at} ${first.eye}, ${other} ${second.eye}`;
}

/** Sides that differ by more than this are both told: a strip is not "across". */
const LONG = 1.5;

function sizeWords(c: Catchlight): string {
  const [w, h] = [c.widthMillimetres, c.heightMillimetres];
  if (!(Math.max(w, h) > 0)) return "a point";
  const pixels = (x: number) => (x < 9.5 ? x.toFixed(1) : x.toFixed(0));
  if (Math.max(w, h) > LONG * Math.min(w, h))
    return `${w.toFixed(1)} by ${h.toFixed(1)} mm (${pixels(c.widthPixels)} by ${pixels(c.heightPixels)} px in ${CATCHLIGHT_FRAME_WIDTH})`;
  return `${Math.max(w, h).toFixed(1)} mm across (${pixels(Math.max(c.widthPixels, c.heightPixels))} px in ${CATCHLIGHT_FRAME_WIDTH})`;
}

/** Half hours: "1:30", "10:00". */
export function clockWords(clock: number): string {
  const halves = ((Math.round(clock * 2) % 24) + 24) % 24;
  const hour = Math.floor(halves / 2) || 12;
  return `${hour}:${halves % 2 === 0 ? "00" : "30"}`;
}
