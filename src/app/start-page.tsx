import type { Bench } from "./bench.ts";
import type { FileActions } from "./file-actions.ts";

/** What to work on: the last plan, the examples, an empty room. */
export function StartPage({ bench, files }: { bench: Bench; files: FileActions }) {
  return (
    <main class="start">
      <h1>Tapemark</h1>
      <button type="button" onClick={() => bench.view.update({ screen: "plan" })}>
        go on with the plan
      </button>
      <ul>
        {files.examples.map((name) => (
          <li key={name}>
            <button type="button" onClick={() => void files.openExample(name)}>
              {name}
            </button>
          </li>
        ))}
      </ul>
    </main>
  );
}
