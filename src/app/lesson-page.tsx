import type { Bench } from "./bench.ts";

/** Direction or power, explained on one page with a live small plan. */
export function LessonPage({ bench, topic }: { bench: Bench; topic: "direction" | "power" }) {
  return (
    <main class="lesson">
      <h1>{topic === "direction" ? "Direction" : "Power"}</h1>
      <button type="button" onClick={() => bench.view.update({ screen: "plan" })}>
        back to the plan
      </button>
    </main>
  );
}
