import { useEffect } from "preact/hooks";
import { bodyFor } from "../gear/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { ChoiceField } from "./fields.tsx";
import { shelfDeskOf } from "./gear-desk.ts";
import { useStore } from "./hooks.ts";

const OTHER = "";

/** A body of the shelf, with its sensor and the pixels of its files; nothing where the shelf has none, or is not there. */
export function ShelfBodies({ bench, plan }: { bench: Bench; plan: Plan }) {
  const desk = shelfDeskOf(bench);
  const { shelf } = useStore(desk.store);
  useEffect(() => void desk.load(), [desk]);
  if (shelf === null || shelf.bodies.length === 0) return null;
  const { bodies } = shelf;
  const now = plan.camera.pixels === null ? null : bodyFor(plan, shelf);
  return (
    <>
      <ChoiceField
        label="body"
        of="shelf"
        value={now === null ? OTHER : String(bodies.indexOf(now))}
        choices={[[OTHER, "another"], ...bodies.map((body, i) => [String(i), body.name] as const)]}
        choose={(index) => {
          const body = bodies[Number(index)];
          if (index === OTHER || body === undefined) return;
          makeEdit(bench, {
            kind: "set",
            label: body.name,
            fields: [
              { path: ["camera", "sensor"], value: body.sensor },
              { path: ["camera", "pixels"], value: body.pixels },
            ],
          });
        }}
      />
      {now?.isTypical && <p class="quiet small">typical numbers of such a body, nobody’s own</p>}
    </>
  );
}
