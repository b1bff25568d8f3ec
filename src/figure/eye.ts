/** The eyes: globes with the cornea's bulge, looking straight ahead. */
import { CORNEA, GLOBE, IRIS_RADIUS, type Point, PUPIL_RADIUS } from "./measures.ts";
import { skinOver } from "./solids.ts";
import { type Eye, MATERIAL, type Mesh } from "./types.ts";

const CM = 0.01;
const AROUND = 32;

export function eyeOn(side: 1 | -1): Eye {
  const centre = [GLOBE.ahead * CM, side * GLOBE.aside * CM, GLOBE.up * CM] as const;
  return {
    centre,
    globeRadius: GLOBE.radius * CM,
    corneaCentre: [centre[0] + CORNEA.ahead * CM, centre[1], centre[2]],
    corneaRadius: CORNEA.radius * CM,
    irisRadius: IRIS_RADIUS * CM,
  };
}

/** Loops round the line of sight: pupil, iris, then the white, closer together where the cornea meets the globe. */
const PUPIL_LOOPS = 2;
const IRIS_LOOPS = 6;
const WHITE_LOOPS = 12;

export function eyeBall(eye: Eye): Mesh {
  const [x, y, z] = eye.centre;
  const ahead = eye.corneaCentre[0] - x;
  const depth = (lateral: number) => {
    const globe = Math.sqrt(Math.max(0, eye.globeRadius ** 2 - lateral ** 2));
    const within = eye.corneaRadius ** 2 - lateral ** 2;
    return within > 0 ? Math.max(globe, ahead + Math.sqrt(within)) : globe;
  };
  const laterals: [number, number][] = [];
  for (let i = 1; i <= PUPIL_LOOPS; i++) laterals.push(at((PUPIL_RADIUS * CM * i) / PUPIL_LOOPS));
  for (let i = 1; i <= IRIS_LOOPS; i++)
    laterals.push(at(CM * (PUPIL_RADIUS + ((IRIS_RADIUS - PUPIL_RADIUS) * i) / IRIS_LOOPS)));
  const edge = Math.asin((IRIS_RADIUS * CM) / eye.globeRadius);
  for (let i = 1; i < WHITE_LOOPS; i++) {
    const polar = edge + ((Math.PI - edge) * i) / WHITE_LOOPS;
    const lateral = eye.globeRadius * Math.sin(polar);
    laterals.push(polar < Math.PI / 2 ? at(lateral) : [lateral, eye.globeRadius * Math.cos(polar)]);
  }
  function at(lateral: number): [number, number] {
    return [lateral, depth(lateral)];
  }
  const loops = laterals.map(([lateral, deep]) =>
    Array.from({ length: AROUND }, (_, i): Point => {
      const turn = (2 * Math.PI * i) / AROUND;
      return [x + deep, y + lateral * Math.cos(turn), z + lateral * Math.sin(turn)];
    }),
  );
  return skinOver([x + depth(0), y, z], loops, [x - eye.globeRadius, y, z], (band) =>
    band < PUPIL_LOOPS ? MATERIAL.pupil : band < PUPIL_LOOPS + IRIS_LOOPS ? MATERIAL.iris : MATERIAL.sclera,
  );
}
