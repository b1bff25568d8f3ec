/** What is read, said in the words of the house: state, margin, remedy. */
import {
  type FaceReading,
  litSideWords,
  type Pattern,
  type PlanReading,
  patternName,
  patternWord,
} from "../reading/index.ts";

/** From the most frontal to the most closed: says whether a change opens or closes the face. */
const CLOSING: readonly Pattern[] = ["flat", "butterfly", "loop", "rembrandt", "split", "rim"];

/** "opens to loop if the head turns 6° toward the light"; null when no turn or tip in reach changes it. */
export function marginWords(face: FaceReading): string | null {
  const { nearest } = face;
  if (nearest === null) return null;
  const here = CLOSING.indexOf(face.pattern);
  const there = CLOSING.indexOf(nearest.pattern);
  const verb = here < 0 || there < 0 ? "turns to" : there < here ? "opens to" : "closes to";
  const moves: string[] = [];
  if (nearest.turnDegrees !== null) moves.push(turnWords(nearest.turnDegrees, face.light.azimuth));
  if (nearest.raiseDegrees !== null) {
    const way = nearest.raiseDegrees > 0 ? "comes up" : "goes down";
    moves.push(`the chin ${way} ${degrees(Math.abs(nearest.raiseDegrees))}`);
  }
  if (moves.length === 0) return null;
  return `${verb} ${patternWord(nearest.pattern)} if ${moves.join(", or ")}`;
}

function turnWords(turn: number, azimuth: number | null): string {
  const amount = degrees(Math.abs(turn));
  // Within a few degrees of straight ahead there is no "toward the light": say the person's own side.
  if (azimuth === null || Math.abs(azimuth) < 3 || Math.abs(azimuth) > 177) {
    return `the head turns ${amount} to own ${turn > 0 ? "left" : "right"}`;
  }
  return `the head turns ${amount} ${turn > 0 === azimuth > 0 ? "toward" : "away from"} the light`;
}

export function degrees(value: number): string {
  const rounded = Math.round(value);
  return `${rounded < 0 ? "−" : ""}${Math.abs(rounded)}°`;
}

/** "−0.4", "+1.2", "0.0": stops with a true minus sign. */
export function signedStops(stops: number): string {
  const tenths = Math.round(stops * 10) / 10;
  if (tenths === 0) return "0.0";
  return `${tenths < 0 ? "−" : "+"}${Math.abs(tenths).toFixed(1)}`;
}

/** "32° to own left, 33° up" */
export function directionWords(light: FaceReading["light"]): string {
  if (light.azimuth === null || light.elevation === null) return "from nowhere in particular";
  const across = Math.round(light.azimuth);
  const up = Math.round(light.elevation);
  const side =
    across === 0 ? "straight ahead" : `${Math.abs(across)}° to own ${across > 0 ? "left" : "right"}`;
  return `${side}, ${up === 0 ? "level" : `${Math.abs(up)}° ${up > 0 ? "up" : "down"}`}`;
}

/** How one-sided the light is: 4 is one small source, 2 a half-sphere, 0 the same from everywhere. */
export function oneSidedWords(vectorScalarRatio: number | null): string {
  if (vectorScalarRatio === null) return "no light";
  if (vectorScalarRatio >= 3) return "nearly all from one side";
  if (vectorScalarRatio >= 2) return "mostly from one side";
  if (vectorScalarRatio >= 1) return "from all round, more from there";
  return "much the same from everywhere";
}

export function edgeWords(face: FaceReading): string {
  return face.shadowEdgeMillimetres === null
    ? "no nose shadow with an edge"
    : `shadow edge ${face.shadowEdgeMillimetres.toFixed(face.shadowEdgeMillimetres < 10 ? 1 : 0)} mm`;
}

export interface Words {
  readonly strong: string;
  readonly rest: string;
  readonly detail: string;
}

export function ratioWords(face: FaceReading): Words {
  if (face.ratioStops === null) {
    return { strong: "No ratio", rest: "", detail: "one cheek receives nothing" };
  }
  const ratio = 2 ** face.ratioStops;
  return {
    strong: `${face.ratioStops.toFixed(1)} ${Math.abs(face.ratioStops - 1) < 0.05 ? "stop" : "stops"}`,
    rest: "cheek to cheek",
    detail: `${ratio < 10 ? ratio.toFixed(1) : ratio.toFixed(0)}:1 lit to shadow`,
  };
}

export function headroomWords(camera: PlanReading["camera"]): Words & { readonly over: boolean } {
  const { headroomStops, clipped } = camera;
  if (headroomStops === null) {
    return { strong: "No skin", rest: "in the frame", detail: frameClippedWords(clipped.frame), over: false };
  }
  const amount = Math.abs(headroomStops).toFixed(1);
  const over = headroomStops < 0;
  return {
    strong: `${amount} ${amount === "1.0" ? "stop" : "stops"}`,
    rest: over ? "over, skin clips" : "to clipping",
    detail: over ? `${percent(clipped.skin)} of the skin clips` : frameClippedWords(clipped.frame),
    over,
  };
}

function frameClippedWords(share: number): string {
  return share > 0 ? `${percent(share)} of the frame clips` : "nothing in the frame clips";
}

export function percent(share: number): string {
  const value = share * 100;
  if (value > 0 && value < 0.1) return "under 0.1 %";
  return `${value < 10 ? value.toFixed(1) : value.toFixed(0)} %`;
}

/** One short sentence for the ear, after a change. */
export function announce(reading: PlanReading, index: number): string {
  const person = reading.people[index];
  const parts: string[] = [];
  if (person !== undefined) {
    const { face } = person;
    const name = reading.people.length > 1 ? `${person.name}: ` : "";
    parts.push(`${name}${patternName(face.pattern)}, ${litSideWords(face)}`);
    if (face.ratioStops !== null) parts.push(`${face.ratioStops.toFixed(1)} stops cheek to cheek`);
  }
  const meter = reading.meters[0];
  if (meter !== undefined) parts.push(`${meter.name} ${meter.fStops}`);
  if (reading.camera.headroomStops !== null) {
    const words = headroomWords(reading.camera);
    parts.push(`${words.strong} ${words.rest}`);
  }
  return parts.length === 0 ? "Nobody to read." : `${parts.join("; ")}.`;
}
