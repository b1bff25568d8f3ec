// Writes docs/pattern-charts.md and its picture: the pattern of one light from every side, by the rule of
// docs/patterns.md, with the limit between lit and shadow where it is and half a stop to either side. npm run charts
import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { withModules } from "./modules.mjs";

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));

const SHIFTS = [0, -0.5, 0.5];
const SHIFT_WORDS = ["the limit as it is", "half a stop lower", "half a stop higher"];
const nameOf = (pattern) => (pattern === "rembrandt" ? "Rembrandt" : pattern);
/** From open to closed, darker and darker; under apart, in a cool grey. */
const FILL = {
  flat: "#f6efe0",
  butterfly: "#ecd9b0",
  loop: "#dcb573",
  rembrandt: "#b98548",
  split: "#7d5733",
  rim: "#453122",
  under: "#a9bac4",
  dark: "#1c1916",
};
const LIGHT_TEXT = new Set(["split", "rim", "dark"]);

const charts = [];
let LETTER;
let azimuths;
let elevations;
await withModules(async (load) => {
  const grid = await load("/reference/pattern-grid.ts");
  LETTER = grid.LETTER;
  azimuths = grid.AZIMUTHS;
  elevations = grid.ELEVATIONS;
  for (const [source, width] of Object.entries(grid.SOURCES)) {
    const cells = elevations.map((el) => azimuths.map((az) => grid.cellsAt(source, az, el, SHIFTS)));
    SHIFTS.forEach((_, k) => {
      charts.push({ source, width, shift: k, rows: cells.map((row) => row.map((cell) => cell[k])) });
    });
  }
});

const title = ({ source, width, shift }) => `${source}, ${width} m across, ${SHIFT_WORDS[shift]}`;
writeFileSync("docs/pictures/pattern-charts.svg", picture());
writeFileSync(
  "docs/pattern-charts.md",
  `# Charts of patterns

One light 1.5 m from the bridge of the nose, aimed at it, in open space; the head straight. Across: degrees round, + to
the own left. Down: degrees up. Written by \`npm run charts\` from the light computed on the face, by the rule of
[patterns.md](patterns.md), whose sizes were settled on trial charts like these. Small letters are the other name where a quarter of a stop changes it.
The dashed frames are loop's published range: 20° to 50° round, 25° to 60° up (portraitlighting.net).

${Object.entries(LETTER)
  .filter(([k]) => charts.some((c) => c.rows.flat().some((cell) => cell.pattern === k)))
  .map(([k, v]) => `${v} ${nameOf(k)}`)
  .join(" · ")}

![Nine charts: hard, medium and large sources, with the limit as it is and half a stop lower and higher](pictures/pattern-charts.svg)

## What it looks like

The same lights as frames, every one of them: [hard](pictures/pattern-sheet-hard.jpg),
[medium](pictures/pattern-sheet-medium.jpg), [large](pictures/pattern-sheet-large.jpg), written by
\`npm run contact-sheet\`.

![Frames of the head under a medium light from every side](pictures/pattern-sheet-medium.jpg)

${charts.map((chart) => `## ${title(chart)}\n\n\`\`\`\n${asText(chart)}\n\`\`\``).join("\n\n")}
`,
);
console.log("docs/pattern-charts.md and docs/pictures/pattern-charts.svg");

function asText({ rows }) {
  const head = `     ${azimuths.map((az) => String(az).padStart(5)).join("")}`;
  const body = rows.map((row, i) => {
    const cells = row.map((c) => (LETTER[c.pattern] + letterOf(c.between)).padStart(5));
    return `${String(elevations[i]).padStart(4)} ${cells.join("")}`.trimEnd();
  });
  return [head, ...body].join("\n");
}

function letterOf(pattern) {
  return pattern === null ? " " : LETTER[pattern].toLowerCase();
}

function picture() {
  const cell = 19;
  const [left, top] = [34, 30];
  const [w, h] = [azimuths.length * cell, elevations.length * cell];
  const [stepX, stepY] = [w + 52, h + 62];
  const size = [left + 3 * stepX - 18, top + 3 * stepY];
  const parts = charts.map((chart, n) => {
    const [x, y] = [left + chart.shift * stepX, top + Math.floor(n / 3) * stepY];
    return `<g transform="translate(${x} ${y})"><text class="title" x="0" y="-10">${title(chart)}</text>${cellsOf(chart)}${bordersOf(chart)}${loopRange()}${axes()}</g>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${size[0]} ${size[1]}" role="img" aria-label="The pattern of one light from every side, for three sources and three limits" font-family="Inter, system-ui, sans-serif" font-size="9">
<style>.title{font-size:11px;font-weight:600;fill:#22201c}.axis{fill:#6b6558;font-size:8px}.letter{text-anchor:middle}.small{font-size:6.5px}</style>
<rect width="${size[0]}" height="${size[1]}" fill="#faf8f3"/>
${parts.join("\n")}
</svg>
`;

  function cellsOf({ rows }) {
    return rows
      .flatMap((row, j) =>
        row.map((c, i) => {
          const ink = LIGHT_TEXT.has(c.pattern) ? "#f6efe0" : "#22201c";
          const other =
            c.between === null ? "" : `<tspan class="small">${LETTER[c.between].toLowerCase()}</tspan>`;
          return `<rect x="${i * cell}" y="${j * cell}" width="${cell}" height="${cell}" fill="${FILL[c.pattern]}"/><text class="letter" x="${(i + 0.5) * cell}" y="${(j + 0.67) * cell}" fill="${ink}">${LETTER[c.pattern]}${other}</text>`;
        }),
      )
      .join("");
  }

  function bordersOf({ rows }) {
    let d = "";
    rows.forEach((row, j) => {
      row.forEach((c, i) => {
        if (i > 0 && row[i - 1].pattern !== c.pattern) d += `M${i * cell} ${j * cell}v${cell}`;
        if (j > 0 && rows[j - 1][i].pattern !== c.pattern) d += `M${i * cell} ${j * cell}h${cell}`;
      });
    });
    return `<path d="${d}" fill="none" stroke="#22201c" stroke-width="1"/><rect width="${w}" height="${h}" fill="none" stroke="#22201c" stroke-width="0.6"/>`;
  }

  function loopRange() {
    const x = (az) => ((az - azimuths[0]) / 10 + 0.5) * cell;
    const y = (el) => ((elevations[0] - el) / 10 + 0.5) * cell;
    return [20, -50]
      .map(
        (az) =>
          `<rect x="${x(az)}" y="${y(60)}" width="${3 * cell}" height="${3.5 * cell}" fill="none" stroke="#1f5f7a" stroke-width="1.4" stroke-dasharray="4 3"/>`,
      )
      .join("");
  }

  function axes() {
    const across = azimuths
      .filter((az) => az % 20 === 0)
      .map(
        (az) =>
          `<text class="axis letter" x="${((az - azimuths[0]) / 10 + 0.5) * cell}" y="${h + 11}">${az}°</text>`,
      );
    const up = elevations
      .filter((el) => el % 20 === 0)
      .map(
        (el) =>
          `<text class="axis" text-anchor="end" x="-4" y="${((elevations[0] - el) / 10 + 0.65) * cell}">${el}°</text>`,
      );
    return [...across, ...up].join("");
  }
}
