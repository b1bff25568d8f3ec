import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import type { FrameDrift } from "../testframe/index.ts";
import type { PendingFrame, TestFrame } from "../workbench/index.ts";
import { pictureOf } from "./frames-client.ts";
import type { Handed, ShootDesk } from "./shoot-desk.ts";
import { faceOf, frameLine } from "./shoot-words.ts";

interface StripProps {
  readonly desk: ShootDesk;
  readonly frames: readonly TestFrame[];
  readonly shown: TestFrame | null;
  readonly faces: Readonly<Record<string, number>>;
  readonly drift: ReadonlyMap<string, FrameDrift>;
}

/** Frames in the order they were taken; the arrow keys walk, Tab stops once. The newest is in sight until one is chosen. */
export function Strip({ desk, frames, shown, faces, drift }: StripProps) {
  const list = useRef<HTMLDivElement>(null);
  // looked for by what is checked, which arrows may have changed faster than it was drawn
  useLayoutEffect(() => {
    list.current
      ?.querySelector(":checked")
      ?.closest("label")
      ?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, [shown?.id]);
  return (
    <div class="strip" ref={list}>
      <fieldset>
        <legend class="visually-hidden">frames in the order they were taken</legend>
        {frames.map((frame) => (
          <Row
            key={frame.id}
            frame={frame}
            isShown={frame.id === shown?.id}
            face={faces[frame.id] ?? 0}
            flags={drift.get(frame.id)?.flags}
            choose={desk}
          />
        ))}
      </fieldset>
    </div>
  );
}

interface RowProps {
  readonly frame: TestFrame;
  readonly isShown: boolean;
  readonly face: number;
  readonly flags: readonly string[] | undefined;
  readonly choose: ShootDesk;
}

/** Drawn anew only when something of its own changes: there may be hundreds. */
function Row({ frame, isShown, face, flags, choose }: RowProps) {
  const line = frameLine(faceOf(frame, { [frame.id]: face }));
  // that no face was found is said already
  const drifts = (flags ?? []).filter((flag) => flag !== line).join("; ");
  return useMemo(
    () => (
      <label class="strip-row">
        <input
          type="radio"
          name="frame"
          class="visually-hidden"
          checked={isShown}
          onChange={() => choose.choose(frame.id)}
        />
        <span class="strip-picture">
          <img src={pictureOf(frame.id)} alt="" loading="lazy" decoding="async" />
        </span>
        <span class="strip-words">
          <span class="file-name">{frame.name}</span>
          <span class="quiet">{line}</span>
          {drifts !== "" && <span class="alert">! {drifts}</span>}
        </span>
      </label>
    ),
    [frame, isShown, line, drifts, choose],
  );
}

/** What is on its way, and what came to nothing. */
export function Waiting(props: {
  desk: ShootDesk;
  pending: readonly PendingFrame[];
  handed: readonly Handed[];
}) {
  const { desk, handed } = props;
  // what this page handed over the desk tells of as well
  const pending = props.pending.filter(({ name }) => !handed.some((each) => each.name === name));
  if (pending.length + handed.length === 0) return null;
  return (
    <ul class="waiting" aria-label="On their way">
      {pending.map(({ name, problem, state }) => (
        <li key={name} class={state === "failed" ? "alert" : undefined}>
          <span class="file-name">{name}</span>{" "}
          <span>{state === "failed" ? (problem ?? "could not be read") : state}</span>
        </li>
      ))}
      {handed.map(({ name, problem }) => (
        <li key={name} class={problem === null ? undefined : "alert"}>
          <span class="file-name">{name}</span> <span>{problem ?? "being read"}</span>
          {problem !== null && (
            <button type="button" onClick={() => desk.dismiss(name)}>
              put aside<span class="visually-hidden">: {name}</span>
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}
