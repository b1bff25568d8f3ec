import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { type ContactSheet, contactPage } from "../sheet/index.ts";
import { contactLacks, makeContact } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { ChoiceField } from "./fields.tsx";
import { download, fileStem } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { contactFile } from "./record-client.ts";
import { SheetRun } from "./record-run.ts";
import { Working } from "./record-working.tsx";
import { capital } from "./wording.ts";

/** Small moves from the plan as it stands, on one page; seen here first, or saved at once. */
export function ContactPart({ bench }: { readonly bench: Bench }) {
  const { plan } = useStore(bench.session);
  const view = useStore(bench.view);
  const { units } = view;
  const run = useMemo(() => new SheetRun(), []);
  useEffect(() => () => run.leave(), [run]);
  const [person, setPerson] = useState(() => chosenPerson(plan, view));
  const [sheet, setSheet] = useState<ContactSheet | null>(null);
  useEffect(() => setSheet(null), [plan, person, units]);
  const paper = units === "feet" ? "letter" : "a4";
  const page = useMemo(() => (sheet === null ? null : contactPage(sheet, { paper })), [sheet, paper]);
  const lacking = contactLacks(plan, person);
  const stem = `${fileStem(plan.title)}-moves`;

  const show = () =>
    run.start("the contact sheet", async (work) => {
      const [first = bench.trials, ...others] = bench.finders();
      setSheet(await makeContact([first, ...others], plan, { person, units }, work));
      return "The contact sheet is shown below.";
    });
  const save = (form: "pdf" | "png") =>
    run.start(`the contact sheet, ${form.toUpperCase()}`, async (work) => {
      const file = await contactFile(bench.session.text(), { form, person, units }, work);
      download(`${stem}.${form}`, form === "pdf" ? "application/pdf" : "image/png", file);
      return `The contact sheet is saved, ${form.toUpperCase()}.`;
    });

  return (
    <section class="record-part" aria-labelledby="contact-title">
      <h2 id="contact-title">Contact sheet of moves</h2>
      <p class="quiet">
        The plan as it stands and eight small steps from it, each a true frame: what it does to where the
        light comes from and, apart from that, to how strong it is. Each is worked out finely, which takes a
        second or two.
      </p>
      {lacking !== null && (
        <p>
          {capital(lacking.problem)}: {lacking.cure}.
        </p>
      )}
      {plan.people.length > 1 && (
        <ChoiceField
          label="round"
          of="the contact sheet"
          value={String(person)}
          choices={plan.people.map(({ name }, i) => [String(i), name] as const)}
          choose={(value) => setPerson(Number(value))}
        />
      )}
      <p class="row">
        <button type="button" class="begin" disabled={lacking !== null} onClick={() => void show()}>
          show it
        </button>
        {bench.library !== null && (
          <>
            <button type="button" disabled={lacking !== null} onClick={() => void save("pdf")}>
              PDF
            </button>
            <button type="button" disabled={lacking !== null} onClick={() => void save("png")}>
              PNG
            </button>
          </>
        )}
        {page !== null && (
          <button type="button" onClick={() => download(`${stem}.svg`, "image/svg+xml", page)}>
            SVG
          </button>
        )}
      </p>
      {bench.library === null && (
        <p class="quiet small">
          PDF and PNG are made by the program that <code>tapemark open</code> starts; the SVG is made here.
        </p>
      )}
      <Working run={run} />
      {sheet !== null && page !== null && <Shown sheet={sheet} page={page} />}
    </section>
  );
}

/** As it will be printed, in the page's own font; what it says is there for the ear, and on a narrow screen in full size. */
function Shown({ sheet, page }: { readonly sheet: ContactSheet; readonly page: string }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // every word of a plan in it is escaped where it is written
    if (box.current !== null) box.current.innerHTML = page;
  }, [page]);
  return (
    <figure class="record-shown">
      <div ref={box} role="img" aria-label="The contact sheet as it will be printed" />
      <figcaption>
        <ul>
          {sheet.cells.map(({ direction, does, notes, power, why }) => (
            <li key={does}>
              <strong>{does}</strong>: {why ?? told(direction, power, notes)}
            </li>
          ))}
        </ul>
      </figcaption>
    </figure>
  );
}

function told(direction: string, power: string, notes: readonly string[]): string {
  const parts = [
    direction === "" ? "" : `direction: ${direction}`,
    power === "" ? "" : `power: ${power}`,
    ...notes,
  ];
  return parts.filter((words) => words !== "").join(". ");
}
