/** What a hand does on a sheet: it takes hold, drags and turns, draws a band round things, moves the paper and brings
 * it nearer. It is told of pointers in pixels of the drawing and knows no screen. */
import type { Drawing } from "../sheet/index.ts";
import { type Bench, holdAlso, holdThese, takeHold } from "./bench.ts";
import { dragEdit, type PaperPoint, type Sheet, turnEdit } from "./handling.ts";
import { editHeld } from "./held.ts";
import { findObject } from "./objects.ts";
import { type Pane, type Projection, projectionOf, type Sight, sightThrough } from "./projection.ts";

export interface Px {
  readonly x: number;
  readonly y: number;
}

/** A pointer as it is felt on the drawing. */
export interface Touch extends Px {
  readonly id: number;
  readonly kind: string;
  readonly button: number;
  readonly free: boolean;
  /** hold it along with what is held */
  readonly also: boolean;
  /** the object under it, its handle, or empty paper */
  readonly on: { readonly owner: string; readonly isHandle: boolean } | null;
}

export interface Band {
  readonly a: Px;
  readonly b: Px;
}

/** What the hand moves: updated at each drawing of the sheet. */
export interface Desk {
  readonly sheet: Sheet;
  readonly pane: Pane;
  readonly drawing: Drawing;
  readonly look: (sight: Sight | null) => void;
  readonly band: (band: Band | null) => void;
  readonly point: (point: PaperPoint | null, pressed: boolean) => void;
}

type Gesture =
  | {
      kind: "drag";
      id: number;
      owner: string;
      from: Px;
      offset: PaperPoint;
      key: string;
      moved: boolean;
      alone: boolean;
    }
  | { kind: "turn"; id: number; owner: string; key: string }
  | { kind: "press" | "band"; id: number; from: Px; also: boolean }
  | { kind: "pan"; id: number; from: Px; last: Px; taps: boolean }
  | { kind: "pinch"; point: PaperPoint; apart: number; times: number }
  /** done with, until the pointer is let go */
  | { kind: "spent"; id: number }
  | { kind: "idle" };

const IDLE: Gesture = { kind: "idle" };
/** A hand that holds still moves this little: a mouse, and a finger. */
const STILL_PX = { mouse: 3, touch: 8 } as const;
/** One press brings the paper so much nearer. */
export const NEARER = 1.5;
let grips = 0;

export class PaperHand {
  sight: Sight | null = null;
  /** the space bar is down: the hand moves the paper */
  movesPaper = false;
  readonly #bench: Bench;
  /** calls later, at the next picture of the screen; answers how to take it back */
  readonly #later: (run: () => void) => () => void;
  #desk: Desk | null = null;
  #gesture: Gesture = IDLE;
  #fingers = new Map<number, Px>();
  #waiting: { touch: Touch; cancel: () => void } | null = null;

  constructor(bench: Bench, later: (run: () => void) => () => void) {
    this.#bench = bench;
    this.#later = later;
  }

  set desk(desk: Desk) {
    this.#desk = desk;
  }

  get isIdle(): boolean {
    return this.#gesture.kind === "idle";
  }

  /** Answers whether the pointer belongs to the hand from now on. */
  down(touch: Touch): boolean {
    const at = this.#paper(touch);
    if (at === null) return false;
    if (touch.kind === "touch") this.#fingers.set(touch.id, touch);
    if (this.#fingers.size === 2) return this.#beginPinch();
    if (!this.isIdle) return false;
    if (touch.button === 1 || (touch.button === 0 && this.movesPaper)) {
      this.#gesture = { kind: "pan", id: touch.id, from: touch, last: touch, taps: false };
    } else if (touch.button !== 0) return false;
    else if (touch.on === null) this.#pressPaper(touch);
    else if (touch.on.isHandle) {
      this.#gesture = { kind: "turn", id: touch.id, owner: touch.on.owner, key: `turn ${++grips}` };
    } else this.#grasp(touch, touch.on.owner, at);
    this.#desk?.point(null, false);
    return true;
  }

  /** Moves are taken together until the screen is drawn: a fast mouse sends more of them than anybody sees. */
  move(touch: Touch): void {
    if (this.#fingers.has(touch.id)) this.#fingers.set(touch.id, touch);
    const cancel = this.#waiting?.cancel ?? this.#later(() => this.#flush());
    this.#waiting = { touch, cancel };
  }

  up(touch: Touch): void {
    this.#flush();
    this.#fingers.delete(touch.id);
    const gesture = this.#gesture;
    if ("id" in gesture && gesture.id !== touch.id) return;
    if (gesture.kind === "drag" && !gesture.moved && gesture.alone) takeHold(this.#bench, gesture.owner);
    if (gesture.kind === "press" || (gesture.kind === "pan" && gesture.taps)) {
      this.#desk?.point(this.#paper(touch), true);
    }
    if (gesture.kind === "band") this.#holdBanded(gesture.from, touch, gesture.also);
    this.#rest();
  }

  /** The pointer was taken away, by a scroll or by the system. */
  cancel(id: number): void {
    this.#fingers.delete(id);
    this.#waiting?.cancel();
    this.#waiting = null;
    this.#rest();
  }

  /** The pointer is no longer over the sheet. */
  leave(): void {
    this.#waiting?.cancel();
    this.#waiting = null;
    if (this.isIdle) this.#desk?.point(null, false);
  }

  zoom(factor: number, at: Px): void {
    const point = this.#paper(at);
    if (point !== null) this.#look(point, at, (this.sight?.times ?? 1) * factor);
  }

  /** Nearer to what is held, where that is seen; else to the middle. */
  zoomHeld(factor: number): void {
    const { projection } = this;
    if (this.#desk === null || projection === null) return;
    const { size } = this.#desk.pane;
    const { selected } = this.#bench.view.get();
    const held = this.#desk.drawing.labels.find(({ owner }) => owner === selected);
    const at = held === undefined ? null : projection.toScreen(held.at[0], held.at[1]);
    const isSeen = at !== null && at.x > 0 && at.x < size.width && at.y > 0 && at.y < size.height;
    this.zoom(factor, isSeen ? at : { x: size.width / 2, y: size.height / 2 });
  }

  pan(dx: number, dy: number): void {
    const point = this.#paper({ x: 0, y: 0 });
    if (point !== null) this.#look(point, { x: dx, y: dy }, this.sight?.times ?? 1);
  }

  fit(): void {
    this.sight = null;
    this.#desk?.look(null);
  }

  get projection(): Projection | null {
    return this.#desk === null ? null : projectionOf(this.#desk.pane, this.sight);
  }

  #look(point: PaperPoint, at: Px, times: number): void {
    if (this.#desk === null) return;
    this.sight = sightThrough(this.#desk.pane, point, at, times);
    this.#desk.look(this.sight);
  }

  #paper({ x, y }: Px): PaperPoint | null {
    return this.projection?.toPaper(x, y) ?? null;
  }

  #beginPinch(): boolean {
    this.#rest();
    const { middle, apart } = this.#pair();
    const point = this.#paper(middle);
    if (point !== null) this.#gesture = { kind: "pinch", point, apart, times: this.sight?.times ?? 1 };
    return true;
  }

  #pair(): { middle: Px; apart: number } {
    const [a, b] = [...this.#fingers.values()] as [Px, Px];
    return { middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, apart: Math.hypot(a.x - b.x, a.y - b.y) };
  }

  /** Empty paper: a mouse draws a band there; a finger moves the paper where there is more of it, else the page. */
  #pressPaper(touch: Touch): void {
    const { id, also } = touch;
    this.#gesture =
      touch.kind === "touch" && this.sight !== null
        ? { kind: "pan", id, from: touch, last: touch, taps: true }
        : { kind: "press", id, from: touch, also };
  }

  #grasp(touch: Touch, owner: string, at: PaperPoint): void {
    const bench = this.#bench;
    if (touch.also) {
      holdAlso(bench, owner);
      this.#gesture = { kind: "spent", id: touch.id };
      return;
    }
    const { selected, also } = bench.view.get();
    const isOneOfSeveral = also.length > 0 && (owner === selected || also.includes(owner));
    // what is grasped is the foremost: its tapes are drawn
    if (!isOneOfSeveral) takeHold(bench, owner);
    else if (owner !== selected && selected !== null)
      bench.view.update({ selected: owner, also: [selected, ...also.filter((each) => each !== owner)] });
    const object = findObject(bench.session.get().plan, owner);
    const sheet = this.#desk?.sheet;
    if (object === null || sheet === undefined) return;
    const offset = {
      across: object.position[sheet.across] - at.across,
      up: object.position[sheet.up] - at.up,
    };
    const key = `drag ${++grips}`;
    this.#gesture = {
      kind: "drag",
      id: touch.id,
      owner,
      from: touch,
      offset,
      key,
      moved: false,
      alone: isOneOfSeveral,
    };
  }

  #flush(): void {
    const waiting = this.#waiting;
    this.#waiting = null;
    waiting?.cancel();
    const at = waiting === null ? null : this.#paper(waiting.touch);
    if (waiting === null || at === null || this.#desk === null) return;
    const { touch } = waiting;
    const gesture = this.#gesture;
    if (gesture.kind === "idle") this.#desk.point(touch.kind === "touch" ? null : at, false);
    else if (gesture.kind === "pinch") this.#pinch(gesture);
    else if (gesture.id !== touch.id) return;
    else if (gesture.kind === "drag") this.#drag(gesture, touch, at);
    else if (gesture.kind === "turn") this.#turn(gesture, touch, at);
    else if (gesture.kind === "pan") this.#slide(gesture, touch);
    else if (gesture.kind !== "spent" && touch.kind !== "touch" && !isStill(gesture.from, touch)) {
      this.#gesture = { ...gesture, kind: "band" };
      this.#desk.band({ a: gesture.from, b: touch });
    }
  }

  #drag(gesture: Extract<Gesture, { kind: "drag" }>, touch: Touch, at: PaperPoint): void {
    if (!gesture.moved && isStill(gesture.from, touch)) return;
    gesture.moved = true;
    const { offset, owner, key } = gesture;
    const to = { across: at.across + offset.across, up: at.up + offset.up };
    const { plan } = this.#bench.session.get();
    editHeld(this.#bench, key, (free) => {
      const object = free.find((each) => each.owner === owner);
      if (object === undefined || this.#desk === null) return null;
      const along = free.filter((each) => each !== object);
      return dragEdit(plan, object, this.#desk.sheet, to, touch.free, along);
    });
  }

  #turn({ owner, key }: Extract<Gesture, { kind: "turn" }>, touch: Touch, at: PaperPoint): void {
    const { plan } = this.#bench.session.get();
    editHeld(this.#bench, key, (free) => {
      const object = free.find((each) => each.owner === owner);
      if (object === undefined || this.#desk === null) return null;
      return turnEdit(plan, object, this.#desk.sheet, at, touch.free);
    });
  }

  #slide(gesture: Extract<Gesture, { kind: "pan" }>, touch: Touch): void {
    if (gesture.taps && isStill(gesture.from, touch)) return;
    gesture.taps = false;
    this.pan(touch.x - gesture.last.x, touch.y - gesture.last.y);
    gesture.last = touch;
  }

  #pinch({ point, apart, times }: Extract<Gesture, { kind: "pinch" }>): void {
    if (this.#fingers.size < 2) return;
    const now = this.#pair();
    this.#look(point, now.middle, (times * now.apart) / Math.max(1, apart));
  }

  /** What has its middle in the band. */
  #holdBanded(a: Px, b: Px, also: boolean): void {
    const desk = this.#desk;
    const projection = this.projection;
    if (desk === null || projection === null) return;
    const inside = desk.drawing.labels.filter(({ at }) => {
      const { x, y } = projection.toScreen(at[0], at[1]);
      return (x - a.x) * (x - b.x) <= 0 && (y - a.y) * (y - b.y) <= 0;
    });
    const owners = inside.map(({ owner }) => owner);
    const { selected, also: others } = this.#bench.view.get();
    const before = also && selected !== null ? [selected, ...others] : [];
    holdThese(this.#bench, [...new Set([...before, ...owners])]);
  }

  #rest(): void {
    if (this.#gesture.kind === "band") this.#desk?.band(null);
    if (this.#gesture.kind === "drag" || this.#gesture.kind === "turn") this.#bench.session.seal();
    this.#gesture = IDLE;
  }
}

function isStill(from: Px, touch: Touch): boolean {
  const still = touch.kind === "touch" ? STILL_PX.touch : STILL_PX.mouse;
  return Math.hypot(touch.x - from.x, touch.y - from.y) < still;
}

export function sightWords(sheet: Sheet, times: number): string {
  return times === 1 ? `${sheet.name}: the whole of it` : `${sheet.name}: ${times.toFixed(1)} times as large`;
}
