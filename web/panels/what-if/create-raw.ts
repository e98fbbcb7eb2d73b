import { createMemo, createSignal } from 'solid-js'
import type { RawAnswer } from '#contract/raw-readings.ts'
import type { Standing } from '#domain/what-if/apply-sandbox.ts'
import { unpackReadings } from '#domain/what-if/unpack-readings.ts'
import { slicesRevision } from '../../state/analysis.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import { sync } from '../../ui/sync.ts'

/** Series whose raw readings are wanted, from inclusive, until exclusive. */
export interface RawWanted {
  readonly series: readonly string[]
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

export interface RawKnown extends Standing {
  readonly wanted: RawWanted
}

/** Keeps raw readings and recipe of some series; what came last stands until the next is there. */
export function createRaw(wanted: () => RawWanted | null) {
  const [known, setKnown] = createSignal<RawKnown | null>(null)
  const [waiting, setWaiting] = createSignal(false)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const ask = latestOnly((path: string, signal: AbortSignal) => askServer<RawAnswer>(path, signal))
  const asked = createMemo(wanted, null, {
    equals: (one, other) => JSON.stringify(one) === JSON.stringify(other),
  })
  sync(
    () => ({ question: asked(), site: siteDocument()?.facts.id, revision: slicesRevision() }),
    ({ question, site }) => {
      if (!question || site === undefined) {
        setKnown(null)
        setWaiting(false)
        return
      }
      setWaiting(true)
      ask(sitePath(site, `/raw?${queryOf(question)}`)).then(
        (answer) => {
          if (!answer) return
          setTrouble(null)
          setWaiting(false)
          setKnown({
            wanted: question,
            recipe: answer.recipe,
            readings: unpackReadings(answer.channels, answer.fromEpochMs, answer.recipe),
          })
        },
        (cause) => {
          setWaiting(false)
          setKnown(null)
          setTrouble(`Raw readings could not be had: ${sentenceOf(cause)}`)
        },
      )
    },
  )
  return { known, waiting, trouble }
}

function queryOf({ series, fromEpochMs, untilEpochMs }: RawWanted): string {
  const query = new URLSearchParams(series.map((id) => ['series', id]))
  query.set('from', new Date(fromEpochMs).toISOString())
  query.set('until', new Date(untilEpochMs).toISOString())
  return query.toString()
}
