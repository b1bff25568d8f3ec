import { useEffect, useMemo } from "preact/hooks";
import { AskFollower, type Question, type Worked } from "./ask-follower.ts";
import { useStore } from "./hooks.ts";

/** Follows a question as long as it is on screen. */
export function useWorked<T>(question: Question<T> | null): {
  readonly worked: Worked<T>;
  readonly follower: AskFollower<T>;
} {
  const follower = useMemo(() => new AskFollower<T>(), []);
  const worked = useStore(follower.store);
  useEffect(() => follower.follow(question), [follower, question]);
  useEffect(() => () => follower.follow(null), [follower]);
  return { worked, follower };
}

interface WorkingProps<T> {
  readonly what: string;
  readonly worked: Worked<T>;
  readonly follower: AskFollower<T>;
}

/** How far it is, with its stop; or that it was stopped or failed, and how to have it once more. */
export function Working<T>({ what, worked, follower }: WorkingProps<T>) {
  const { done, failure, isStopped } = worked;
  if (done !== null)
    return (
      <p class="asks-working">
        <progress aria-label={what} max={1} value={done} />
        <span class="quiet">
          {what} {Math.round(100 * done)} %
        </span>{" "}
        <button type="button" onClick={() => follower.stop()}>
          stop<span class="visually-hidden"> {what}</span>
        </button>
      </p>
    );
  if (failure === null && !isStopped) return null;
  return (
    <p class={failure === null ? "quiet" : "alert"} role={failure === null ? undefined : "alert"}>
      {failure === null ? "Stopped." : `This could not be worked out: ${failure}.`}{" "}
      <button type="button" onClick={() => follower.again()}>
        try again<span class="visually-hidden">: {what}</span>
      </button>
    </p>
  );
}
