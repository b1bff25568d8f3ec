import { useEffect, useState } from "preact/hooks";
import type { LengthUnits } from "../units/index.ts";
import { isAmerican } from "./client.ts";

const UNITS = "tapemark.phone.units";

/** What this device remembers; storage that is closed forgets. */
export function rememberedUnits(): LengthUnits {
  const kept = quietly(() => localStorage.getItem(UNITS));
  if (kept === "feet" || kept === "metric") return kept;
  return isAmerican(navigator.language) ? "feet" : "metric";
}

export function rememberUnits(units: LengthUnits): void {
  quietly(() => localStorage.setItem(UNITS, units));
}

function quietly<T>(act: () => T): T | undefined {
  try {
    return act();
  } catch {
    return undefined;
  }
}

export interface Readable<T> {
  get(): T;
  subscribe(listener: () => void): () => void;
}

export function useFollowed<T>(source: Readable<T>): T {
  const [value, setValue] = useState(() => source.get());
  useEffect(() => {
    const update = () => setValue(() => source.get());
    update();
    return source.subscribe(update);
  }, [source]);
  return value;
}

/** "14:02", by the clock of this device. */
export function clockOf(iso: string): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return "";
  return `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;
}
