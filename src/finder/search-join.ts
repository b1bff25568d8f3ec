/** What may join a main light, and the powers of both: on the face, on the background, or by a panel. */
import type { Light, Panel, Vec3 } from "../plan/index.ts";
import { type Background, backgroundOf } from "./search-background.ts";
import type { Head, Search } from "./search-brief.ts";
import type { FaceModel, Row } from "./search-model.ts";
import type { Spot } from "./search-place.ts";
import { exposureWanted, onDial, onePower, ratioWanted, twoPowers } from "./search-power.ts";

/** What a main light may be joined by: a light on the face, one on the background, a panel. */
export type Second =
  | {
      readonly kind: "light";
      readonly head: Head;
      readonly light: Light;
      readonly row: Row;
      readonly shine: number;
    }
  | {
      readonly kind: "background";
      readonly head: Head;
      readonly light: Light;
      readonly row: Row;
      readonly shine: number;
    }
  | {
      readonly kind: "panel";
      readonly panel: Panel;
      readonly facing: Vec3;
      readonly side: number;
      readonly row: Row;
    };

/** How the parts of a set-up are weighed. */
interface Powers {
  readonly miss: number;
  readonly down: number;
  /** share of its full power, or what falls on a panel */
  readonly with: number;
}

/** What a whole reading has taught about the fast one, so that a second look starts nearer. */
export interface Lesson {
  /** lx.s everywhere on the face for each lm.s that is sent out: what more the room gives back */
  readonly evenPerLumen: number;
  /** by how much the edge as traced differs */
  readonly edgeFactor: number;
  /** stops by which the background as traced is lighter: what bounces onto it */
  readonly backgroundOff: number;
  /** how much it counts that a name is not firm: more where tracing gave another */
  readonly firmness: number;
}

export const NOTHING_LEARNT: Lesson = { evenPerLumen: 0, edgeFactor: 1, backgroundOff: 0, firmness: 0 };

export class Joining {
  readonly background: Background | null;
  /** what the background gives back of the pinned lights */
  readonly baseShine: number;
  private readonly exposure: number;
  private readonly ratio: number;

  constructor(
    private readonly search: Search,
    private readonly model: FaceModel,
    private readonly head: Head,
    private readonly seconds: readonly Second[],
    private readonly lesson: Lesson,
  ) {
    const { plan, person } = model;
    this.exposure = exposureWanted(search);
    this.ratio = ratioWanted(search);
    this.background = search.want.backgroundStops === null ? null : backgroundOf(plan, person);
    this.baseShine = plan.lights.reduce(
      (sum, light) => sum + (light.on ? (this.background?.shine(light) ?? 0) : 0),
      0,
    );
  }

  /** Powers of the main light and the best of what may join it. */
  powers(
    spot: Spot,
    light: Light,
    main: Row,
    shine: number,
  ): { second: Second | null; powers: Powers } | null {
    const { base } = this.model;
    if (this.seconds.length === 0) {
      const down = onePower(main, base, this.exposure, this.head.dial);
      return { second: null, powers: { miss: 0, down, with: 0 } };
    }
    let best: { second: Second; powers: Powers } | null = null;
    const side = Math.sign(spot.azimuth_deg);
    for (const second of this.seconds) {
      // a panel on the light's own side gives nothing back
      if (second.kind === "panel" && second.side === side) continue;
      const powers = this.powersOf(second, light, main, shine);
      if (best === null || powers.miss < best.powers.miss) best = { second, powers };
    }
    return best;
  }

  private powersOf(second: Second, light: Light, main: Row, shine: number): Powers {
    const { base } = this.model;
    const { dial } = this.head;
    if (second.kind === "light")
      return twoPowers(main, second.row, base, this.exposure, this.ratio, dial, second.head.dial);
    if (second.kind === "panel") return this.panelPower(second, light, main);
    return this.backgroundPower(second, main, shine);
  }

  /** The face by the main light, the background by the other. */
  private backgroundPower(second: Second & { kind: "background" }, main: Row, shine: number): Powers {
    const { base } = this.model;
    const down = onePower(main, base, this.exposure, this.head.dial);
    const span = this.search.want.backgroundStops;
    const { from, to } = span ?? { from: null, to: null };
    const stops = from !== null && to !== null ? (from + to) / 2 : (from ?? to ?? 0);
    const wanted = this.background?.shineFor(stops - this.lesson.backgroundOff, this.exposure) ?? 0;
    const rest = wanted - this.baseShine - 2 ** -down * shine;
    const less = onDial(
      rest > 0 ? -Math.log2(rest / second.shine) : second.head.dial.range,
      second.head.dial,
    );
    const got = this.baseShine + 2 ** -down * shine + 2 ** -less * second.shine;
    const onFace = Math.max(second.row.left, second.row.right) * 2 ** -less;
    return { miss: Math.abs(Math.log2(got / wanted)) + onFace / this.exposure, down, with: 2 ** -less };
  }

  private panelPower(second: Second & { kind: "panel" }, light: Light, main: Row): Powers {
    const { base } = this.model;
    const falls = onPanel(light, second, this.model.lumensOf(light));
    const both = {
      ...main,
      left: main.left + falls * second.row.left,
      right: main.right + falls * second.row.right,
    };
    const down = onePower(both, base, this.exposure, this.head.dial);
    const s = 2 ** -down;
    const got = Math.abs(Math.log2((base.left + s * both.left) / (base.right + s * both.right)));
    return { miss: Math.abs(got - this.ratio), down, with: s * falls };
  }
}

/** lx.s on the middle of a panel from a light of so many lm.s: from the front's own middle, by its lobe. */
function onPanel(light: Light, { panel, facing }: Second & { kind: "panel" }, lumens: number): number {
  const at = "at" in light.direction ? light.direction.at : panel.position;
  const aim = [0, 1, 2].map((k) => at[k] - light.position[k]);
  const way = [0, 1, 2].map((k) => panel.position[k] - light.position[k]);
  const far = Math.hypot(way[0], way[1], way[2]);
  const out =
    (aim[0] * way[0] + aim[1] * way[1] + aim[2] * way[2]) / (far * Math.hypot(aim[0], aim[1], aim[2]));
  const into = -(facing[0] * way[0] + facing[1] * way[1] + facing[2] * way[2]) / far;
  if (!(out > 0 && into > 0)) return 0;
  const m = light.beam.exponent;
  return (lumens * (m + 1) * out ** m * into) / (2 * Math.PI * far * far);
}
