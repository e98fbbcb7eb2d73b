import type { Evidence, ReviewRule } from '#domain/review/evidence.ts'
import type { Neighbour, ReviewCase, Trace } from '#domain/review/review-case.ts'
import { reviewRules } from '#domain/review/review-rules.ts'
import { type Course, hourMs, makeWorld } from './made-world.ts'

export const dayMs = 24 * hourMs

export const still = () => 0

export const stepped = (size: number) => (h: number) => (h < 30 * 24 ? 0 : size)

export const drifting = (size: number) => (h: number) => Math.max(0, (h - 30 * 24) / (30 * 24)) * size

export const beside = (trace: Trace, distanceMetres: number, more: Partial<Neighbour> = {}): Neighbour => ({
  ...trace,
  distanceMetres,
  aboveMetres: 0,
  sameStratum: true,
  ...more,
})

/** A world with its readings, the same for every file that asks: its noise goes on with each trace that is made. */
export function madeTraces() {
  const world = makeWorld(11, 60)
  return {
    world,
    mark: (course: Course, point = 'X-1') =>
      world.trace({ measure: 'settlement', course, point, everyHours: 24 }),
    crack: (course: Course) => world.trace({ measure: 'opening', course, point: 'CR' }),
    tiltOf: (course: Course, point = 'X-1') => world.trace({ measure: 'tilt', course, point }),
  }
}

export const found = (id: string, reviewed: ReviewCase): readonly Evidence[] =>
  (reviewRules.find((rule) => rule.id === id) as ReviewRule).weigh(reviewed)

export const of = (evidence: readonly Evidence[], cause: string) =>
  evidence.filter((one) => one.cause === cause).reduce((sum, { decibans }) => sum + decibans, 0)
