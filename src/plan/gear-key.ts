/** Which head it is, so that what was measured of it is not taken for another's. */
import { formOf } from "./output.ts";
import type { StandingLight } from "./schema.ts";

/** Equal for two lights exactly where the same correction serves both: the same name, the same front, and an output told the
 * same way of the same full power, however far it is turned down. Without a dial full power is not known, and name, form and
 * front must do. */
export function gearKey(light: Pick<StandingLight, "name" | "face" | "output">): string {
  return [light.name, frontKey(light.face), fullKey(light.output)].join(" | ");
}

function frontKey(face: StandingLight["face"]): string {
  switch (face.shape) {
    case "point":
      return "point";
    case "rectangle":
      return `rectangle ${face.width} x ${face.height} m`;
    case "polygon":
      return `polygon of ${face.sides}, ${face.width} m`;
    case "disc":
      return `disc ${face.width} m`;
  }
}

function fullKey(output: StandingLight["output"]): string {
  if ("wattSeconds" in output) {
    const { wattSeconds, lumensPerWatt, efficiency } = output;
    // what the head is taken to give at full: another guess of tube and front is corrected by another amount
    return `${wattSeconds} Ws as ${Number((wattSeconds * lumensPerWatt * efficiency).toPrecision(6))} lm.s`;
  }
  if ("guideNumber" in output) return `guide number ${output.guideNumber} m at ISO ${output.iso}`;
  return formOf(output);
}
