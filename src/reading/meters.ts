/** What each meter of a plan reads. */

import { incidentFNumber, METER_CONSTANT, reflectedFNumber } from "../photometry/index.ts";
import { directionOf, type Meter, type Plan } from "../plan/index.ts";
import { formatFStops } from "../units/index.ts";
import { uncertaintyStops } from "./certainty.ts";
import { fieldsAt, type LightField, type Spot, totalField } from "./field.ts";
import type { Lighting } from "./lighting.ts";
import { spotLuminance } from "./spot.ts";
import type { MeterReading, Share } from "./types.ts";

/** Directions a meter looks in for bounced light: coarse for dragging, fine for 1 % beside a lit wall. */
const METER_RAYS = { coarse: 256, fine: 3072 } as const;
const DEGREE = Math.PI / 180;

export function unitVector(bearing_deg: number, tilt_deg: number): [number, number, number] {
  const c = Math.cos(tilt_deg * DEGREE);
  return [
    c * Math.sin(bearing_deg * DEGREE),
    c * Math.cos(bearing_deg * DEGREE),
    Math.sin(tilt_deg * DEGREE),
  ];
}

export function spotsOfMeters(plan: Plan): Spot[] {
  return plan.meters.map((m) => {
    const d = directionOf(m.direction, m.position);
    return { position: m.position, direction: unitVector(d.bearing_deg, d.tilt_deg) };
  });
}

export function readMeters(lighting: Lighting): MeterReading[] {
  const { meters } = lighting.stage.plan;
  const spots = spotsOfMeters(lighting.stage.plan);
  const rays = METER_RAYS[lighting.quality];
  const fields = fieldsAt(lighting, "meters", spots, rays, "meter");
  return meters.map((meter, i) => readMeter(lighting, meter, spots[i], fields[i]));
}

function readMeter(
  lighting: Lighting,
  meter: Meter,
  spot: Spot,
  fields: readonly LightField[],
): MeterReading {
  const byLight =
    meter.receptor === "spot" ? spotLuminance(lighting, spot) : incidentShares(lighting, meter, spot, fields);
  let luxSeconds = 0;
  for (const share of Object.values(byLight)) luxSeconds += share.direct + share.bounced;
  const iso = lighting.stage.plan.camera.iso;
  // a spot meter's share is pi L, the exposure of a white surface that would look so
  const fNumber =
    meter.receptor === "spot"
      ? reflectedFNumber(luxSeconds / Math.PI, iso)
      : incidentFNumber(luxSeconds, iso, METER_CONSTANT[meter.receptor]);
  const total = totalField(lighting, fields);
  const scalar = total[0] / 4;
  const length = Math.hypot(total[1], total[2], total[3]);
  const nowhere = !(length > 1e-12 * scalar) || scalar === 0;
  return {
    name: meter.name,
    luxSeconds,
    fNumber,
    fStops: formatFStops(fNumber),
    uncertaintyStops: uncertaintyStops(lighting.stage.plan, byLight),
    byLight,
    vector: {
      bearing: nowhere ? null : (Math.atan2(total[1], total[2]) / DEGREE + 360) % 360,
      tilt: nowhere ? null : Math.asin(Math.max(-1, Math.min(1, total[3] / length))) / DEGREE,
      luxSeconds: length,
    },
    scalarLuxSeconds: scalar,
    vectorScalarRatio: scalar > 0 ? length / scalar : null,
  };
}

/** Dome: integral of L (1 + cos) / 2 over the sphere, so half of sum and component together. */
function incidentShares(
  lighting: Lighting,
  meter: Meter,
  spot: Spot,
  fields: readonly LightField[],
): Record<string, Share> {
  const dome = meter.receptor === "dome";
  const [x, y, z] = spot.direction;
  const read = (q: Float64Array, at: number) => (q[at] + x * q[at + 1] + y * q[at + 2] + z * q[at + 3]) / 2;
  const out: Record<string, Share> = {};
  fields.forEach((field, i) => {
    if (!lighting.stage.lights[i].on) return;
    const { name, lumenSeconds, meterWeights } = lighting.stage.lights[i];
    let direct = 0;
    let bounced = 0;
    for (let c = 0; c < 3; c++) {
      direct += meterWeights[c] * (dome ? read(field.direct, 0) : field.directFlat);
      bounced += meterWeights[c] * (dome ? read(field.bounced, 4 * c) : field.bouncedFlat[c]);
    }
    out[name] = { direct: lumenSeconds * direct, bounced: lumenSeconds * bounced };
  });
  const ambient = lighting.stage.ambient;
  if (ambient > 0) out.ambient = { direct: dome ? 2 * ambient : ambient, bounced: 0 };
  return out;
}
