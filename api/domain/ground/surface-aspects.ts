/** What of a surface the plan shows: its values, their slope, or the angular distortion of the ground. */
export const surfaceAspects = ['values', 'slope', 'distortion'] as const
export type SurfaceAspect = (typeof surfaceAspects)[number]
export type SlopeAspect = Exclude<SurfaceAspect, 'values'>
