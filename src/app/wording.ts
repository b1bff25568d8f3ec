/** What is read, said in the words of the house: state, margin, remedy. */
import {
  type FaceReading,
  type GroupReading,
  litSideWords,
  type PlanReading,
  patternName,
  ratioNumberWords,
  ratioStopsWords,
  shineWords,
} from "../reading/index.ts";

/** "the cellist", but "Maria": what somebody is has an article, a name has none. */
export const theOne = (name: string) => (/^\p{Lu}/u.test(name) ? name : `the ${name}`);

/** "−0.4", "+1.2", "0.0": stops with a true minus sign. */
export function signedStops(stops: number): string {
  const tenths = Math.round(stops * 10) / 10;
  if (tenths === 0) return "0.0";
  return `${tenths < 0 ? "−" : "+"}${Math.abs(tenths).toFixed(1)}`;
}

export interface Words {
  readonly strong: string;
  readonly rest: string;
  readonly detail: string;
}

export function ratioWords(face: FaceReading): Words {
  const strong = ratioStopsWords(face);
  if (strong === null) return { strong: "No ratio", rest: "", detail: ratioNumberWords(face) };
  return { strong, rest: "cheek to cheek", detail: ratioNumberWords(face) };
}

/** How evenly a group is lit, and who shades whom. */
export function groupWords(group: GroupReading): Words {
  const worst = [...group.shading].sort((a, b) => b.share - a.share)[0];
  const shade =
    worst === undefined
      ? "nobody stands in another's light"
      : `${worst.by} takes ${percent(worst.share)} of ${worst.light} from ${worst.on}`;
  if (group.spreadStops === null)
    return { strong: "No spread", rest: `${group.darkest} is dark`, detail: shade };
  const stops = group.spreadStops.toFixed(1);
  return {
    strong: `${stops} ${stops === "1.0" ? "stop" : "stops"}`,
    rest: "across the faces",
    detail: `${group.brightest} brightest, ${group.darkest} darkest; ${shade}`,
  };
}

export function headroomWords(camera: PlanReading["camera"]): Words & { readonly over: boolean } {
  const { headroomStops, clipped } = camera;
  if (headroomStops === null) {
    return { strong: "No skin", rest: "in the frame", detail: frameClippedWords(clipped.frame), over: false };
  }
  const amount = Math.abs(headroomStops).toFixed(1);
  const over = headroomStops < 0;
  const shine = shineWords(camera);
  const clips = over ? `${percent(clipped.skin)} of the skin clips` : frameClippedWords(clipped.frame);
  return {
    strong: `${amount} ${amount === "1.0" ? "stop" : "stops"}`,
    rest: over ? "over, skin clips" : "to clipping",
    detail: shine === null ? clips : `${clips}; ${shine}`,
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

/** "1 plan", "2 plans" */
export const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

/** Words that begin a line of their own. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
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
