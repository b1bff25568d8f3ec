/** What a face shows, in the words that screen, paper and shell share: state, margin, remedy. */
import type { CameraReading, FaceReading, Margin, Pattern } from "./types.ts";

const PATTERN_NAME: Record<Pattern, string> = {
  flat: "Flat",
  butterfly: "Butterfly",
  loop: "Loop",
  rembrandt: "Rembrandt",
  split: "Split",
  rim: "Rim",
  under: "Under",
  dark: "Dark",
};

/** All that there are, from the most frontal to the most closed, then from below, and the dark. */
export const PATTERNS = Object.keys(PATTERN_NAME) as readonly Pattern[];

/** "Loop"; "Loop, between loop and Rembrandt" is told by `betweenWords`. */
export function patternName(pattern: Pattern): string {
  return PATTERN_NAME[pattern];
}

/** In the middle of a sentence only the painter keeps his capital. */
export function patternWord(pattern: Pattern): string {
  return pattern === "rembrandt" ? PATTERN_NAME.rembrandt : pattern;
}

/** "close to Rembrandt": where a quarter of a stop makes it another name. */
export function betweenWords({ between }: FaceReading): string | null {
  return between === null ? null : `close to ${patternWord(between)}`;
}

export function litSideWords(face: FaceReading): string {
  const lit = face.litSide === "even" ? "both cheeks alike" : `own ${face.litSide} lit`;
  if (face.side === "square") return `${lit}, square to the lens`;
  return face.litSide === "even" ? lit : `${lit}, ${face.side}`;
}

/** From the most frontal to the most closed: says whether a change opens or closes the face. */
const CLOSING: readonly Pattern[] = ["flat", "butterfly", "loop", "rembrandt", "split", "rim"];

function verbTo(from: Pattern, to: Pattern): string {
  const here = CLOSING.indexOf(from);
  const there = CLOSING.indexOf(to);
  return here < 0 || there < 0 ? "turns to" : there < here ? "opens to" : "closes to";
}

/** "opens to loop if the head turns 6° toward the light"; null when no turn or tip in reach changes it. */
export function marginWords(face: FaceReading): string | null {
  const { nearest } = face;
  if (nearest === null) return null;
  const moves: string[] = [];
  if (nearest.turnDegrees !== null) moves.push(turnWords(nearest.turnDegrees, face.light.azimuth));
  if (nearest.raiseDegrees !== null) moves.push(chinWords(nearest.raiseDegrees));
  if (moves.length === 0) return null;
  return `${verbTo(face.pattern, nearest.pattern)} ${patternWord(nearest.pattern)} if ${moves.join(", or ")}`;
}

/** Every way that was found, smallest of its kind first: "loop if key sinks 20 cm". */
export function marginLines(face: FaceReading): string[] {
  return face.margins.map((m) => `${patternWord(m.pattern)} if ${changeWords(m, face)}`);
}

function changeWords({ change, amount, light }: Margin, face: FaceReading): string {
  const much = Math.abs(amount);
  switch (change) {
    case "turn":
      return turnWords(amount, face.light.azimuth);
    case "raise":
      return chinWords(amount);
    case "lightHeight":
      return `${light} ${amount > 0 ? "rises" : "sinks"} ${centimetres(much)}`;
    case "driftAside":
      return `the sitter drifts ${centimetres(much)} to own ${amount > 0 ? "left" : "right"}`;
    case "driftAhead":
      return `the sitter drifts ${centimetres(much)} ${amount > 0 ? "forward" : "back"}`;
  }
}

function centimetres(x: number): string {
  return `${Math.max(1, Math.round(x))} cm`;
}

function turnWords(turn: number, azimuth: number | null): string {
  const amount = degrees(Math.abs(turn));
  // Within a few degrees of straight ahead there is no "toward the light": say the person's own side.
  if (azimuth === null || Math.abs(azimuth) < 3 || Math.abs(azimuth) > 177) {
    return `the head turns ${amount} to own ${turn > 0 ? "left" : "right"}`;
  }
  return `the head turns ${amount} ${turn > 0 === azimuth > 0 ? "toward" : "away from"} the light`;
}

function chinWords(raise: number): string {
  return `the chin ${raise > 0 ? "comes up" : "goes down"} ${degrees(Math.abs(raise))}`;
}

function degrees(value: number): string {
  return `${Math.max(1, Math.round(value))}°`;
}

/** "1.7 stops", or null where one cheek gets nothing. */
export function ratioStopsWords({ ratioStops }: FaceReading): string | null {
  if (ratioStops === null) return null;
  const text = ratioStops.toFixed(1);
  return `${text} ${text === "1.0" ? "stop" : "stops"}`;
}

/** "3.2:1 lit to shadow, 2.2:1 key to fill": both conventions, named. Where both cheeks get the same there is no key over a fill. */
export function ratioNumberWords({ ratio }: FaceReading): string {
  if (ratio.litToShadow === null || ratio.keyToFill === null) return "one cheek gets no light";
  const litToShadow = `${toOne(ratio.litToShadow)} lit to shadow`;
  return ratio.keyToFill < 0.05 ? litToShadow : `${litToShadow}, ${toOne(ratio.keyToFill)} key to fill`;
}

function toOne(n: number): string {
  return `${n < 9.95 ? n.toFixed(1) : n.toFixed(0)}:1`;
}

/** "32° to own left, 33° up"; straight up or down there is no side. */
export function fromNoseWords(azimuth: number, elevation: number): string {
  const side = Math.round(azimuth);
  const up = Math.round(elevation);
  if (Math.abs(up) >= 80)
    return `${up > 0 ? "overhead" : "underfoot"}, ${Math.abs(up)}° ${up > 0 ? "up" : "down"}`;
  const ownSide = `${Math.abs(side)}° to own ${side > 0 ? "left" : "right"}`;
  const across = side === 0 ? "straight ahead" : Math.abs(side) === 180 ? "straight behind" : ownSide;
  return `${across}, ${up === 0 ? "level" : `${Math.abs(up)}° ${up > 0 ? "up" : "down"}`}`;
}

/** Null where nothing arrives, or as much from everywhere. */
export function lightFromWords({ light }: FaceReading): string | null {
  if (light.azimuth === null || light.elevation === null) return null;
  return fromNoseWords(light.azimuth, light.elevation);
}

export function edgeWords({ shadowEdgeMillimetres: edge }: FaceReading): string {
  return edge === null
    ? "no nose shadow with an edge"
    : `the nose's shadow fades over ${edge.toFixed(edge < 10 ? 1 : 0)} mm`;
}

/** "shine takes 0.2 stop": what its glints cost the skin of its headroom; null under a tenth. */
export function shineWords({ headroomStops, withoutShine }: CameraReading): string | null {
  if (headroomStops === null || withoutShine.headroomStops === null) return null;
  const cost = withoutShine.headroomStops - headroomStops;
  return cost < 0.05 ? null : `shine takes ${cost.toFixed(1)} stop`;
}

/** What lies on the lenses, and what clears them; null for nobody's glasses. */
export function glassesWords({ glasses }: FaceReading): string | null {
  if (glasses === null) return null;
  const over = glasses.reflections.filter((r) => r.overPupil);
  const named = [...new Set((over.length > 0 ? over : glasses.reflections).map((r) => r.light))];
  if (named.length === 0) return "glasses clear";
  const state = `${named.join(" and ")} on the glasses${over.length > 0 ? ", over the pupil" : ""}`;
  return glasses.clears === null ? state : `${state}; clear if ${clearWords(glasses.clears)}`;
}

function clearWords({ change, amount, light }: NonNullable<NonNullable<FaceReading["glasses"]>["clears"]>) {
  if (change === "raise") return chinWords(amount);
  if (change === "turn")
    return `the head turns ${degrees(Math.abs(amount))} to own ${amount > 0 ? "left" : "right"}`;
  return `${light} ${amount > 0 ? "rises" : "sinks"} ${centimetres(Math.abs(amount))}`;
}
