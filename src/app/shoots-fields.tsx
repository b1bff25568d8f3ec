import type { ComponentChildren, TextareaHTMLAttributes } from "preact";
import { useEffect, useId } from "preact/hooks";
import type { ShootFields } from "../shoots/index.ts";
import { useStore } from "./hooks.ts";
import type { FieldName, ShootDraft } from "./shoots-draft.ts";
import { dayText } from "./shoots-words.ts";

/** What a person fills in of a shoot, written where it stands. */
export function ShootFieldsForm({ draft }: { draft: ShootDraft }) {
  useStore(draft.store);
  const { client, date, notes, place } = draft.fields();
  return (
    <section class="shoots-fields" aria-labelledby="fields-title">
      <h2 id="fields-title" class="visually-hidden">
        What it is
      </h2>
      <Labelled label="day">
        {(id) => (
          <input
            id={id}
            type="date"
            value={date ?? ""}
            onChange={(event) => {
              const { validity, value } = event.currentTarget;
              // a day that is typed halfway is none yet
              if (validity.valid) draft.put({ date: value === "" ? null : value });
            }}
            onBlur={() => void draft.flush()}
          />
        )}
      </Labelled>
      <Labelled label="place">
        {(id) => <Text id={id} draft={draft} name="place" value={place} most={200} />}
      </Labelled>
      <Labelled label="client">
        {(id) => <Text id={id} draft={draft} name="client" value={client} most={200} />}
      </Labelled>
      <Labelled label="notes">
        {(id) => <Text id={id} draft={draft} name="notes" value={notes} most={20_000} />}
      </Labelled>
      <Keeping draft={draft} />
    </section>
  );
}

/** The title stands as the page's own heading. */
export function ShootTitle({ draft }: { draft: ShootDraft }) {
  useStore(draft.store);
  return (
    <h1>
      <Text
        draft={draft}
        name="title"
        value={draft.fields().title}
        most={200}
        class="title-field"
        aria-label="title of the shoot"
        placeholder="Untitled shoot"
      />
    </h1>
  );
}

function Labelled({ label, children }: { label: string; children: (id: string) => ComponentChildren }) {
  const id = useId();
  return (
    <p class="shoots-field">
      <label for={id}>{label}</label>
      {children(id)}
    </p>
  );
}

interface TextProps extends TextareaHTMLAttributes {
  readonly draft: ShootDraft;
  readonly name: "title" | "place" | "client" | "notes";
  readonly value: string;
  readonly most: number;
}

const put = (draft: ShootDraft, name: TextProps["name"], text: string) =>
  draft.put({ [name]: text } as Partial<ShootFields>);

/** As tall as what stands in it; all but notes is one line, however it wraps, and its Enter is the end of it. */
function Text(props: TextProps) {
  const { draft, name, value, most, ...others } = props;
  const isLine = name !== "notes";
  return (
    <textarea
      {...others}
      rows={1}
      data-line={isLine}
      maxLength={most}
      value={value}
      onInput={(event) =>
        put(draft, name, isLine ? oneLine(event.currentTarget.value) : event.currentTarget.value)
      }
      onBlur={() => void draft.flush()}
      onKeyDown={(event) => {
        if (event.key !== "Enter" || !isLine) return;
        event.preventDefault();
        event.currentTarget.blur();
      }}
    />
  );
}

const oneLine = (text: string) => text.replace(/\s*\n\s*/g, " ");

const LABELS: Readonly<Record<FieldName, string>> = {
  title: "title",
  date: "day",
  place: "place",
  client: "client",
  notes: "notes",
  isPutAway: "put away or not",
};

/** How safe what is written is, and what somebody is asked about. */
function Keeping({ draft }: { draft: ShootDraft }) {
  const { clash, state, trouble, typed } = useStore(draft.store);
  useEffect(() => {
    const keep = () => void draft.flush();
    addEventListener("pagehide", keep);
    return () => {
      removeEventListener("pagehide", keep);
      keep();
    };
  }, [draft]);
  if (clash !== null) {
    const names = Object.keys(clash) as FieldName[];
    return (
      <div class="alert" role="alert">
        <p>Another window wrote here meanwhile; nothing is kept over it until you say which stays.</p>
        <dl class="clash">
          {names.map((name) => (
            <div key={name}>
              <dt>{LABELS[name]}</dt>
              <dd>here: {fieldText(name, typed[name])}</dd>
              <dd>there: {fieldText(name, clash[name])}</dd>
            </div>
          ))}
        </dl>
        <p class="row">
          <button type="button" onClick={() => void draft.keepMine()}>
            keep mine
          </button>
          <button type="button" onClick={() => void draft.takeTheirs()}>
            take theirs
          </button>
        </p>
      </div>
    );
  }
  if (trouble !== null)
    return (
      <p class="alert" role="alert">
        not kept yet: {trouble}{" "}
        <button type="button" onClick={() => void draft.flush()}>
          try again
        </button>
      </p>
    );
  return <p class="quiet small">{state === "kept" ? "kept" : "keeping…"}</p>;
}

function fieldText(name: FieldName, value: ShootFields[FieldName] | undefined): string {
  if (name === "isPutAway") return value === true ? "put away" : "in the list";
  if (name === "date") return dayText(typeof value === "string" ? value : null);
  return value === "" || value === undefined || value === null ? "nothing" : `“${value}”`;
}
