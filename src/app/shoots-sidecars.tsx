import { useState } from "preact/hooks";
import type { SidecarsWritten } from "../shoots/index.ts";
import type { ShootLibrary } from "../workbench/index.ts";
import { sidecarsText } from "./shoots-words.ts";
import { troubleOf } from "./trouble.ts";

/** Stars and selects for other programs, beside the photographs; what came of it is told, file by file where it failed. */
export function Sidecars({
  library,
  shoot,
}: {
  library: Pick<ShootLibrary, "writeSidecars">;
  shoot: string;
}) {
  const [written, setWritten] = useState<SidecarsWritten | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isWriting, setWriting] = useState(false);

  async function write() {
    setWriting(true);
    setWritten(null);
    setTrouble(null);
    try {
      setWritten(await library.writeSidecars(shoot));
    } catch (error) {
      setTrouble(troubleOf(error));
    }
    setWriting(false);
  }

  return (
    <div>
      <p>
        <button type="button" disabled={isWriting} onClick={() => void write()}>
          write sidecars
        </button>{" "}
        <span class="quiet small">stars and selects beside the photographs, for other programs</span>
      </p>
      <div role="status">
        {isWriting && <p class="quiet">writing…</p>}
        {written !== null && <p>{sidecarsText(written)}</p>}
      </div>
      {trouble !== null && (
        <p class="alert" role="alert">
          {trouble}
        </p>
      )}
      {written !== null && written.problems.length > 0 && (
        <ul class="alert" aria-label="Not written">
          {written.problems.map(({ cure, name, problem }) => (
            <li key={name}>
              <span class="file-name">{name}</span>: {problem}; {cure}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
