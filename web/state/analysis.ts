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

const [slicesRevision, setSlicesRevision] = createSignal(0)

/** Null until the list of slices has come; the map does not wait for it. */
/** Changes when the slices do: whatever was asked of them before is asked again. */
export { analysis, analysisProgress, slicesRevision }

export function reportSlices(revision: number): void {
  setSlicesRevision(revision)
}

export function offerAnalysis(offered: Analysis | null): void {
  setAnalysis(offered)
}

export function reportAnalysisProgress(progress: EngineProgress): void {
  setAnalysisProgress(progress)
}
