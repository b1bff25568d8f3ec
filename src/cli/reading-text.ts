/** A reading in words, for people at a terminal. */
import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  betweenWords,
  catchlightWords,
  edgeWords,
  type FaceReading,
  type GroupReading,
  glassesWords,
  goodToWords,
  lightFromWords,
  litSideWords,
  marginLines,
  marginWords,
  notCalibratedWords,
  type PlanReading,
  patternWord,
  ratioNumberWords,
  ratioStopsWords,
  shineWords,
} from "../reading/index.ts";
import { formatFStops, formatStops } from "../units/index.ts";

export function readingText(plan: Plan, reading: PlanReading): string {
  const lines: string[] = [plan.title, ""];
  const width = Math.max(0, ...reading.meters.map((m) => m.name.length));
  reading.meters.forEach((m, i) => {
    const sure = goodToWords(m.uncertaintyStops);
    const read = sure === null ? m.fStops : `${m.fStops}, ${sure}`;
    lines.push(`${m.name.padEnd(width)}  ${read}  (${plan.meters[i].receptor}, ISO ${plan.camera.iso})`);
  });
  if (reading.meters.length > 0) lines.push("");
  for (const { name, face } of reading.people) lines.push(...faceLines(name, face, plan.camera.iso), "");
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
  const guessed = notCalibratedWords(plan);
  if (guessed !== null) lines.push("", guessed);
  return `${lines.join("\n")}\n`;
}

function faceLines(name: string, face: FaceReading, iso: number): string[] {
  const between = betweenWords(face);
  const title = `${name}: ${patternWord(face.pattern)}${between === null ? "" : `, ${between}`}`;
  const lines = [`${title}, ${litSideWords(face)}`];
  const margin = marginWords(face);
  if (margin !== null) lines.push(`  ${margin}`);
  for (const line of marginLines(face)) lines.push(`    ${line}`);
  const stops = ratioStopsWords(face);
  lines.push(`  ${stops === null ? "" : `${stops} cheek to cheek, `}${ratioNumberWords(face)}`);
  const cheek = goodToWords(face.litCheekUncertaintyStops);
  if (cheek !== null) lines.push(`  lit cheek ${fStopsOf(face.litCheek, iso)}, ${cheek}`);
  const from = lightFromWords(face);
  if (from !== null) lines.push(`  light from ${from}, ${face.spread}`);
  if (face.shadowEdgeMillimetres !== null) lines.push(`  ${edgeWords(face)}`);
  lines.push(`  ${catchlightWords(face.catchlights)}`);
  const glasses = glassesWords(face);
  if (glasses !== null) lines.push(`  ${glasses}`);
  return lines;
}

/** As a flat receptor laid on the cheek reads it. */
function fStopsOf(luxSeconds: number, iso: number): string {
  return formatFStops(incidentFNumber(luxSeconds, iso, METER_CONSTANT.flat));
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
