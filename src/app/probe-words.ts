import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import { formatFStops } from "../units/index.ts";
import type { Probe } from "./field-probe.ts";
import { signedStops } from "./wording.ts";

export interface ProbeWords {
  readonly power: string;
  readonly direction: string;
  readonly receptor: string;
}

/** "f/4 + 0.5 · −1.5 stops", "from 208°, 28° up", "dome turned to the light" */
export function probeWords(probe: Probe, iso: number): ProbeWords {
  const receptor = "dome turned to the light";
  if (!(probe.luxSeconds > 0)) return { power: "no light here", direction: "", receptor };
  const fStops = formatFStops(incidentFNumber(probe.luxSeconds, iso, METER_CONSTANT.dome));
  const stops = Number.isFinite(probe.stops) ? ` · ${signedStops(probe.stops)} stops` : "";
  return { power: `${fStops}${stops}`, direction: directionWords(probe), receptor };
}

function directionWords({ bearing, tilt }: Probe): string {
  if (bearing === null || tilt === null) return "from everywhere alike";
  const up = Math.round(tilt);
  return `from ${Math.round(bearing) % 360}°, ${Math.abs(up)}° ${up < 0 ? "down" : "up"}`;
}

/** The same in one line, for the ear. */
export function probeSentence(probe: Probe, iso: number): string {
  const { power, direction, receptor } = probeWords(probe, iso);
  return [power, direction, receptor].filter((part) => part !== "").join(", ");
}
