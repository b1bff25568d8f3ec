import { render } from "preact";
import { liveFrom } from "./client.ts";
import { Connection } from "./connection.ts";
import { rememberedUnits, rememberUnits } from "./hooks.ts";
import { Phone } from "./phone.tsx";

let units = rememberedUnits();
const connection = new Connection({
  follow: (signal, on) => liveFrom(units)(signal, on),
  after: (delay_ms, run) => {
    const timer = setTimeout(run, delay_ms);
    return () => clearTimeout(timer);
  },
});

addEventListener("offline", () => connection.lose());
addEventListener("online", () => connection.open());
// a phone that slept may have lost the thread without a word
document.addEventListener("visibilitychange", () => {
  const { state } = connection.get().link;
  if (document.visibilityState === "visible" && (state === "live" || state === "lost")) connection.open();
});
connection.open();

const root = document.getElementById("phone");
if (root !== null)
  render(
    <Phone
      connection={connection}
      units={units}
      chooseUnits={(chosen) => {
        units = chosen;
        rememberUnits(chosen);
        connection.open();
      }}
    />,
    root,
  );
