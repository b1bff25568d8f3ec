import { useRef } from "preact/hooks";
import type { Plan, Print } from "../plan/index.ts";
import { frameAspect, usedPart } from "../reading/index.ts";
import { type Bench, makeEdit, putField } from "./bench.ts";
import { lengthText, parseLengthText } from "./entries.ts";
import { useStore } from "./hooks.ts";
import { NumberField } from "./number-field.tsx";
import { percent } from "./wording.ts";

const NOT_SETTLED = "not settled";

/** The finished size that the picture is for, and how much of the frame it takes. */
export function FramePrint({ bench, plan }: { bench: Bench; plan: Plan }) {
  const { units } = useStore(bench.view);
  const { print } = plan;
  const sides = useRef<HTMLFieldSetElement>(null);
  /** Where nothing is settled the other side follows from the frame. */
  const put = (side: keyof Print) => (to: number) => {
    const aspect = frameAspect(plan.camera);
    const other = side === "width" ? to / aspect : to * aspect;
    const round = (metres: number) => Number(metres.toFixed(3));
    const both = side === "width" ? { width: to, height: round(other) } : { width: round(other), height: to };
    return print === null
      ? putField(bench, "print settled", ["print"], both)
      : putField(bench, `print ${side}`, ["print", side], to);
  };
  const used = usedPart(plan);
  const share = (used.right - used.left) * (used.bottom - used.top);
  return (
    <fieldset class="print-size" ref={sides}>
      <legend class="visually-hidden">finished print</legend>
      {(["width", "height"] as const).map((side) => (
        <NumberField
          key={side}
          label={side}
          of="finished print"
          text={print === null ? NOT_SETTLED : lengthText(print[side], units)}
          parse={(text) => parseLengthText(text, units)}
          commit={put(side)}
        />
      ))}
      <p class="quiet">
        {print === null ? "the whole frame is used" : `uses ${percent(share)} of the frame`}
        {print !== null && (
          <button
            type="button"
            onClick={() => {
              makeEdit(bench, {
                kind: "set",
                label: "print not settled",
                fields: [{ path: ["print"], value: null }],
              });
              // this button goes away
              sides.current?.querySelector("input")?.focus();
            }}
          >
            not settled
          </button>
        )}
      </p>
    </fieldset>
  );
}
