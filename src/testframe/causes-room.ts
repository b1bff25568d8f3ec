/** Walls that give back more, or less, than they were drawn with: spill. */
import { luminanceAt } from "../photometry/index.ts";
import type { Plan, Reflectance, Room } from "../plan/index.ts";
import type { Step } from "./causes-steps.ts";

type Wall = keyof Room["reflectance"];

/** One step is a third of the way to white, or to black; walls nearer than this to somebody matter. */
const TOWARD_WHITE = 1 / 3;
const NEAR_M = 6;

const NAMES: Readonly<Record<Wall, string>> = {
  floor: "floor",
  ceiling: "ceiling",
  near: "near wall",
  far: "far wall",
  left: "left wall",
  right: "right wall",
};

/** One for each surface: what it gives back is a guess until it is measured, and a wall that stands nearer than drawn
 * gives more as a lighter one does. */
export function spillSteps(plan: Plan, person: number): Step[] {
  const { room } = plan;
  if (room === null || !room.bounce) return [];
  const [x, y] = plan.people[person].position;
  const away: Readonly<Record<Wall, number>> = {
    left: x,
    right: room.width - x,
    near: y,
    far: room.depth - y,
    floor: 1,
    ceiling: 1,
  };
  return (Object.keys(away) as Wall[])
    .filter((wall) => away[wall] < NEAR_M)
    .map((wall) => ({
      cause: "spill" as const,
      plan: {
        ...plan,
        room: { ...room, reflectance: { ...room.reflectance, [wall]: lighter(room.reflectance[wall]) } },
      },
      isWhole: false,
      usual: 1,
      least: -2,
      most: 3,
      unlikely: wall === "left" || wall === "right" ? 0.5 : 1.5,
      words: (n: number) => wordsOf(wall, n, room, away[wall]),
    }));
}

function lighter(reflectance: Reflectance): Reflectance {
  const up = (r: number) => r + TOWARD_WHITE * (1 - r);
  return typeof reflectance === "number"
    ? up(reflectance)
    : [up(reflectance[0]), up(reflectance[1]), up(reflectance[2])];
}

function wordsOf(wall: Wall, n: number, { reflectance }: Room, away_m: number): ReturnType<Step["words"]> {
  const drawn = reflectance[wall];
  const share = typeof drawn === "number" ? drawn : luminanceAt(drawn);
  const name = NAMES[wall];
  const aside = wall === "left" || wall === "right";
  const step = wall === "left" ? "right" : "left";
  return n > 0
    ? {
        why: `the ${name} gives more back than drawn: it is nearer, or lighter than ${Math.round(100 * share)} %`,
        check: aside
          ? `tape from the mark to the ${name}: ${away_m.toFixed(2)} m planned; hold black cloth before it`
          : `hold black cloth before the ${name} and take the frame again`,
        cure: aside
          ? `black panel before the ${name}, or the whole set a step to the ${step}`
          : `black cloth on the ${name}`,
      }
    : {
        why: `the ${name} gives less back than drawn: it is farther, or darker than ${Math.round(100 * share)} %`,
        check: aside ? `tape from the mark to the ${name}` : `look at the ${name}'s paint`,
        cure: aside ? `white panel on the side of the ${name}` : "a white panel on the shadow side",
      };
}
