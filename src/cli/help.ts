/** What --help prints. Examples run as they stand in a checkout. */

export const COMMANDS = [
  "open",
  "read",
  "frame",
  "sheet",
  "record",
  "contact",
  "use",
  "gear",
  "find",
  "photo",
  "calibrate",
  "shoots",
  "library",
  "check-plan",
] as const;
export type Command = (typeof COMMANDS)[number];

const OVERVIEW = `Tapemark works out portrait light before anyone lifts a stand.

  tapemark open [PLAN]            the workbench, in your browser
  tapemark read PLAN              meters, faces and headroom, in words; --json for programs
  tapemark frame PLAN --out F     the picture as the camera would expose it: F.png, or F.pfm in cd.s/m2
  tapemark sheet PLAN --out F     the placement sheet: F.pdf or F.svg
  tapemark record PLAN --out F    planned against set, metered and shot, to build it again from paper: F.pdf or F.svg
  tapemark contact PLAN --out F   small moves from the plan, seen side by side: F.pdf, F.png or F.svg
  tapemark use PLAN               whether the picture is good enough at its final size; --json for programs
  tapemark gear [PLAN]            whether the gear can do it, what to pack, weights and watts; --json for programs
  tapemark find BRIEF             set-ups for what a plan's brief asks; --json for programs
  tapemark photo PHOTO…           clipping, faces and the light on them, in a photograph; --json for programs
  tapemark calibrate PLAN         what readings made on set teach of lights and room; --json for programs
  tapemark shoots [WORDS…]        the shoots that are kept, searched; one as an archive, out and in
  tapemark library                where everything is kept; checked, copied, gone back to a copy
  tapemark check-plan PLAN        everything that is wrong with a plan, all at once

PLAN is a file, or - for standard input. --help after a command says more; --version.
Ends with 0 done, 1 the plan is wrong, 2 the call is wrong, 3 something failed.

  node bin/tapemark.js read examples/cellist.json
`;

const DETAIL: Record<Command, string> = {
  open: `tapemark open [PLAN] [--port N] [--no-browser] [--library PATH]

Serves the workbench to this machine alone, prints its address and opens your browser. Without PLAN it opens the
last work. Ends with Ctrl-C. --port N asks for that port; --no-browser opens none. Works, shoots and the gear book are
kept in one file, the library: --library PATH or TAPEMARK_LIBRARY names another, made where it is not there yet.

  node bin/tapemark.js open examples/cellist.json --no-browser
`,
  read: `tapemark read PLAN [--json]

Reads every meter and face of the plan. With --json one JSON object, and nothing else, on standard output.

  node bin/tapemark.js read examples/cellist.json
  node bin/tapemark.js read examples/manual-start.json --json
`,
  frame: `tapemark frame PLAN --out FILE.png|FILE.pfm [--width N]

The camera's picture, sRGB as PNG; or as a 32-bit float map of luminance x time in cd.s/m2, before the aperture.
--width N pixels (default 480, 8 to 8192).

  node bin/tapemark.js frame examples/cellist.json --out cellist.png --width 240
`,
  sheet: `tapemark sheet PLAN --out FILE.pdf|FILE.svg [--paper a4|letter] [--units metric|feet] [--date TEXT]

The placement sheet: drawings to scale, where each stand goes, what the meter should read, the background, how far the
sitter may drift, moves worth knowing, weights and mains. A sheet of several pages is one PDF, or FILE-2.svg and so on
beside FILE.svg.

  node bin/tapemark.js sheet examples/cellist.json --out cellist.pdf
`,
  record: `tapemark record PLAN [PHOTO…] --out FILE.pdf|FILE.svg [--planned EARLIER] [--date TEXT]
                [--paper a4|letter] [--units metric|feet] [--library PATH]
tapemark record --shoot SHOOT --out FILE.pdf|FILE.svg [--paper a4|letter] [--units metric|feet] [--library PATH]

The record sheet after the shoot: the frame as planned beside the one that was taken and what was read off it, meter readings
beside what the plan says, what was changed on set, and the set to scale with where everything stood. PLAN is the plan as it
was set, with the readings made in it; the first PHOTO is the pick; EARLIER the plan as it was before the shoot.

With --shoot all of that comes from the library: the pick is the best rated select, the plan the version that it was shot on.
SHOOT is its mark in brackets (tapemark shoots), or words that only it has.

  node bin/tapemark.js record examples/cellist-measured.json examples/test-frame.jpg --out record.pdf
  node bin/tapemark.js record examples/cellist-measured.json --planned examples/cellist.json --out record.pdf
`,
  contact: `tapemark contact PLAN --out FILE.pdf|FILE.png|FILE.svg [--person NAME] [--paper a4|letter]
                 [--units metric|feet] [--date TEXT]

The contact sheet of moves: the plan as it stands and eight small steps from it (lights, camera, head, panel), each a true
small frame, with what the step does to where the light comes from and, apart from it, to how strong it is, and whether the
nose goes along with the lens. Round the first person, or the one named. A PNG has the page at 200 pixels an inch.

  node bin/tapemark.js contact examples/cellist.json --out moves.pdf
  node bin/tapemark.js contact examples/cellist.json --out moves.png
`,
  use: `tapemark use PLAN [--for USE] [--focus PERSON] [--units metric|feet] [--json]

Whether the plan's picture is good enough at its final size: pixels an inch, what the eye tells apart from where people
stand, the largest size, what the printer asks, and how wide focus, motion and diffraction make a point of it, in final
millimetres. The plan says what it is for ("print") and what the file has ("pixels" of the camera; docs/plan-file.md).
--for tries a named use in its place: page, spread, tram-shelter poster, hall banner, billboard, web banner. --focus names
who is focused on (the first person). Nothing is traced. With --json one JSON object, and nothing else, on standard output.

  node bin/tapemark.js use examples/cellist.json
  node bin/tapemark.js use examples/cellist.json --for "hall banner" --units feet
`,
  gear: `tapemark gear [PLAN] [--wants F] [--reads F] [--units metric|feet] [--library PATH] [--json]
tapemark gear --shelf FILE.json --keep

Whether each light that is on can do what PLAN asks: its power against both ends of its dial, with ways out in numbers where
it cannot; charging against the time between frames; the flash against motion; the shutter against the body's. A packing list
with weights, and what weights, air and watts come to, load against load. --wants f/2 asks for the same light at another
aperture than the plan's; --reads f/8 says what the meter really reads there. Without PLAN it lists the gear shelf, with --json
as a file; --shelf FILE.json takes that one in place of the library's, --keep keeps it there.

  node bin/tapemark.js gear examples/cellist.json
  node bin/tapemark.js gear examples/cellist.json --wants f/2
  node bin/tapemark.js gear --json
`,
  find: `tapemark find BRIEF [--json] [--out PLAN.json] [--take N]

BRIEF is a plan with a brief: what is wanted, and what there is to make it with (docs/plan-file.md). Looks for up to
five set-ups that really differ, traces each in full, and says what is met by what margin, what is not and why. Where
nothing fits: the nearest misses, and the one thing whose relaxing helps most; that ends with 0 too, and "isMet" is
false. With --json one JSON object, and nothing else, on standard output (docs/finding.md). --out PLAN.json writes the
first set-up as a plan, --take 2 the second. The same brief gives the same answer. Ctrl-C stops it with 3.

  node bin/tapemark.js find examples/brief-poster.json
  node bin/tapemark.js find examples/brief-poster.json --out rembrandt.json --take 2
`,
  photo: `tapemark photo PHOTO… [--plan PLAN] [--library PATH] [--json]
tapemark photo --bracket CARD… [--library PATH] [--json]

Reads photographs: JPEG, PNG, TIFF, WebP, HEIC, and the JPEG inside a raw file. What clips, each face found, where the
light on it comes from and how surely, its ratio, pattern and catchlights. With --json one JSON object a line for each
photograph, in the order named, and nothing else on standard output (docs/test-frames.md); a picture without a face has
an empty list. One that cannot be read is told on standard error, the others are read all the same, and it ends with 3.
With --plan each face is put beside the plan's person ("compared"): what differs, the likely causes, and what mends it.

A camera's JPEG bends tones by a curve of its own, so ratios read from it are wide. --bracket takes frames of a grey card
that fills the middle, half a stop apart, from three stops under to three over, the middle one as metered; with flash, by
aperture. Curve and clipping are kept in the library's gear book, and that camera's photographs are read by them from then
on.

  node bin/tapemark.js photo examples/test-frame.jpg
  node bin/tapemark.js photo examples/test-frame.jpg --plan examples/cellist.json
  node bin/tapemark.js photo examples/test-frame.jpg --json
`,
  calibrate: `tapemark calibrate PLAN [PHOTO…] [--gear] [--library PATH] [--out PLAN.json] [--date TEXT] [--json]

PLAN has readings made on set with a hand meter (docs/plan-file.md). Fits what each light really gives, how it spreads where
readings tell, and what the room sends back; says how sure each is, before and after. A reading that cannot be right is
singled out, not averaged in. Says which reading would help most. PHOTOs are test frames of the plan as it stands, with all
lights that are on: they count too, less than a meter. --gear starts from what the library's gear book knows of these lights, and keeps
there what was found. --out PLAN.json writes the plan with it; --date TEXT is written beside it. With --json one JSON object,
and nothing else, on standard output (docs/test-frames.md).

  node bin/tapemark.js calibrate examples/cellist-measured.json
  node bin/tapemark.js calibrate examples/cellist-measured.json --out calibrated.json --date 2026-11-26
`,
  shoots: `tapemark shoots [WORDS…] [--pattern NAME] [--light NAME] [--room SIZE] [--from DAY] [--to DAY] [--stars N]
                [--put-away] [--json]
tapemark shoots export SHOOT --out FILE.zip [--no-sheets]
tapemark shoots import FILE.zip

Lists the shoots that are kept, newest first: those that have all the words (each may be a beginning) in title, place,
client, notes or plans, and all that is asked for besides. DAY is 2026-11-26; SIZE as it is listed, "7.00 × 9.00 m". With
--json one JSON object, and nothing else, on standard output.

export writes one shoot as an archive of open formats: plans with their history and versions, readings, photographs, what
was read off them, sheets (docs/library.md). SHOOT is its mark in brackets, or words that only it has. import takes an
archive in, all of it or nothing; one that is there already is told and makes no double. --library PATH names another library.

  node bin/tapemark.js shoots
  node bin/tapemark.js shoots Halden --pattern loop --from 2026-11-01 --json
`,
  library: `tapemark library [--json]
tapemark library check
tapemark library copy [--out FILE.tapemark]
tapemark library restore COPY
tapemark library export --out FILE.zip
tapemark library import FILE.zip

Without more: where the library lies, what is in it, when it was copied last. check reads all of it and lists photographs
that are not where they were. copy makes a copy beside the daily ones, or where --out says, and opens it before it counts.
restore goes back to a copy: the present library stays beside it under another name; no other Tapemark may have it open.
export writes everything as one archive of open formats, import takes one in (docs/library.md). --library PATH names another
library.

  node bin/tapemark.js library
  node bin/tapemark.js library check
`,
  "check-plan": `tapemark check-plan PLAN

Checks a plan and prints each problem on a line of its own, path: what is wrong. Silent where nothing is.

  node bin/tapemark.js check-plan examples/group.json
`,
};

export function helpFor(command: Command | null): string {
  return command === null ? OVERVIEW : DETAIL[command];
}
