import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import type { Command } from "./commands.ts";
import { runCommand } from "./held.ts";
import { useStore } from "./hooks.ts";
import type { PlanObject } from "./objects.ts";

interface HeldHeadProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly held: readonly PlanObject[];
}

/** What is held, by name, and what can be asked of it. */
export function HeldHead({ bench, plan, held }: HeldHeadProps) {
  const { stays } = useStore(bench.view);
  const [only] = held;
  const isPinned = held.length > 0 && held.every((object) => object.pinned);
  const whole = held.length === 1 ? (only?.name ?? "") : `${held.length} things`;
  return (
    <div class="held">
      <div class="numbers-of">
        <h2 id="numbers-title">{held.length === 0 ? "room" : whole}</h2>
        {held.length === 1 && only !== undefined && only.kind !== only.name && (
          <span class="quiet">{only.kind}</span>
        )}
        {isPinned && <span class="quiet">pinned</span>}
      </div>
      {held.length > 1 && <p class="held-names">{held.map((object) => object.name).join(", ")}</p>}
      {held.length > 0 && (
        // biome-ignore lint/a11y/useSemanticElements: a row of words, not fields
        <div class="commands" role="group" aria-label={`What to do with ${whole}`}>
          {commandsFor(plan, held).map((command) => (
            <button
              key={command}
              type="button"
              aria-pressed={command === "pin" ? isPinned : undefined}
              onClick={() => runCommand(bench, command)}
            >
              {command}
              <span class="visually-hidden"> {whole}</span>
            </button>
          ))}
        </div>
      )}
      {stays != null && held.length > 0 && <p class="stays">{stays}</p>}
    </div>
  );
}

/** Only what can be done: there is one camera, one backdrop, and no axis where nobody stands. */
function commandsFor(plan: Plan, held: readonly PlanObject[]): Command[] {
  const isSingle = (object: PlanObject) => object.kind === "camera" || object.kind === "backdrop";
  const commands: Command[] = [];
  if (!held.every(isSingle)) commands.push("duplicate");
  if (plan.people.length > 0) commands.push("mirror");
  commands.push("pin");
  if (held.some((object) => object.kind !== "camera")) commands.push("take away");
  return commands;
}
