/** What a hand does on a sheet: it takes hold, drags and turns, draws a band round things, moves the paper and brings
 * it nearer. It is told of pointers in pixels of the drawing and knows no screen. */
import type { Drawing } from "../sheet/index.ts";
import { type Bench, holdAlso, holdThese, takeHold } from "./bench.ts";
import { dragEdit, type PaperPoint, type Sheet, turnEdit } from "./handling.ts";
import { editHeld } from "./held.ts";
import { findObject } from "./objects.ts";
import type { PaperSight, Px } from "./paper-sight.ts";

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
  readonly drawing: Drawing;
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
let grips = 0;

export class PaperHand {
  /** the space bar is down: the hand moves the paper */
  movesPaper = false;
  readonly paper: PaperSight;
  readonly #bench: Bench;
  /** calls later, at the next picture of the screen; answers how to take it back */
  readonly #later: (run: () => void) => () => void;
  #desk: Desk;
  #gesture: Gesture = IDLE;
  #fingers = new Map<number, Px>();
  #waiting: { touch: Touch; cancel: () => void } | null = null;

  constructor(bench: Bench, paper: PaperSight, desk: Desk, later: (run: () => void) => () => void) {
    this.#bench = bench;
    this.paper = paper;
    this.#desk = desk;
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
    if (touch.kind === "touch") this.#fingers.set(touch.id, touch);
    if (this.#fingers.size === 2) return this.#beginPinch();
    if (!this.isIdle) return false;
    if (touch.button === 1 || (touch.button === 0 && this.movesPaper)) {
      this.#gesture = { kind: "pan", id: touch.id, from: touch, last: touch, taps: false };
    } else if (touch.button !== 0) return false;
    else if (touch.on === null) this.#pressPaper(touch);
    else if (touch.on.isHandle) {
      this.#gesture = { kind: "turn", id: touch.id, owner: touch.on.owner, key: `turn ${++grips}` };
    } else this.#grasp(touch, touch.on.owner);
    this.#desk.point(null, false);
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
      this.#desk.point(this.paper.paperAt(touch), true);
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
    if (this.isIdle) this.#desk.point(null, false);
  }

  #beginPinch(): boolean {
    this.#rest();
    const { middle, apart } = this.#pair();
    this.#gesture = { kind: "pinch", point: this.paper.paperAt(middle), apart, times: this.paper.times };
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
      touch.kind === "touch" && this.paper.sight !== null
        ? { kind: "pan", id, from: touch, last: touch, taps: true }
        : { kind: "press", id, from: touch, also };
  }

  #grasp(touch: Touch, owner: string): void {
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
    if (object === null) return;
    const { sheet } = this.#desk;
    const at = this.paper.paperAt(touch);
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
    if (waiting === null) return;
    waiting.cancel();
    const { touch } = waiting;
    const at = this.paper.paperAt(touch);
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
      if (object === undefined) return null;
      const along = free.filter((each) => each !== object);
      return dragEdit(plan, object, this.#desk.sheet, to, touch.free, along);
    });
  }

  #turn({ owner, key }: Extract<Gesture, { kind: "turn" }>, touch: Touch, at: PaperPoint): void {
    const { plan } = this.#bench.session.get();
    editHeld(this.#bench, key, (free) => {
      const object = free.find((each) => each.owner === owner);
      if (object === undefined) return null;
      return turnEdit(plan, object, this.#desk.sheet, at, touch.free);
    });
  }

  #slide(gesture: Extract<Gesture, { kind: "pan" }>, touch: Touch): void {
    if (gesture.taps && isStill(gesture.from, touch)) return;
    gesture.taps = false;
    this.paper.pan(touch.x - gesture.last.x, touch.y - gesture.last.y);
    gesture.last = touch;
  }

  #pinch({ point, apart, times }: Extract<Gesture, { kind: "pinch" }>): void {
    if (this.#fingers.size < 2) return;
    const now = this.#pair();
    this.paper.bring(point, now.middle, (times * now.apart) / Math.max(1, apart));
  }

  /** What has its middle in the band. */
  #holdBanded(a: Px, b: Px, also: boolean): void {
    const { projection } = this.paper;
    const inside = this.#desk.drawing.labels.filter(({ at }) => {
      const { x, y } = projection.toScreen(at[0], at[1]);
      return (x - a.x) * (x - b.x) <= 0 && (y - a.y) * (y - b.y) <= 0;
    });
    const owners = inside.map(({ owner }) => owner);
    const { selected, also: others } = this.#bench.view.get();
    const before = also && selected !== null ? [selected, ...others] : [];
    holdThese(this.#bench, [...new Set([...before, ...owners])]);
  }

  #rest(): void {
    if (this.#gesture.kind === "band") this.#desk.band(null);
    if (this.#gesture.kind === "drag" || this.#gesture.kind === "turn") this.#bench.session.seal();
    this.#gesture = IDLE;
  }
}

function isStill(from: Px, touch: Touch): boolean {
  const still = touch.kind === "touch" ? STILL_PX.touch : STILL_PX.mouse;
  return Math.hypot(touch.x - from.x, touch.y - from.y) < still;
}
