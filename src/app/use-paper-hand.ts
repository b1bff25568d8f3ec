import { useEffect, useMemo } from "preact/hooks";
import type { Bench } from "./bench.ts";
import type { Sheet } from "./handling.ts";
import { type Desk, PaperHand, type Touch } from "./paper-hand.ts";
import { paperKey } from "./paper-keys.ts";
import { PaperSight } from "./paper-sight.ts";
import type { Pane, Sight } from "./projection.ts";

const laterOnScreen = (run: () => unknown) => {
  const frame = requestAnimationFrame(run);
  return () => cancelAnimationFrame(frame);
};

interface Handlers {
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: (event: PointerEvent) => void;
  readonly onPointerCancel: (event: PointerEvent) => void;
  readonly onPointerLeave: () => void;
  readonly onMouseDown: (event: MouseEvent) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly onKeyUp: () => void;
}

/** Ties a sheet on the screen to the hand: pointers, wheel, fingers and keys. */
export function usePaperHand(
  bench: Bench,
  svg: { readonly current: SVGSVGElement | null },
  desk: Desk,
  pane: Pane,
  look: (sight: Sight | null) => void,
): { hand: PaperHand; handlers: Handlers } {
  const hand = useMemo(() => new PaperHand(bench, new PaperSight(pane, look), desk, laterOnScreen), [bench]);
  hand.paper.pane = pane;
  hand.desk = desk;
  const handlers = useMemo(() => handlersOf(bench, svg, hand, desk.sheet), [bench, hand, desk.sheet]);
  useEffect(() => (svg.current === null ? undefined : listen(svg.current, hand)), [hand]);
  return { hand, handlers };
}

function handlersOf(
  bench: Bench,
  svg: { current: SVGSVGElement | null },
  hand: PaperHand,
  sheet: Sheet,
): Handlers {
  return {
    onPointerDown(event) {
      const paper = svg.current;
      if (paper === null || isElsewhere(event.target)) return;
      if (!hand.down(touchOf(event, paper))) return;
      paper.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event) => svg.current !== null && hand.move(touchOf(event, svg.current)),
    onPointerUp: (event) => svg.current !== null && hand.up(touchOf(event, svg.current)),
    onPointerCancel: (event) => hand.cancel(event.pointerId),
    onPointerLeave: () => hand.leave(),
    // the middle button moves the paper, and starts no scrolling
    onMouseDown: (event) => event.button === 1 && event.preventDefault(),
    onKeyDown(event) {
      if (!paperKey(bench, hand.paper, sheet, event)) return;
      event.preventDefault();
      // what had the focus may just have been taken away
      laterOnScreen(() => document.activeElement === document.body && svg.current?.focus());
    },
    onKeyUp: () => bench.session.seal(),
  };
}

/** Something on the paper that looks after itself: the probe. */
function isElsewhere(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest("[role=button]:not([data-owner])") !== null;
}

function touchOf(event: PointerEvent, paper: SVGSVGElement): Touch {
  const { left, top } = paper.getBoundingClientRect();
  return {
    id: event.pointerId,
    kind: event.pointerType,
    x: event.clientX - left,
    y: event.clientY - top,
    button: event.button,
    free: event.altKey,
    also: event.shiftKey || event.ctrlKey || event.metaKey,
    on: event.target instanceof Element ? thingUnder(event.target) : null,
  };
}

function thingUnder(target: Element): Touch["on"] {
  const handle = target.closest<SVGElement>("[data-aim]")?.dataset.aim;
  if (handle !== undefined) return { owner: handle, isHandle: true };
  const owner = target.closest<SVGElement>("[data-owner]")?.dataset.owner;
  return owner === undefined ? null : { owner, isHandle: false };
}

/** What must be kept from the page has to be listened to by hand. */
function listen(paper: SVGSVGElement, hand: PaperHand): () => void {
  const onWheel = (event: WheelEvent) => {
    // the whole is as small as it gets: then the wheel is the page's; a pinch never is
    if (event.deltaY > 0 && hand.paper.sight === null && !event.ctrlKey) return;
    event.preventDefault();
    const { left, top } = paper.getBoundingClientRect();
    const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
    // a pinch on a pad comes as a wheel with Ctrl, in small steps
    const per = event.ctrlKey ? 0.01 : 0.0015;
    hand.paper.zoom(Math.exp(-event.deltaY * lines * per), {
      x: event.clientX - left,
      y: event.clientY - top,
    });
  };
  const onTouch = (event: TouchEvent) => {
    if (event.touches.length > 1 && event.cancelable) event.preventDefault();
  };
  const isTyping = () => document.activeElement?.matches("input, select, textarea, button") ?? false;
  const onSpace = (event: KeyboardEvent) => {
    if (event.key !== " " || !paper.matches(":hover") || isTyping()) return;
    event.preventDefault();
    hand.movesPaper = true;
    paper.classList.add("moves");
  };
  const onSpaceUp = (event: KeyboardEvent) => {
    if (event.key !== " ") return;
    hand.movesPaper = false;
    paper.classList.remove("moves");
  };
  paper.addEventListener("wheel", onWheel, { passive: false });
  paper.addEventListener("touchstart", onTouch, { passive: false });
  paper.addEventListener("touchmove", onTouch, { passive: false });
  addEventListener("keydown", onSpace);
  addEventListener("keyup", onSpaceUp);
  return () => {
    paper.removeEventListener("wheel", onWheel);
    paper.removeEventListener("touchstart", onTouch);
    paper.removeEventListener("touchmove", onTouch);
    removeEventListener("keydown", onSpace);
    removeEventListener("keyup", onSpaceUp);
  };
}
