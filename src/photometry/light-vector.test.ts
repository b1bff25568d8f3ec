import { describe, expect, it } from "vitest";
import { dot, type Vec3, writeSpherePoint } from "../math/index.ts";
import { QuantityError } from "../units/index.ts";
import {
  coneScalar,
  coneVector,
  coneVectorScalar,
  cylindricalIlluminance,
  fieldOfPoints,
  fresnelReflectance,
  hemisphericalIlluminance,
  paneTransmittance,
  schlickReflectance,
  semicylindricalIlluminance,
} from "./index.ts";

const rad = Math.PI / 180;

describe("[PH9] light vector and scalar", () => {
  it("a cone: vector, scalar and their ratio are the sums over directions (0.1 %)", () => {
    const n = 200_000;
    const w = new Float64Array(3);
    for (const half of [20, 45, 90, 140]) {
      const sum = [0, 0, 0, 0];
      for (let i = 0; i < n; i++) {
        writeSpherePoint(w, 0, i, n);
        if (w[2] < Math.cos(half * rad)) continue;
        for (let k = 0; k < 3; k++) sum[k] += (w[k] * 4 * Math.PI * 1000) / n;
        sum[3] += (4 * Math.PI * 1000) / n / 4;
      }
      const length = Math.hypot(sum[0], sum[1], sum[2]);
      expect(coneVector(1000, half * rad) / length).toBeCloseTo(1, 3);
      expect(coneScalar(1000, half * rad) / sum[3]).toBeCloseTo(1, 3);
      expect(coneVectorScalar(half * rad)).toBeCloseTo(
        coneVector(1000, half * rad) / coneScalar(1000, half * rad),
        12,
      );
    }
  });
  it("points add as vectors, and nothing is nothing", () => {
    const field = fieldOfPoints([
      { illuminance: 300, direction: [2, 0, 0] },
      { illuminance: 400, direction: [0, 0, 0.1] },
    ]);
    expect(field.vector).toEqual([300, 0, 400]);
    expect(field.length).toBe(500);
    expect(field.scalar).toBe(175);
    expect(fieldOfPoints([])).toEqual({ vector: [0, 0, 0], length: 0, scalar: 0, vectorScalarRatio: null });
    expect(fieldOfPoints([{ illuminance: 8, direction: [0, 0, 0] }]).vectorScalarRatio).toBe(0);
  });
  it("means over a cylinder and a half-sphere are the sums over their surfaces (0.1 %)", () => {
    const elevation = 35 * rad;
    const light: Vec3 = [Math.cos(elevation), 0, Math.sin(elevation)];
    const n = 3600;
    let cylinder = 0;
    let half = 0;
    for (let i = 0; i < n; i++) {
      const a = (2 * Math.PI * (i + 0.5)) / n;
      const lit = Math.max(0, dot([Math.cos(a), Math.sin(a), 0], light));
      cylinder += lit / n;
      if (Math.cos(a - 50 * rad) > 0) half += lit / (n / 2);
    }
    expect(cylindricalIlluminance(1, elevation) / cylinder).toBeCloseTo(1, 3);
    expect(semicylindricalIlluminance(1, elevation, 50 * rad) / half).toBeCloseTo(1, 3);
    const w = new Float64Array(3);
    const many = 200_000;
    let dome = 0;
    for (let i = 0; i < many; i++) {
      writeSpherePoint(w, 0, i, many);
      if (w[2] > 0) dome += (Math.max(0, dot(w, light)) * 2) / many;
    }
    expect(hemisphericalIlluminance(1, Math.PI / 2 - elevation) / dome).toBeCloseTo(1, 3);
  });
});

describe("[PH10] smooth surfaces", () => {
  it("reflect everything at a grazing angle, and p-light not at all at the polarising one", () => {
    expect(fresnelReflectance(Math.PI / 2, 1.5)).toBeCloseTo(1, 12);
    // at atan n only the other half is left: ((n^2 - 1) / (n^2 + 1))^2 / 2
    expect(fresnelReflectance(Math.atan(1.5), 1.5)).toBeCloseTo((1.25 / 3.25) ** 2 / 2, 12);
  });
  it("a pane passes more than its two faces once, for light goes to and fro", () => {
    for (const angle of [0, 0.5, 1.2]) {
      const once = (1 - fresnelReflectance(angle, 1.52)) ** 2;
      expect(paneTransmittance(angle, 1.52)).toBeGreaterThan(once);
      expect(paneTransmittance(angle, 1.52)).toBeLessThan(1);
    }
    expect(schlickReflectance(0, 1.4)).toBe(fresnelReflectance(0, 1.4));
  });
  it.each([1, 0, Number.NaN])("an index of %f is refused", (index) =>
    expect(() => fresnelReflectance(0, index)).toThrow(QuantityError),
  );
  it("an angle from behind is refused", () =>
    expect(() => fresnelReflectance(2, 1.5)).toThrow(QuantityError));
});
