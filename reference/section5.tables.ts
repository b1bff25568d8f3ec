/** Published configuration factors (Howell, section B): the closed forms and the engine are held to the same rows. */
export const HOWELL = "Howell, A Catalog of Radiation Configuration Factors, section B";

/** r, h, a, parallel, perpendicular */
export const offAxis: [number, number, number, number, number][] = [
  [0.5, 1, 0.5, 0.146447, 0.0606602],
  [0.5, 1, 1, 0.0658784, 0.0581563],
  [0.5, 1, 2, 0.0107251, 0.0203888],
  [0.6, 1.5, 1, 0.0755888, 0.0452202],
];
/** h / r, degrees, F */
export const tilted: [number, number, number][] = [
  [1, 0, 0.5],
  [1, 30, 0.433013],
  [1, 60, 0.257352],
  [1, 75, 0.166332],
  [1, 90, 0.0908451],
  [1, 100, 0.0522564],
  [1, 120, 0.00735206],
  [2, 60, 0.1],
  [2, 75, 0.0546081],
  [2, 90, 0.0202597],
  [2, 100, 0.00672322],
];
/** a, b, c, parallel, perpendicular (Howell B-3 and its companion) */
export const corners: [number, number, number, number, number][] = [
  [1, 1, 1, 0.138532, 0.0557342],
  [0.5, 0.5, 1, 0.0598641, 0.0139277],
  [0.6, 0.9, 1.2, 0.0783918, 0.0183042],
  [2, 1, 0.5, 0.220778, 0.158775],
];
/** width, height, distance, F */
export const centred: [number, number, number, number][] = [
  [1, 1, 1, 0.239456],
  [1, 1, 2, 0.0734776],
  [0.6, 0.9, 1.2, 0.105274],
  [0.6, 0.9, 1.5, 0.0703442],
  [1.2, 0.8, 1, 0.228398],
];
/** m, E / (pi L0) of a disc r 0.5, h 1 */
export const lobes: [number, number][] = [
  [1, 0.2],
  [2, 0.189639],
  [4, 0.171027],
  [8, 0.140809],
  [16, 0.0999929],
];
