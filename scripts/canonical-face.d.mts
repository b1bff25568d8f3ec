export function canonicalFace(): { vertices: number[]; triangles: number[] };
