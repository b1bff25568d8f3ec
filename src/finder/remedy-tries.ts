/** What is tried for a wish: ways by themselves, and pairs of which the second keeps the face's exposure. */
import { bearingVector, directionOf, type Plan } from "../plan/index.ts";
import type { TryReading } from "../reading/index.ts";
import type { MainLight } from "./main-light.ts";
import { shadeSide } from "./panel-move.ts";
import { faceStops } from "./remedy-wish.ts";
import { cameraMovedBy } from "./step-camera.ts";
import { cameraWays } from "./step-camera-ways.ts";
import { lightMovedBy } from "./step-light.ts";
import { lightWays, powerWay } from "./step-light-ways.ts";
import { type Made, madeTogether } from "./step-made.ts";
import { boardWay, panelWay } from "./step-panel-ways.ts";
import { shiftedBy } from "./step-person.ts";
import { personWays } from "./step-person-ways.ts";
import { either, FINEST_M, type Ground, type Way } from "./step-way.ts";
import { STEPS, stepWords } from "./steps.ts";
import type { Ask } from "./types.ts";

export type Reader = (plan: Plan) => TryReading;

/** A way whose amount comes with its own words: those of a pair depend on what the second has to make good. */
export interface Tryable extends Pick<Way, "id" | "ease" | "unit" | "step" | "finest" | "reach"> {
  readonly at: (amount: number) => { readonly made: Made; readonly does: string };
}

/** The kinds of change that can reach a wish; others move it by hardly anything, or by luck. */
export function triesFor(ask: Ask, ground: Ground, main: MainLight | null, read: Reader): Tryable[] {
  const { plan } = ground;
  const lit = plan.lights.flatMap((light, i) => (light.on ? [i] : []));
  const of = (ways: readonly Way[], ...endings: string[]) =>
    endings.flatMap((ending) => ways.filter(({ id }) => id.endsWith(ending)).map(alone));
  const camera = (...endings: string[]) => of(cameraWays(ground), ...endings);
  const person = (...endings: string[]) => of(personWays(ground), ...endings);
  const lights = (...endings: string[]) => lit.flatMap((i) => of(lightWays(ground, i), ...endings));
  const panels = plan.panels.map((_, i) => alone(panelWay(ground, i)));
  const follows = plan.people[ground.sitter.index].head.follows === "camera";
  const alongWithLens = follows ? camera("round", "up") : [];
  // one light by itself changes no ratio and no pattern by its power
  const mixed = lit.length > 1 || plan.ambient.lux > 0 ? lights("power") : [];
  switch (ask.ask) {
    case "pattern":
      return [
        ...alongWithLens,
        ...person("head turned", "tipped", "tilted", "person turned", "aside", "ahead"),
        ...lights("round", "] up", "nearer", "aimed aside", "aimed up"),
        ...panels,
        ...mixed,
      ];
    case "ratio":
      return [
        ...alongWithLens,
        ...person("head turned", "tipped", "person turned", "aside"),
        ...lights("round", "] up", "nearer", "aimed aside"),
        ...panels,
        ...mixed,
        ...boards(ask.byStops, ground, main),
      ];
    case "exposure":
      return [...camera("lens"), ...person("ahead"), ...lights("nearer", "aimed aside", "aimed up", "power")];
    case "headroom":
      return [
        ...camera("lens"),
        ...person("head turned", "tipped", "person turned", "ahead"),
        ...lights("nearer", "] up", "aimed up", "power"),
      ];
    case "background":
      return [
        ...lights("nearer", "aimed aside", "aimed up", "power"),
        ...(main === null ? [] : keepingFace(ground, main, read)),
      ];
    case "glasses":
      return [...camera("round", "up"), ...person("head turned", "tipped"), ...lights("] up", "round")];
  }
}

function alone(way: Way): Tryable {
  return { ...way, at: (amount) => ({ made: way.make(amount), does: way.label(amount) }) };
}

/** White takes contrast away, black adds it: on the side that is in the shade. */
function boards(byStops: number, ground: Ground, main: MainLight | null): Tryable[] {
  return [alone(boardWay(ground, byStops < 0 ? "white" : "black", shadeSide(main)))];
}

function keepingFace(ground: Ground, main: MainLight, read: Reader): Tryable[] {
  const { plan } = ground;
  const firsts = [...lightWays(ground, main.index), ...cameraWays(ground)].filter(
    ({ id }) => id.endsWith("nearer") || id.includes("aimed") || id.endsWith("lens"),
  );
  const paired = firsts
    .filter(({ id }) => id !== "camera nearer")
    .map((way) => withPower(way, plan, main.index, read));
  return [...paired, together(ground, main)];
}

/** Tries of the second: one by what is missing, one by what is still missing then. */
const CORRECTIONS = 2;

/** A way, and the main light's power so that the face is exposed as before. */
function withPower(way: Way, plan: Plan, index: number, read: Reader): Tryable {
  const wanted = faceStops(plan, read(plan));
  return {
    ...way,
    id: `${way.id} with power`,
    ease: "power",
    at: (amount) => {
      const does = way.label(amount);
      const first = way.make(amount);
      if (!first.ok || wanted === null) return { made: first, does };
      const power = powerWay(first.after, index);
      let stops = 0;
      let second: Made = first;
      for (let turn = 0; turn < CORRECTIONS; turn++) {
        if (!second.ok) break;
        const there = faceStops(second.after, read(second.after));
        if (there === null) break;
        const parts = Math.round((wanted - there) / power.finest);
        if (parts === 0) break;
        stops += parts * power.finest;
        second = power.make(stops);
      }
      if (stops === 0) return { made: first, does };
      const both = `${does} and ${power.label(stops)}`;
      return { made: madeTogether(both, first, () => second), does: both };
    },
  };
}

/** The sitter, the main light and the camera from the backdrop (+) or toward it, as they stand to each other: the same
 * picture before another background. */
function together({ plan, sitter, units }: Ground, main: MainLight): Tryable {
  const { bearing_deg } = directionOf(plan.camera.direction, plan.camera.position);
  const [ax, ay] = bearingVector(plan.backdrop?.bearing ?? bearing_deg + 180, 0);
  const behind = plan.backdrop === null ? "background" : "backdrop";
  const { back_m } = STEPS[units];
  return {
    id: "sitter, main light and camera",
    ease: "stand",
    unit: "metres",
    step: back_m,
    finest: FINEST_M[units],
    reach: 12 * back_m,
    at: (amount) => {
      const way = `${stepWords(Math.abs(amount), units)} ${either(amount, "from", "toward")} the ${behind}`;
      const does = `${sitter.name}, ${main.name} and camera ${way}`;
      const [dx, dy] = [amount * ax, amount * ay];
      const camera = (before: Plan) => cameraMovedBy(before, dx, dy, does);
      const person = (before: Plan) => shiftedBy(before, sitter.index, dx, dy, does);
      const light = (before: Plan) => lightMovedBy(before, main.index, dx, dy, does);
      // who goes first makes room for who follows
      const [first, second] = amount < 0 ? [person, camera] : [camera, person];
      return { does, made: madeTogether(does, madeTogether(does, first(plan), second), light) };
    },
  };
}
