/** Named loops of the measured mask, as indices of its vertices; `left` is the own left. */

/** Rim of the mask, from the chin round by the own left side. */
export const RIM = list(
  "152 377 400 378 379 365 397 288 361 323 454 356 389 251 284 332 297 338 10 109 67 103 54 21 162 127 234 93 132 58 172 136 150 149 176 148",
);
export const LEFT_EYE = list("362 382 381 380 374 373 390 249 263 466 388 387 386 385 384 398");
export const RIGHT_EYE = list("33 7 163 144 145 153 154 155 133 173 157 158 159 160 161 246");
/** The lips in rows from one corner of the mouth to the other, each from the outline in to where they meet. */
export const UPPER_LIP = [
  list("185 40 39 37 0 267 269 270 409"),
  list("184 74 73 72 11 302 303 304 408"),
  list("183 42 41 38 12 268 271 272 407"),
  list("191 80 81 82 13 312 311 310 415"),
];
export const LOWER_LIP = [
  list("146 91 181 84 17 314 405 321 375"),
  list("77 90 180 85 16 315 404 320 307"),
  list("96 89 179 86 15 316 403 319 325"),
  list("95 88 178 87 14 317 402 318 324"),
];
/** Where the line between the lips ends. */
export const LIP_CORNERS = list("78 308 62 292");
/** Lips, with the corners of the mouth. */
export const LIPS = new Set([
  ...UPPER_LIP.flat(),
  ...LOWER_LIP.flat(),
  ...LIP_CORNERS,
  ...list("61 76 291 306"),
]);

function list(indices: string): number[] {
  return indices.split(" ").map(Number);
}
