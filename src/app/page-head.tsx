import type { ComponentChildren, RefObject } from "preact";
import { useEffect } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { UnitsAndTheme } from "./edge-settings.tsx";
import { useStore } from "./hooks.ts";

interface PageHeadProps {
  readonly bench: Bench;
  /** its name, or a heading of its own kind */
  readonly heading: ComponentChildren;
  /** led to when the page opens */
  readonly title?: RefObject<HTMLHeadingElement | null>;
  /** the work that it is about */
  readonly about?: string;
  /** what of the page is looked at */
  readonly parts?: ComponentChildren;
  /** the way out; to the plan when left out */
  readonly back?: ComponentChildren;
  /** what else can be done from here */
  readonly children?: ComponentChildren;
}

/** The head of a page: what it is, the ways out of it, and what belongs to all of them. */
export function PageHead({ bench, heading, title, about, parts, back, children }: PageHeadProps) {
  useEscape(back === undefined ? () => bench.view.update({ screen: "plan" }) : null);
  return (
    <header class="find-head">
      {typeof heading === "string" ? (
        <h1 ref={title ?? null} tabIndex={-1}>
          {heading}
        </h1>
      ) : (
        heading
      )}
      {about !== undefined && <p class="quiet">{about}</p>}
      {parts}
      <div class="row">
        {back ?? <BackToPlan bench={bench} />}
        {children}
      </div>
      <div class="start-settings">
        <UnitsAndTheme bench={bench} />
      </div>
    </header>
  );
}

/** Escape goes the way that "back" goes; in a field it gives the old value back. Null: it means nothing here. */
export function useEscape(leave: (() => void) | null): void {
  useEffect(() => {
    if (leave === null) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== "Escape" || event.defaultPrevented) return;
      if ((event.target as Element).closest?.("input, select, textarea, dialog")) return;
      leave();
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  });
}

export function BackToPlan({ bench }: { bench: Bench }) {
  return (
    <button type="button" onClick={() => bench.view.update({ screen: "plan" })}>
      back to the plan
    </button>
  );
}

/** Undo and redo of the plan on a page that edits it. */
export function UndoPlan({ bench: { session } }: { bench: Bench }) {
  const { redoLabel, undoLabel } = useStore(session);
  return (
    <>
      <button type="button" disabled={undoLabel === null} onClick={() => session.undo()}>
        undo
      </button>
      <button type="button" disabled={redoLabel === null} onClick={() => session.redo()}>
        redo
      </button>
    </>
  );
}
