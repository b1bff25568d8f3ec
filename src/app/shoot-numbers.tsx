import type { ComparedLine, FrameComparison, PhotoFace } from "../testframe/index.ts";
import { seenLines } from "./shoot-words.ts";

type What = ComparedLine["what"];

/** Power and direction are told apart, here too. */
const GROUPS: readonly { readonly name: string; readonly tone: string; readonly whats: readonly What[] }[] = [
  { name: "power", tone: "warm", whats: ["exposure", "ratio", "background"] },
  { name: "direction", tone: "cool", whats: ["direction", "side", "pattern", "catchlights"] },
  { name: "picture", tone: "plain", whats: ["framing"] },
];

/** Under the word direction the first line needs no second one. */
const ROW: Partial<Readonly<Record<What, string>>> = { direction: "comes from", side: "lit side" };

/** Every number three times: as planned, as the frame shows it, and what lies between. */
export function ComparedNumbers({ comparison }: { readonly comparison: FrameComparison }) {
  return (
    <table class="compared">
      <caption class="visually-hidden">plan and frame</caption>
      <colgroup>
        <col class="what" />
        <col />
        <col />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">
            <span class="visually-hidden">what</span>
          </th>
          <th scope="col">plan</th>
          <th scope="col">frame</th>
        </tr>
      </thead>
      {GROUPS.map(({ name, tone, whats }) => {
        const lines = comparison.lines.filter(({ what }) => whats.includes(what));
        if (lines.length === 0) return null;
        return (
          <tbody key={name} class={tone}>
            <tr>
              <th scope="rowgroup" colSpan={3} class="group-name">
                {name}
              </th>
            </tr>
            {lines.map((line) => (
              <Line key={line.what} line={line} />
            ))}
          </tbody>
        );
      })}
    </table>
  );
}

function Line({ line }: { line: ComparedLine }) {
  const { difference, planned, seen, state, what } = line;
  // what the frame does not tell is said in its own column
  const isSaid = difference === "" && state === seen;
  return (
    <>
      <tr data-state={state}>
        <th scope="row" rowSpan={isSaid ? 1 : 2}>
          {ROW[what] ?? what}
        </th>
        <td>{planned}</td>
        <td>{seen}</td>
      </tr>
      {!isSaid && (
        <tr data-state={state} class="difference">
          <td colSpan={2}>
            {state}
            {difference !== "" && <>: {difference}</>}
          </td>
        </tr>
      )}
    </>
  );
}

/** The frame by itself, where there is nothing to put beside it. */
export function SeenNumbers({ face }: { readonly face: PhotoFace }) {
  const lines = seenLines(face);
  return (
    <table class="compared">
      <caption class="visually-hidden">the frame</caption>
      <colgroup>
        <col class="what" />
        <col />
      </colgroup>
      {GROUPS.map(({ name, tone, whats }) => {
        const own = lines.filter(({ what }) => whats.includes(what));
        if (own.length === 0) return null;
        return (
          <tbody key={name} class={tone}>
            <tr>
              <th scope="rowgroup" colSpan={2} class="group-name">
                {name}
              </th>
            </tr>
            {own.map(({ what, seen }) => (
              <tr key={what}>
                <th scope="row">{ROW[what] ?? what}</th>
                <td>{seen}</td>
              </tr>
            ))}
          </tbody>
        );
      })}
    </table>
  );
}
