import type { Camera } from "../plan/index.ts";
import { type Bench, putField } from "./bench.ts";
import { fNumberText, parseFNumber, parseNumber, parseShutter, shutterText } from "./entries.ts";
import { rounded } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";

/** The three that a camera is set by, beside the picture they decide. Up and down step a tenth, Shift a stop;
 * shutter and ISO step a third, as bodies do. */
export function ExposureFields({ bench, camera }: { bench: Bench; camera: Camera }) {
  const put = (label: string, field: "fNumber" | "shutter" | "iso") => (value: number) =>
    putField(bench, label, ["camera", field], value);
  return (
    <fieldset class="exposure">
      <legend class="visually-hidden">exposure</legend>
      <NumberField
        label="aperture"
        text={fNumberText(camera.fNumber)}
        parse={parseFNumber}
        commit={put("aperture", "fNumber")}
        step={(way, large) =>
          put("aperture", "fNumber")(camera.fNumber * 2 ** ((way * (large ? 1 : 0.1)) / 2))
        }
      />
      <NumberField
        label="shutter"
        text={shutterText(camera.shutter)}
        parse={parseShutter}
        commit={put("shutter", "shutter")}
        step={(way, large) => put("shutter", "shutter")(camera.shutter * 2 ** (way * (large ? 1 : 1 / 3)))}
      />
      <NumberField
        label="ISO"
        text={String(rounded(camera.iso, 0))}
        parse={(text) => parseNumber(text.replace(/^iso\s*/i, ""), /$^/, "100")}
        commit={put("ISO", "iso")}
        step={(way, large) => put("ISO", "iso")(rounded(camera.iso * 2 ** (way * (large ? 1 : 1 / 3)), 0))}
      />
    </fieldset>
  );
}
