import { useStore } from "./hooks.ts";
import { type LightPart, putLight } from "./light-part.ts";

/** What is used every minute: on, alone. */
export function LightState({ bench, index, light }: LightPart) {
  const view = useStore(bench.view);
  const owner = `lights[${index}]`;
  const isAlone = view.alone === owner;
  const { name } = light;
  return (
    <div class="light-state">
      <Toggle
        text={light.on ? "on" : "off"}
        of={name}
        pressed={light.on}
        press={() => putLight(bench, index, `${name} ${light.on ? "off" : "on"}`, { on: !light.on })}
      />
      <Toggle
        text="alone"
        of={name}
        pressed={isAlone}
        press={() => {
          bench.view.update({ alone: isAlone ? null : owner });
          bench.say.set(isAlone ? "All lights are seen." : `Only ${name} is seen.`);
        }}
      />
      {isAlone && (
        <p class="alone-here">
          only {name} is seen{!light.on && ", and it is off"};{" "}
          <button type="button" onClick={() => bench.view.update({ alone: null })}>
            all lights
          </button>
        </p>
      )}
    </div>
  );
}

function Toggle(props: { text: string; of: string; pressed: boolean; press: () => void }) {
  return (
    <button type="button" aria-pressed={props.pressed} onClick={props.press}>
      {props.text}
      <span class="visually-hidden">, {props.of}</span>
    </button>
  );
}
