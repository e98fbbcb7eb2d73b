import { createSignal } from 'solid-js'
import { drawingSection, takeSectionTool } from './section-line.ts'

/** What a line or place that is tapped on the plan is for. */
export type PlanTool = 'section' | 'obstruction' | 'gateway' | 'patch'

const [otherTool, setOtherTool] = createSignal<Exclude<PlanTool, 'section'> | null>(null)

/** The tool in hand; null: taps select. */
export const planTool = (): PlanTool | null => (drawingSection() ? 'section' : otherTool())

/** Takes a tool in hand, or lays it down; taking one lays the other down. */
export function takePlanTool(tool: Exclude<PlanTool, 'section'> | null): void {
  setOtherTool(tool)
  takeSectionTool(false)
}
