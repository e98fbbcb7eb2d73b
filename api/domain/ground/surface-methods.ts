/** How a surface is drawn between points, the one to begin with first. */
export const surfaceMethods = [
  'kriging',
  'kriging-plane',
  'linear',
  'natural-neighbours',
  'inverse-distance',
] as const
export type SurfaceMethod = (typeof surfaceMethods)[number]
