/** Scores of readings as text, and every frame as a line of a table. */
import { isPatternRight, type Outcome, type Score, scoreOf } from "./photo-truth-score.ts";

/** Angle of the light from the lens, degrees: up to and from. */
export const BANDS = [
  { name: "0 to 50", from: 0, to: 50 },
  { name: "51 to 77", from: 50, to: 77 },
  { name: "beyond 77", from: 77, to: 181 },
] as const;

export function inBand(all: readonly Outcome[], from: number, to: number): Outcome[] {
  return all.filter(({ truth }) => truth.offLens >= from && truth.offLens < to);
}

const COLUMNS: readonly (readonly [string, (s: Score) => string])[] = [
  ["frames", (s) => `${s.frames}`],
  ["read", (s) => `${s.lights}`],
  ["median", (s) => s.median.toFixed(1)],
  ["90th", (s) => s.ninetieth.toFixed(1)],
  ["aside", (s) => signed(s.meanAside)],
  ["up", (s) => signed(s.meanUp)],
  ["<2/3u", (s) => percent(s.withinTwoThirds)],
  ["<2u", (s) => percent(s.withinTwice)],
  ["az sign", (s) => percent(s.sideSigns)],
  ["el sign", (s) => percent(s.heightSigns)],
  ["side", (s) => percent(s.sideRight)],
  ["opp.", (s) => percent(s.sideOpposite)],
  ["r med", (s) => s.ratioMedian.toFixed(2)],
  ["r 90", (s) => s.ratioNinetieth.toFixed(2)],
  ["r bias", (s) => signed(s.ratioBias, 2)],
  ["r<.3", (s) => percent(s.ratioWithin)],
  ["r<u", (s) => percent(s.ratioHonest)],
  ["name", (s) => percent(s.patternStrict)],
  ["w/betw", (s) => percent(s.patternRight)],
  ["near", (s) => percent(s.patternNear)],
  ["good", (s) => percent(s.good)],
];

/** One line a group: the whole, by angle, by kind of frame, by camera curve, by number of lights. */
export function reportOf(title: string, all: readonly Outcome[]): string {
  const groups: [string, readonly Outcome[]][] = [
    ["all", all],
    ["within 75", inBand(all, 0, 75)],
    ...BANDS.map(({ name, from, to }): [string, Outcome[]] => [name, inBand(all, from, to)]),
  ];
  const within = inBand(all, 0, 75);
  const kinds = [...new Set(all.map((o) => o.frame.kind))];
  if (kinds.length > 1)
    for (const kind of kinds) groups.push([`<75 ${kind}`, within.filter((o) => o.frame.kind === kind)]);
  for (const curve of [...new Set(all.map((o) => o.frame.camera.curve.kind))])
    groups.push([`<75 ${curve} curve`, within.filter((o) => o.frame.camera.curve.kind === curve)]);
  groups.push(["<75 one light", within.filter((o) => o.truth.secondShare === 0)]);
  groups.push(["<75 two lights", within.filter((o) => o.truth.secondShare > 0)]);
  groups.push(["<75 clipped > 2 %", within.filter((o) => o.truth.clippedSkin > 0.02)]);
  groups.push(["told good", all.filter((o) => o.told?.confidence === "good")]);
  groups.push(["told low", all.filter((o) => o.told?.confidence === "low")]);
  const lines = groups
    .filter(([, list]) => list.length > 0)
    .map(([name, list]) => {
      const score = scoreOf(list);
      return [name, ...COLUMNS.map(([, text]) => text(score))];
    });
  const table = [["", ...COLUMNS.map(([name]) => name)], ...lines];
  return `${title}\n${aligned(table)}\n\n${confusions(all)}\n\n${byPerson(within)}\n`;
}

/** Rows: true pattern; columns: told. */
export function confusions(all: readonly Outcome[]): string {
  const names = ["flat", "butterfly", "loop", "rembrandt", "split", "rim", "under", "dark"] as const;
  const told = [...names, null];
  const rows = names
    .map((truth) => {
      const of = all.filter((o) => o.truth.pattern === truth);
      const cells = told.map((name) => of.filter((o) => (o.told?.pattern ?? null) === name).length);
      return { truth, cells, right: of.filter(isPatternRight).length, count: of.length };
    })
    .filter(({ count }) => count > 0);
  return aligned([
    ["true \\ told", ...told.map((name) => name ?? "none"), "right"],
    ...rows.map((r) => [r.truth, ...r.cells.map((n) => (n === 0 ? "." : `${n}`)), `${r.right}/${r.count}`]),
  ]);
}

/** Mean of the signed errors of each person: what stays the same from frame to frame. */
function byPerson(all: readonly Outcome[]): string {
  const people = [...new Set(all.map((o) => o.person))].sort((a, b) => a - b);
  const means = people.map((person) => {
    const of = all.filter((o) => o.person === person && o.error !== null);
    return { person, count: of.length, score: scoreOf(of) };
  });
  const words = means
    .filter(({ count }) => count > 1)
    .map(
      ({ person, score }) =>
        `${person}: ${signed(score.meanAside)} ${signed(score.meanUp)} (${score.median.toFixed(1)})`,
    );
  return words.length === 0 ? "" : `by person within 75: aside, up (median)\n${words.join("; ")}`;
}

export function tableOf(all: readonly Outcome[]): string {
  const head =
    "shape,kind,index,person,curve,offLens,az,el,vectorScalar,second,clippedSkin,toldAz,toldEl,error,aside,up,uncertainty,confidence,side,toldSide,ratio,toldRatio,ratioUncertainty,pattern,between,toldPattern,toldBetween,turn,tip,tilt,toldTurn,toldTip,toldTilt";
  const lines = all.map((o) => {
    const { truth: t, told } = o;
    return [
      o.frame.shape,
      o.frame.kind,
      o.index,
      o.person,
      o.frame.camera.curve.kind,
      t.offLens,
      t.fromCamera.azimuth,
      t.fromCamera.elevation,
      t.vectorScalarRatio,
      t.secondShare,
      t.clippedSkin,
      told?.lightFromCamera?.azimuth,
      told?.lightFromCamera?.elevation,
      o.error,
      o.aside,
      o.up,
      told?.uncertaintyDegrees,
      told?.confidence,
      t.litSide,
      told?.litSide,
      t.ratioStops,
      told?.ratioStops,
      told?.ratioUncertaintyStops,
      t.pattern,
      t.between,
      told?.pattern,
      told?.between,
      t.head.turn,
      t.head.tip,
      t.head.tilt,
      told?.head.turn,
      told?.head.tip,
      told?.head.tilt,
    ]
      .map((x) => (typeof x === "number" ? Number(x.toFixed(3)) : (x ?? "")))
      .join(",");
  });
  return `${[head, ...lines].join("\n")}\n`;
}

function aligned(rows: readonly (readonly string[])[]): string {
  const widths = rows[0].map((_, c) => Math.max(...rows.map((row) => row[c].length)));
  return rows
    .map((row) =>
      row.map((cell, c) => (c === 0 ? cell.padEnd(widths[c]) : cell.padStart(widths[c]))).join("  "),
    )
    .join("\n");
}

function percent(x: number): string {
  return Number.isNaN(x) ? "" : `${(100 * x).toFixed(0)}%`;
}

function signed(x: number, places = 1): string {
  return `${x < 0 ? "−" : "+"}${Math.abs(x).toFixed(places)}`;
}
