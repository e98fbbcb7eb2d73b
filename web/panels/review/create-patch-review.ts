import { createSignal, onCleanup } from 'solid-js'
import type { NetworkDocument } from '#contract/network-document.ts'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { casesOfPatch, patchQuestion } from '#domain/review/case/patch-cases.ts'
import {
  type JudgedSeries,
  judgeSeries,
  type PatchEvidence,
  patchEvidence,
} from '#domain/review/patch-evidence.ts'
import { type PatchMovement, patchMovementInSteps } from '#domain/review/patch-movement.ts'
import type { Trace } from '#domain/review/review-case.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { knownHours, knownReadingsOf } from '../../queries/review-readings.ts'
import { analysis } from '../../state/analysis.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'

/** A patch of plan as it is asked about. */
export interface PatchAsked {
  readonly subjects: readonly Series[]
  readonly network: NetworkDocument | null
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
}

export interface PatchFound {
  readonly asked: PatchAsked
  readonly evidence: PatchEvidence
  /** Null: fewer than three series of one unit that can be told. */
  readonly movement: PatchMovement | null
  /** Months that lack, series of another unit: whole sentences. */
  readonly remarks: readonly string[]
}

/** How far it is: series reviewed, then series held against the others. */
export interface PatchProgress {
  readonly stage: 'asked' | 'reviewed' | 'held-against-others'
  readonly done: number
  readonly of: number
}

/** Between two looks whether somebody stopped it: short enough for a tap to be felt. */
const lookEveryMs = 24

/** Reviews all series of a patch one after another, with its progress; what runs may be stopped, and a later one takes its place. */
export function createPatchReview() {
  const [found, setFound] = createSignal<PatchFound | null>(null)
  const [progress, setProgress] = createSignal<PatchProgress | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  let asking: AbortController | null = null
  const abandon = () => {
    asking?.abort()
    asking = null
    setProgress(null)
  }
  const stop = (sentence: string | null) => {
    abandon()
    setTrouble(sentence)
  }
  const run = async (asked: PatchAsked) => {
    const [document, grid, on] = [siteDocument(), siteGrid(), analysis()]
    if (!document || !grid || !on || asked.subjects.length === 0) return
    abandon()
    const mine = new AbortController()
    const { signal } = mine
    asking = mine
    const sinceMs = performance.now()
    setTrouble(null)
    setFound(null)
    const of = asked.subjects.length
    setProgress({ stage: 'asked', done: 0, of })
    let lookedAtMs = performance.now()
    /** Gives the page its turn now and then, and ends here where it was stopped meanwhile. */
    const look = async (stage: PatchProgress['stage'], done: number) => {
      signal.throwIfAborted()
      if (performance.now() - lookedAtMs < lookEveryMs) return
      setProgress({ stage, done, of })
      await new Promise((resolve) => setTimeout(resolve))
      signal.throwIfAborted()
      lookedAtMs = performance.now()
    }
    try {
      const question = patchQuestion(
        document,
        asked.subjects,
        asked.network,
        {
          barriers: barriersAt(document.works, grid, asked.asOfEpochMs),
          waterUnitWeightKnPerM3: siteWater(document.facts).unitWeightKnPerM3,
        },
        asked,
      )
      const [hours, readings] = await Promise.all([
        on.keeper.ask(knownHours({ ...asked, series: question.hours }), signal),
        on.keeper.ask(
          knownReadingsOf({ ...asked, series: asked.subjects.map(({ series }) => series) }),
          signal,
        ),
      ])
      performance.measure('patch-answered', { start: sinceMs, detail: question.hours.length })
      const judged: JudgedSeries[] = []
      const traces: Trace[] = []
      for (const reviewed of casesOfPatch(document, question, {
        hours: hours.columns,
        readings: readings.columns,
      })) {
        judged.push(judgeSeries(reviewed))
        traces.push(reviewed.subject)
        await look('reviewed', judged.length)
      }
      const alike = ofOneUnit(traces)
      const steps = patchMovementInSteps(alike, asked.fromEpochMs, asked.asOfEpochMs)
      let step = steps.next()
      for (let done = 0; !step.done; step = steps.next()) await look('held-against-others', done++)
      setFound({
        asked,
        evidence: patchEvidence(judged),
        movement: step.value,
        remarks: [
          ...new Set([...hours.missing, ...readings.missing].map(({ message }) => message)),
          ...otherUnits(traces, alike),
        ],
      })
      performance.measure('patch-reviewed', { start: sinceMs, detail: of })
      setProgress(null)
    } catch (cause) {
      if (asking === mine && !signal.aborted) stop(`The patch could not be reviewed: ${sentenceOf(cause)}`)
    }
  }
  onCleanup(abandon)
  return {
    found,
    progress,
    trouble,
    run,
    stop: () => stop('Stopped before all series were reviewed: nothing is said of the patch.'),
    forget() {
      abandon()
      setTrouble(null)
      setFound(null)
    },
  }
}

/** What is measured in other units is not held against the rest: the unit of most counts. */
export function ofOneUnit(traces: readonly Trace[]): readonly Trace[] {
  const counts = new Map<string, number>()
  for (const { unit } of traces) counts.set(unit, (counts.get(unit) ?? 0) + 1)
  const [most] = [...counts].toSorted((one, other) => other[1] - one[1])
  return traces.filter(({ unit }) => unit === most?.[0])
}

/** Names what was left out of the common movement for its unit. */
function otherUnits(traces: readonly Trace[], alike: readonly Trace[]): readonly string[] {
  const left = traces.filter((one) => !alike.includes(one))
  return left.length === 0
    ? []
    : [
        `In another unit, and left out of the common movement: ${left.map(({ point, unit }) => `${point} (${unit})`).join(', ')}.`,
      ]
}

/** Where a patch lies around nothing, or nothing of the quantity stands in it: said before anything is asked. */
export function emptyPatchSentence(
  site: Pick<SiteDocument, 'series'> | null,
  within: readonly Series[],
  hasPlace: boolean,
): string | null {
  if (!site) return 'The site is being fetched.'
  if (!hasPlace) return 'Select a point to review its surroundings, or draw an area on the plan.'
  return within.length === 0
    ? 'No series in use lies in this patch: nothing can be concluded of it. Take a larger one.'
    : null
}
