import { useEffect, useState } from "preact/hooks";
import { type GearBook, WorkError } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";

export interface Gear {
  /** null until it is there, and where no server keeps one */
  readonly book: GearBook | null;
  readonly failure: string | null;
  /** what another window learnt of the same gear while this one kept its own, until that is decided; null where there is none */
  readonly apart: Pick<GearBook, "bodies" | "lights"> | null;
  save(book: GearBook): Promise<void>;
  /** as this window has it, or as the other one learnt it */
  decide(isTaking: boolean): void;
}

/** What is kept of gear from plan to plan, as other windows leave it. */
export function useGear({ gear, news, say }: Pick<Bench, "gear" | "news" | "say">): Gear {
  const [book, setBook] = useState<GearBook | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const [apart, setApart] = useState<Gear["apart"]>(null);
  const tell = (error: unknown) => {
    if (!(error instanceof WorkError)) throw error;
    setFailure(`The gear book: ${error.message}.`);
  };
  // an answer that was overtaken by a later one tells nothing new
  const take = (next: GearBook) =>
    setBook((now) => ((next.revision ?? 0) < (now?.revision ?? 0) ? now : next));
  useEffect(() => {
    const look = () => void gear?.load().then(take).catch(tell);
    look();
    const leave = news.subscribe(({ kind }) => {
      if (kind === "gear") look();
    });
    // a window in the back may have slept
    addEventListener("focus", look);
    return () => {
      leave();
      removeEventListener("focus", look);
    };
  }, [gear, news]);
  const save = async (next: GearBook) => {
    if (gear === null) return;
    try {
      const { over, ...kept } = await gear.save(next);
      take(kept);
      setApart(over ?? null);
      setFailure(null);
      say.set("kept with the gear");
    } catch (error) {
      tell(error);
    }
  };
  return {
    book,
    failure,
    apart,
    save,
    decide(isTaking) {
      setApart(null);
      if (!isTaking || apart === null || book === null) return;
      const bodies = { ...book.bodies, ...apart.bodies };
      void save({ ...book, bodies, lights: { ...book.lights, ...apart.lights } });
    },
  };
}
