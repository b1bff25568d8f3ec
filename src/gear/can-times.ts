/** Charging, flash and shutter: what has to do with time. */
import { flashTenth, motionBlur } from "../photometry/index.ts";
import { type Light, type LightHead, type Plan, subjectSpeed } from "../plan/index.ts";
import { formatShutter } from "../units/index.ts";
import { bodyFor, cameraToFace } from "./can-camera.ts";
import type { CanAsk, CanRow, CanWay } from "./can-types.ts";
import type { ShelfHead } from "./schema.ts";
import { stopsText } from "./words.ts";

/** A tenth of a stop either way in any time is nothing. */
const SAME = 1.001;

const secondsText = (seconds: number) => `${Number(seconds.toPrecision(2))} s`;
const soonText = (seconds: number) => (seconds < 0.1 ? "less than 0.1 s" : `about ${secondsText(seconds)}`);

/** How soon it is charged again, against the time from frame to frame. A head that charges at even power needs a share of
 * the time for a share of the energy (common practice, no source).
 * Units   stops under full -> s */
export function recycleTime(recycle_s: number, stopsDown: number): number {
  return recycle_s * 2 ** -Math.max(0, stopsDown);
}

export function recycleRow({ shooting }: Plan, { head }: Light, stopsDown: number | null): CanRow {
  const about = "recycle";
  const recycle = head?.recycle ?? null;
  if (recycle === null)
    return { about, word: "not known", sentence: "say how long it charges after a full flash", ways: [] };
  const down = stopsDown ?? 0;
  const needs = recycleTime(recycle, down);
  const charging = `charged again in ${soonText(needs)} (${secondsText(recycle)} at full)`;
  if (shooting === null)
    return { about, word: "no rate given", sentence: `${charging}; say how often it must flash`, ways: [] };
  const every = shooting.everySeconds;
  const sentence = `${charging}, a frame every ${secondsText(every)}`;
  if (needs <= every * SAME) return { about, word: "charged in time", sentence, ways: [] };
  const by = Math.log2(needs / every);
  const ways: CanWay[] = [
    {
      kind: "slower",
      what: `a frame every ${secondsText(Math.ceil(needs * 10 - 1e-9) / 10)}`,
      effect: "nothing else changes; a frame taken sooner is darker",
      stops: null,
    },
    {
      kind: "iso",
      what: `this head ${stopsText(by)} down and ISO up by as much`,
      effect: "direction and softness stay; the other lights go down with it, room light comes up",
      stops: null,
    },
  ];
  return { about, word: "not charged in time", sentence, ways };
}

type Flash = NonNullable<LightHead["duration"]>;

/** How long a flash is over a tenth of its peak: what it takes to freeze. */
export function freezeTime({ measured, seconds }: Flash): number {
  return measured === "t0.1" ? seconds : flashTenth(seconds);
}

export function durationRow(plan: Plan, { head }: Light, ask: CanAsk): CanRow {
  const about = "duration";
  const duration = head?.duration ?? null;
  if (duration === null)
    return { about, word: "not known", sentence: "say how long its flash lasts", ways: [] };
  const { camera } = plan;
  const speed = subjectSpeed(plan);
  const seconds = freezeTime(duration);
  const flash = `at full its flash is over a tenth of its peak for ${formatShutter(seconds)}`;
  const path = `${flash}, in which ${speed} m/s makes ${millimetres(1000 * speed * seconds)}`;
  const focus_m = cameraToFace(plan);
  if (focus_m === null || focus_m * 1000 <= camera.focalLength)
    return { about, word: "nobody to judge by", sentence: path, ways: [] };
  const blur = motionBlur(speed, seconds, camera.focalLength, 1000 * focus_m);
  const judged = judge(plan, blur, ask);
  const sentence = `${path}: ${millimetres(blur)} on the sensor${judged.words}; turned down, many heads flash shorter and some longer`;
  return {
    about,
    word: judged.word,
    sentence,
    ways: judged.times > 1 ? shorter(speed, seconds, judged.times, ask) : [],
  };
}

interface Judged {
  readonly word: string;
  readonly words: string;
  /** the blur over what it is held against */
  readonly times: number;
}

/** Against the eye at the final size where that is known, else against a pixel. */
function judge({ camera }: Plan, blur_mm: number, { body, final, shelf }: CanAsk): Judged {
  const pixels = camera.pixels ?? (body ?? bodyFor({ camera }, shelf))?.pixels ?? null;
  const pixel_mm = pixels === null ? null : camera.sensor.width / pixels.width;
  const inPixels = pixel_mm === null ? "" : `, ${(blur_mm / pixel_mm).toFixed(1)} pixels`;
  if (final) {
    const times = (blur_mm * final.enlargement) / final.eye_mm;
    return {
      word: times > 1 ? "blur is seen" : "blur under what the eye tells apart",
      words: `${inPixels}, ${millimetres(blur_mm * final.enlargement)} at the final size, where the eye tells ${millimetres(final.eye_mm)} apart`,
      times,
    };
  }
  if (pixel_mm === null) return { word: "blur told", words: "", times: 0 };
  const times = blur_mm / pixel_mm;
  return { word: times > 1 ? "blur over a pixel" : "blur under a pixel", words: inPixels, times };
}

function shorter(speed: number, seconds: number, times: number, { shelf }: CanAsk): CanWay[] {
  const limit = seconds / times;
  const quick = (shelf?.heads ?? []).filter(
    ({ duration }: ShelfHead) => duration !== null && freezeTime(duration) <= limit,
  );
  return [
    ...quick.slice(0, 2).map(
      (head): CanWay => ({
        kind: "head",
        what: `${head.name} in its place`,
        effect: `its full flash is over in ${formatShutter(freezeTime(head.duration as Flash))}; power as its dial has it`,
        stops: null,
      }),
    ),
    ...(quick.length > 0
      ? []
      : [
          {
            kind: "head",
            what: `a flash that is over in ${formatShutter(limit)}`,
            effect: "a quicker head, or this one at a power where its own is shorter",
            stops: null,
          } as const,
        ]),
    {
      kind: "slower",
      what: `a sitter who moves at ${Number((speed / times).toPrecision(2))} m/s at most`,
      effect: "the light stays as it is",
      stops: null,
    },
  ];
}

export function syncRow(plan: Plan, { head }: Light, ask: CanAsk): CanRow {
  const about = "sync";
  const body = ask.body ?? bodyFor(plan, ask.shelf);
  const { shutter } = plan.camera;
  const flash = head?.duration ? freezeTime(head.duration) : 0;
  if (body === null || body.sync === null)
    return {
      about,
      word: "not known",
      sentence: `${formatShutter(shutter)}: say the body's shortest shutter with flash; 1/160 to 1/250 is usual (from memory)`,
      ways: [],
    };
  const { sync } = body;
  if (shutter * SAME < sync)
    return {
      about,
      word: "dark band",
      sentence: `${formatShutter(shutter)} is shorter than the ${formatShutter(sync)} of ${body.name}: part of the frame gets no flash, and more power does not help`,
      ways: [
        {
          kind: "shutter",
          what: `${formatShutter(sync)} or longer`,
          effect: `what the flash gives stays; room light comes up ${stopsText(Math.log2(sync / shutter))}`,
          stops: null,
        },
      ],
    };
  if (flash > shutter * SAME)
    return {
      about,
      word: "shutter cuts the flash",
      sentence: `${formatShutter(shutter)} is shorter than its full flash, ${formatShutter(flash)}: the tail of it is lost`,
      ways: [
        {
          kind: "shutter",
          what: `${formatShutter(flash)} or longer`,
          effect: `room light comes up ${stopsText(Math.log2(flash / shutter))}`,
          stops: null,
        },
      ],
    };
  return {
    about,
    word: "whole frame",
    sentence: `${formatShutter(shutter)} is not shorter than the ${formatShutter(sync)} of ${body.name}; slow triggers ask for longer`,
    ways: [],
  };
}

function millimetres(mm: number): string {
  return `${mm < 0.1 ? Number(mm.toPrecision(2)) : mm.toFixed(mm < 10 ? 1 : 0)} mm`;
}
