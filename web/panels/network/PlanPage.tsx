import { createMemo, createSignal } from 'solid-js'
import { mostLoggers, planNetwork } from '#domain/radio/network-plan.ts'
import { successFigure } from '../../derived/figures/network-plan-figures.ts'
import { siteDocument } from '../../state/site-document.ts'
import { TitledFigure } from '../ground/AnalysisResult.tsx'
import '../ground/ground.css'
import { BatteryPlan } from './BatteryPlan.tsx'
import { FactorTable } from './FactorTable.tsx'
import { PlanAssumptions } from './PlanAssumptions.tsx'
import { PlanFields } from './PlanFields.tsx'
import { PlanFindings } from './PlanFindings.tsx'
import { designOf, factorsOf, firstPlanDraft, type PlanDraft } from './plan-draft.ts'
import './condition.css'

/** What loggers on one gateway would do to each other and to the band, and how long their cells last. */
export function PlanPage() {
  const [draft, setDraft] = createSignal<PlanDraft>(firstPlanDraft)
  const change = (part: Partial<PlanDraft>) => setDraft((before) => ({ ...before, ...part }))
  const factors = createMemo(() => factorsOf(draft().factors, siteDocument()))
  const design = createMemo(() => designOf(draft(), factors()))
  const plan = createMemo(() => planNetwork(design()))
  const wanted = () => draft().wantedPercent / 100
  const most = createMemo(() => mostLoggers(design(), wanted()))
  const slowest = () => plan().factors.at(-1)
  const options = () => ({
    title: `Readings that arrive of loggers every ${draft().intervalMinutes} min on ${draft().channels} channels`,
    selected: null,
    timeZone: siteDocument()?.facts.timeZone ?? 'UTC',
  })
  return (
    <section class="network-page" aria-label="Plan">
      <h2>Loggers on one gateway</h2>
      <PlanFields draft={draft()} change={change} />
      <PlanFindings draft={draft()} design={design()} plan={plan()} mostLoggers={most()} />
      <FactorTable draft={draft()} design={design()} plan={plan()} />
      <div class="ground-figures">
        <TitledFigure shown={() => successFigure(design(), wanted(), most(), options())} />
      </div>
      <BatteryPlan plan={draft()} slowestFactor={slowest()?.spreadingFactor ?? 12} />
      <PlanAssumptions draft={draft()} slowest={slowest() ?? null} />
    </section>
  )
}
