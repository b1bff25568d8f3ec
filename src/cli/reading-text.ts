/** A reading in words, for people at a terminal. */
import type { Plan } from "../plan/index.ts";
import type { FaceReading, PlanReading } from "../reading/index.ts";
import { formatStops } from "../units/index.ts";

const SPREAD = [
  [3.4, "from one place"],
  [2.4, "mostly from one side"],
  [1.2, "wrapped round"],
  [0, "from all round"],
] as const;

export function readingText(plan: Plan, reading: PlanReading): string {
  const lines: string[] = [plan.title, ""];
  const width = Math.max(0, ...reading.meters.map((m) => m.name.length));
  reading.meters.forEach((m, i) => {
    lines.push(`${m.name.padEnd(width)}  ${m.fStops}  (${plan.meters[i].receptor}, ISO ${plan.camera.iso})`);
  });
  if (reading.meters.length > 0) lines.push("");
  for (const person of reading.people) lines.push(...faceLines(person.name, person.face), "");
  const { headroomStops: room, backgroundStops: background, clipped } = reading.camera;
  if (room !== null)
    lines.push(
      room < 0 ? `skin is ${(-room).toFixed(1)} stop over` : `skin has ${room.toFixed(1)} stop to clipping`,
    );
  if (clipped.frame > 0) lines.push(`${(100 * clipped.frame).toFixed(1)} % of the frame is clipped`);
  if (background !== null)
    lines.push(`the background is ${formatStops(background)} stops from the lit cheek`);
  for (const w of reading.warnings) lines.push("", `! ${w.state}: ${w.margin}`, `  ${w.remedy}`);
  lines.push("", "Not calibrated: within about one stop until a meter has confirmed a reading.");
  return `${lines.join("\n")}\n`;
}

function faceLines(name: string, face: FaceReading): string[] {
  const side = face.side === "square" ? "square to the lens" : `${face.side}, as the camera sees it`;
  const lit = face.litSide === "even" ? "cheeks even" : `own ${face.litSide} lit`;
  const lines = [`${name}: ${face.pattern}, ${lit}, ${side}`];
  const near = face.nearest;
  if (near) {
    const ways: string[] = [];
    if (near.turnDegrees !== null)
      ways.push(
        `the head turns ${degrees(near.turnDegrees)} to own ${near.turnDegrees > 0 ? "left" : "right"}`,
      );
    if (near.raiseDegrees !== null)
      ways.push(`the chin goes ${degrees(near.raiseDegrees)} ${near.raiseDegrees > 0 ? "up" : "down"}`);
    if (ways.length > 0) lines.push(`  becomes ${near.pattern} if ${ways.join(" or ")}`);
  }
  if (face.ratioStops !== null) lines.push(`  ${face.ratioStops.toFixed(1)} stops cheek to cheek`);
  const { azimuth, elevation } = face.light;
  if (azimuth !== null && elevation !== null) {
    const round = Math.round(azimuth);
    const way = round === 0 ? "straight ahead" : `${Math.abs(round)}° to own ${round > 0 ? "left" : "right"}`;
    const spread = SPREAD.find(([least]) => (face.vectorScalarRatio ?? 0) >= least)?.[1] ?? "";
    lines.push(
      `  light from ${way}, ${Math.abs(Math.round(elevation))}° ${elevation < 0 ? "down" : "up"}, ${spread}`,
    );
  }
  if (face.shadowEdgeMillimetres !== null)
    lines.push(`  the nose's shadow fades over ${Math.round(face.shadowEdgeMillimetres)} mm`);
  for (const c of face.catchlights.filter((light) => light.visible))
    lines.push(`  ${c.light} in the ${c.eye} eye at ${clockText(c.clock)}`);
  return lines;
}

function degrees(x: number): string {
  return `${Math.max(1, Math.round(Math.abs(x)))}°`;
}

/** Hours to the nearest half: "half past one" is written 1:30. */
function clockText(clock: number): string {
  const halves = Math.round(clock * 2) % 24;
  const hour = Math.floor(halves / 2) || 12;
  return `${hour}:${halves % 2 ? "30" : "00"}`;
}
