/** A reading in words, for people at a terminal. */
import type { Plan } from "../plan/index.ts";
import {
  betweenWords,
  catchlightWords,
  edgeWords,
  type FaceReading,
  type GroupReading,
  glassesWords,
  lightFromWords,
  litSideWords,
  marginLines,
  marginWords,
  type PlanReading,
  patternWord,
  ratioNumberWords,
  ratioStopsWords,
  shineWords,
} from "../reading/index.ts";
import { formatStops } from "../units/index.ts";

export function readingText(plan: Plan, reading: PlanReading): string {
  const lines: string[] = [plan.title, ""];
  const width = Math.max(0, ...reading.meters.map((m) => m.name.length));
  reading.meters.forEach((m, i) => {
    lines.push(`${m.name.padEnd(width)}  ${m.fStops}  (${plan.meters[i].receptor}, ISO ${plan.camera.iso})`);
  });
  if (reading.meters.length > 0) lines.push("");
  for (const person of reading.people) lines.push(...faceLines(person.name, person.face), "");
  if (reading.group !== null) lines.push(...groupLines(reading.group), "");
  const { headroomStops: room, backgroundStops: background, clipped } = reading.camera;
  if (room !== null)
    lines.push(
      room < 0 ? `skin is ${(-room).toFixed(1)} stop over` : `skin has ${room.toFixed(1)} stop to clipping`,
    );
  const shine = shineWords(reading.camera);
  if (shine !== null) lines.push(`  its ${shine} of that`);
  if (clipped.frame > 0) lines.push(`${(100 * clipped.frame).toFixed(1)} % of the frame is clipped`);
  if (background !== null)
    lines.push(`the background is ${formatStops(background)} stops from the lit cheek`);
  for (const w of reading.warnings) lines.push("", `! ${w.state}: ${w.margin}`, `  ${w.remedy}`);
  lines.push("", "Not calibrated: within about one stop until a meter has confirmed a reading.");
  return `${lines.join("\n")}\n`;
}

function faceLines(name: string, face: FaceReading): string[] {
  const between = betweenWords(face);
  const title = `${name}: ${patternWord(face.pattern)}${between === null ? "" : `, ${between}`}`;
  const lines = [`${title}, ${litSideWords(face)}`];
  const margin = marginWords(face);
  if (margin !== null) lines.push(`  ${margin}`);
  for (const line of marginLines(face)) lines.push(`    ${line}`);
  const stops = ratioStopsWords(face);
  lines.push(`  ${stops === null ? "" : `${stops} cheek to cheek, `}${ratioNumberWords(face)}`);
  const from = lightFromWords(face);
  if (from !== null) lines.push(`  light from ${from}, ${face.spread}`);
  if (face.shadowEdgeMillimetres !== null) lines.push(`  ${edgeWords(face)}`);
  lines.push(`  ${catchlightWords(face.catchlights)}`);
  const glasses = glassesWords(face);
  if (glasses !== null) lines.push(`  ${glasses}`);
  return lines;
}

function groupLines({ spreadStops, brightest, darkest, shading }: GroupReading): string[] {
  const lines = [
    spreadStops === null
      ? `${darkest} is dark`
      : `the faces lie within ${spreadStops.toFixed(1)} stops; ${brightest} is brightest, ${darkest} darkest`,
  ];
  for (const { light, by, on, share } of shading)
    lines.push(`${by} takes ${Math.round(100 * share)} % of ${light} from ${on}`);
  return lines;
}
