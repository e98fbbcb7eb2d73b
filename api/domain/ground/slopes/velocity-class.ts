/** Class of a landslide's velocity (Cruden and Varnes 1996). */
export interface VelocityClass {
  readonly name:
    | 'extremely slow'
    | 'very slow'
    | 'slow'
    | 'moderate'
    | 'rapid'
    | 'very rapid'
    | 'extremely rapid'
  /** Exclusive; null: no greatest. */
  readonly belowMmPerSecond: number | null
}

export const velocityClasses: readonly VelocityClass[] = [
  { name: 'extremely slow', belowMmPerSecond: 5e-7 },
  { name: 'very slow', belowMmPerSecond: 5e-5 },
  { name: 'slow', belowMmPerSecond: 5e-3 },
  { name: 'moderate', belowMmPerSecond: 0.5 },
  { name: 'rapid', belowMmPerSecond: 50 },
  { name: 'very rapid', belowMmPerSecond: 5000 },
  { name: 'extremely rapid', belowMmPerSecond: null },
]

/** Class of a velocity, mm per second, of either sign. It names how fast, not how much danger. */
export const velocityClass = (mmPerSecond: number): VelocityClass =>
  velocityClasses.find(
    ({ belowMmPerSecond }) => belowMmPerSecond === null || Math.abs(mmPerSecond) < belowMmPerSecond,
  ) as VelocityClass
