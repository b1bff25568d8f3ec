import { useState } from "preact/hooks";
import { keep, recall } from "./preferences.ts";

/** A small choice of somebody who works here, remembered for the next time; a closed storage only forgets it. */
export function useKept(key: string, initial: string): [string, (value: string) => void] {
  const [value, setValue] = useState(() => recall(`tapemark.${key}`) ?? initial);
  return [
    value,
    (next) => {
      setValue(next);
      keep(`tapemark.${key}`, next);
    },
  ];
}
