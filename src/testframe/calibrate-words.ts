/** What calibrating found, in the words that screen and shell share. */
import { ALL_LIGHTS, type Plan } from "../plan/index.ts";
import { goodToWords } from "../reading/index.ts";
import { formatFStops } from "../units/index.ts";
import type { CalibratedLight, Calibration, CheckedReading, NextReading } from "./calibrate-types.ts";

/** "key gives 0.8 stop more than its output says, good to 0.1 stop; it was a guess within about one stop" */
export function lightLine({ name, before, after, beam, isContradicted, readings }: CalibratedLight): string {
  const was = goodToWords(before.uncertaintyStops);
  if (readings === 0)
    return isContradicted
      ? `${name}: what the plan said of it, ${was}, and its reading do not go together; neither is believed`
      : `${name}: no readings of it, ${was}`;
  const spread =
    beam === null
      ? ""
      : `; it spreads as exponent ${beam.exponentAfter.toFixed(1)}, not ${beam.exponentBefore.toFixed(1)}`;
  const against = isContradicted ? "; what the plan said of it does not go with that and was left out" : "";
  return (
    `${name} gives ${differenceWords(after.stops, "its output says")}, ` +
    `${goodToWords(after.uncertaintyStops)}; it was ${was}${spread}${against}`
  );
}

/** Null where there is no room that sends light back. */
export function roomLine({ room }: Calibration): string | null {
  if (room === null) return null;
  const { before, after } = room;
  // readings that hardly tell leave it where it was
  if (after.uncertaintyStops > 0.9 * before.uncertaintyStops)
    return `the room: no readings that tell what it sends back, ${goodToWords(before.uncertaintyStops)}`;
  return `the room sends back ${differenceWords(after.stops, "its reflectances say")}, ${goodToWords(after.uncertaintyStops)}`;
}

function differenceWords(stops: number, than: string): string {
  const text = Math.abs(stops).toFixed(1);
  if (text === "0.0") return `what ${than}`;
  return `${stopsWords(text)} ${stops > 0 ? "more" : "less"} than ${than}`;
}

function stopsWords(text: string): string {
  return `${text} ${Number(text) <= 1 ? "stop" : "stops"}`;
}

/** One line for each reading that was left out, none for those that were used. */
export function leftOutLines(plan: Plan, { readings }: Calibration): string[] {
  const inDoubt = readings.filter(({ state }) => state === "in doubt").map(({ name }) => name);
  const lines = readings.flatMap((reading) => {
    if (reading.state === "singled out") return [singledOutLine(plan, reading)];
    return reading.state === "not used" ? [`${reading.name} is not used: ${reading.why}`] : [];
  });
  if (inDoubt.length > 0)
    lines.push(
      inDoubt.length === 1
        ? `${inDoubt[0]} does not go with what the plan says; which is wrong cannot be told from one reading: read it again`
        : `${inDoubt.join(" and ")} cannot all be right, and which is wrong cannot be told: none is used; read them again`,
    );
  return lines;
}

function singledOutLine(plan: Plan, { kind, name, offAfter, why }: CheckedReading): string {
  const off = offAfter ?? 0;
  const by = `${stopsWords(Math.abs(off).toFixed(1))} ${off > 0 ? "over" : "under"} what all the others say`;
  const made = plan.readings.find((reading) => reading.name === name);
  if (kind !== "reading" || made === undefined)
    return `the ${kind} in ${name} cannot be right: ${by}. ${why}`;
  const fits = formatFStops(made.fNumber * 2 ** (-off / 2));
  return `${name} cannot be right: ${formatFStops(made.fNumber)}, ${by}, which is ${fits}. ${why}`;
}

/** "5 readings used; what is left between them and the plan is 0.04 stop"; null where none was used. */
export function restLine({ readings, rmsStops }: Calibration): string | null {
  if (rmsStops === null) return null;
  const used = readings.filter(({ state }) => state === "used").length;
  return `${used} ${used === 1 ? "reading" : "readings"} used; what is left between them and the plan is ${rmsStops.toFixed(2)} stop`;
}

/** "measure key alone at the chin: it takes the doubt of key from 1.0 to 0.1 stop"; null where all is known well enough. */
export function nextLine({ next, unknown }: Calibration): string | null {
  if (next !== null) {
    const { after, before, helps } = next;
    const of = helps === "bounce" ? "what the room sends back" : helps;
    return `measure ${nextWords(next)}: it takes the doubt of ${of} from ${before.toFixed(1)} to ${after.toFixed(1)} stop`;
  }
  return unknown.length === 0
    ? null
    : "put a meter into the plan where the face is, and read each light alone there";
}

function nextWords({ isTurned, light, meter, near }: NextReading): string {
  const which = light === ALL_LIGHTS ? "all lights together" : `${light} alone`;
  if (meter !== null) return `${which} at the ${meter}`;
  return `${which} where ${near} is held${isTurned ? ", the meter turned the other way" : ""}`;
}

/** Everything, one line each. */
export function calibrationLines(plan: Plan, calibration: Calibration): string[] {
  const lines = calibration.lights.map(lightLine);
  const room = roomLine(calibration);
  if (room !== null) lines.push(room);
  lines.push(...leftOutLines(plan, calibration));
  const rest = restLine(calibration);
  if (rest !== null) lines.push(rest);
  const next = nextLine(calibration);
  if (next !== null) lines.push(next);
  return lines;
}
