import { useEffect, useState } from "preact/hooks";
import { type GearBook, WorkError } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";

export interface Gear {
  /** null until it is there, and where no server keeps one */
  readonly book: GearBook | null;
  readonly failure: string | null;
  save(book: GearBook): Promise<void>;
}

/** What is kept of gear from plan to plan. */
export function useGear({ gear, say }: Pick<Bench, "gear" | "say">): Gear {
  const [book, setBook] = useState<GearBook | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const tell = (error: unknown) => {
    if (!(error instanceof WorkError)) throw error;
    setFailure(`The gear book: ${error.message}.`);
  };
  useEffect(() => {
    gear?.load().then(setBook).catch(tell);
  }, [gear]);
  return {
    book,
    failure,
    async save(next) {
      if (gear === null) return;
      try {
        setBook(await gear.save(next));
        say.set("kept with the gear");
      } catch (error) {
        tell(error);
      }
    },
  };
}
