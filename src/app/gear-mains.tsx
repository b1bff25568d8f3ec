import type { Circuit, Edit, Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { freeName } from "./adding.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { ChoiceField } from "./fields.tsx";
import { parseName } from "./find-entries.ts";
import { EntryField } from "./find-field.tsx";
import { BriefLength, BriefNumber, type PutBrief } from "./find-part.tsx";
import { MaybeNumber, Tick } from "./gear-fields.tsx";

interface MainsProps {
  readonly bench: Bench;
  readonly put: PutBrief;
  readonly plan: Plan;
  readonly units: LengthUnits;
}

const MOST_CIRCUITS = 16;

/** How often it flashes: what heads, mains and eyes must keep up with. */
export function ShootingFields({ put, plan }: Pick<MainsProps, "put" | "plan">) {
  const { shooting } = plan;
  return (
    <fieldset class="group">
      <legend>how it is shot</legend>
      <MaybeNumber
        label="a frame every"
        of="shooting"
        put={put}
        path={["shooting"]}
        value={shooting?.everySeconds ?? null}
        unit="s"
        made={(everySeconds) => (everySeconds === null ? null : { ...shooting, everySeconds })}
        {...(shooting === null ? { note: "at the quickest" } : {})}
      />
      {shooting !== null && (
        <BriefNumber
          label="who is shot moves at"
          of="shooting"
          put={put}
          path={["shooting", "subjectSpeed"]}
          value={shooting.subjectSpeed}
          unit="m/s"
          digits={2}
          stepBy={0.05}
        />
      )}
    </fieldset>
  );
}

/** Where sprinklers are, if the room has them. */
export function SprinklerFields({ put, plan, units }: MainsProps) {
  if (plan.room === null) return null;
  const { sprinklers } = plan.room;
  const path = ["room", "sprinklers"] as const;
  return (
    <fieldset class="group">
      <legend>over it</legend>
      <Tick
        text="the room has sprinklers"
        of="room"
        on={sprinklers !== null}
        put={(on) => put(on ? "sprinklers" : "no sprinklers", path, on ? { below: FIRST_BELOW_M } : null)}
      />
      {sprinklers !== null && (
        <BriefLength
          label="ceiling to their plates"
          of="sprinklers"
          {...{ put, units }}
          path={[...path, "below"]}
          value={sprinklers.below}
        />
      )}
    </fieldset>
  );
}

/** To begin with: it is measured next (common practice, no source). */
const FIRST_BELOW_M = 0.1;
/** Where most of the world lives, and what its sockets are mostly fused with (common practice, no source). */
const FIRST_CIRCUIT = { volts: 230, amps: 16 };

/** What heads are plugged into, and what else hangs on it. */
export function CircuitsFields({ bench, put, plan }: MainsProps) {
  const { circuits } = plan;
  const names = circuits.map(({ name }) => name);
  return (
    <fieldset class="group">
      <legend>circuits</legend>
      {circuits.length === 0 && <p class="quiet">none given: no sum of watts is made</p>}
      {circuits.map((circuit, i) => (
        <CircuitFields key={i} {...{ bench, put, plan, circuit }} index={i} />
      ))}
      <p class="adding">
        <button
          type="button"
          disabled={circuits.length >= MOST_CIRCUITS}
          onClick={() => {
            const name = freeName("circuit", names);
            put(`add ${name}`, ["circuits"], [...circuits, { name, ...FIRST_CIRCUIT }]);
          }}
        >
          add a circuit
        </button>
      </p>
    </fieldset>
  );
}

interface CircuitProps extends Omit<MainsProps, "units"> {
  readonly circuit: Circuit;
  readonly index: number;
}

function CircuitFields({ bench, put, plan, circuit, index }: CircuitProps) {
  const { amps, feeds, name, otherWatts, volts } = circuit;
  const path = ["circuits", index] as const;
  const number = (
    label: string,
    field: "volts" | "amps" | "otherWatts",
    value: number,
    unit: string,
    stepBy: number,
  ) => <BriefNumber {...{ put, label, value, unit, stepBy }} of={name} path={[...path, field]} digits={1} />;
  return (
    <fieldset class="group gear-circuit">
      <legend class="visually-hidden">circuit {name}</legend>
      <EntryField
        label="circuit"
        of={name}
        text={name}
        parse={parseName}
        commit={(to) => makeEdit(bench, renamed(plan, index, name, to))}
      />
      {number("volts", "volts", volts, "V", 1)}
      {number("fused at", "amps", amps, "A", 1)}
      {number("it also feeds", "otherWatts", otherWatts, "W", 10)}
      <ChoiceField
        label="in use"
        of={name}
        value={feeds}
        choices={[
          ["hours", "3 h and more"],
          ["short", "under 3 h"],
        ]}
        choose={(to) => put(`${name} in use ${to}`, [...path, "feeds"], to)}
      />
      <p>
        <button type="button" class="quiet" onClick={() => makeEdit(bench, without(plan, index, name))}>
          take away<span class="visually-hidden"> circuit {name}</span>
        </button>
      </p>
    </fieldset>
  );
}

/** Every head that is plugged into one circuit, plugged into another, or into the first. */
function replugged(plan: Plan, from: string, to: string | null) {
  return plan.lights.flatMap(({ head }, i) =>
    head?.circuit === from ? [{ path: ["lights", i, "head", "circuit"], value: to }] : [],
  );
}

/** Heads that are plugged into it go by its new name. */
function renamed(plan: Plan, index: number, from: string, to: string): Edit {
  return {
    kind: "set",
    label: `circuit ${from} is ${to}`,
    fields: [{ path: ["circuits", index, "name"], value: to }, ...replugged(plan, from, to)],
  };
}

/** Heads that were plugged into it are on the first one that is left. */
function without(plan: Plan, index: number, name: string): Edit {
  return {
    kind: "set",
    label: `without ${name}`,
    fields: [
      { path: ["circuits"], value: plan.circuits.toSpliced(index, 1) },
      ...replugged(plan, name, null),
    ],
  };
}
