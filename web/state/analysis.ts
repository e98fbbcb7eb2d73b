import { createSignal } from 'solid-js'
import type { Engine, EngineProgress } from '../engine/engine.ts'
import type { SliceKeeper } from '../slices/slice-keeper.ts'

/** What answers questions in space and time: the engine and the slices of the open site. */
export interface Analysis {
  readonly site: string
  readonly engine: Engine
  readonly keeper: SliceKeeper
}

const [analysis, setAnalysis] = createSignal<Analysis | null>(null)
const [analysisProgress, setAnalysisProgress] = createSignal<EngineProgress | null>(null)

/** Null until the list of slices has come; the map does not wait for it. */
export { analysis, analysisProgress }

export function offerAnalysis(offered: Analysis | null): void {
  setAnalysis(offered)
}

export function reportAnalysisProgress(progress: EngineProgress): void {
  setAnalysisProgress(progress)
}
