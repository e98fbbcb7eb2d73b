import { createSignal } from 'solid-js'

/** What can be worked out of the readings for the ground, in the order in which it is offered. */
export const groundAnalyses = [
  'trough',
  'drive',
  'building',
  'pair',
  'facade',
  'wall',
  'final',
  'layers',
  'water',
  'drawdown',
  'uplift',
  'movement',
  'series',
  'surface',
] as const
export type GroundAnalysis = (typeof groundAnalyses)[number]

export const firstAnalysis: GroundAnalysis = 'trough'

const [groundAnalysis, setGroundAnalysis] = createSignal<GroundAnalysis>(firstAnalysis)

export { groundAnalysis }

export function chooseAnalysis(analysis: GroundAnalysis): void {
  setGroundAnalysis(analysis)
}
