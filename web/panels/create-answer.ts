import { type Accessor, createMemo, createSignal } from 'solid-js'
import type { Columns } from '../engine/columns.ts'
import type { Query } from '../engine/query.ts'
import { analysis, analysisProgress, slicesRevision } from '../state/analysis.ts'
import { sentenceOf } from '../state/ask-server.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'

export interface Answered<Q> {
  readonly question: Q
  readonly columns: Columns
}

export interface Asked<Q> {
  /** The newest answer, with the question it is an answer to. */
  readonly answer: Accessor<Answered<Q> | null>
  /** True while the newest question has no answer yet. */
  readonly waiting: Accessor<boolean>
  /** What is awaited or missing, whole sentences. */
  readonly remarks: Accessor<readonly string[]>
}

/** Keeps the answer to a question that changes with the state; asked again of new slices. Null: nothing is asked. */
export function createAnswer<Q extends Query>(question: () => Q | null): Asked<Q> {
  const [answer, setAnswer] = createSignal<Answered<Q> | null>(null)
  const [waiting, setWaiting] = createSignal(false)
  const [remarks, setRemarks] = createSignal<readonly string[]>([])
  const asked = createMemo(question, null, { equals: (left, right) => keyOf(left) === keyOf(right) })
  const ask = newestNext(
    async ({
      question: wanted,
      keeper,
    }: {
      question: Q
      keeper: NonNullable<ReturnType<typeof analysis>>['keeper']
    }) => keeper.ask(wanted),
    ({ columns, missing, isCoarser }, { question: wanted }) => {
      setAnswer(() => ({ question: wanted, columns }))
      setRemarks([...missing.map((one) => one.message), ...(isCoarser ? [coarserSentence] : [])])
      if (keyOf(asked()) === keyOf(wanted)) setWaiting(false)
    },
    (cause) => {
      setAnswer(null)
      setWaiting(false)
      setRemarks([`The readings could not be worked out: ${sentenceOf(cause)}`])
    },
  )
  sync(
    () => ({ question: asked(), on: analysis(), revision: slicesRevision() }),
    ({ question: wanted, on }) => {
      setWaiting(wanted !== null)
      if (wanted === null) setAnswer(null)
      else if (on) ask({ question: wanted, keeper: on.keeper })
    },
  )
  return {
    answer,
    waiting,
    remarks: () => {
      const progress = analysisProgress()
      const engine = waiting() && progress && progress.stage !== 'ready' ? [progress.sentence] : []
      return [...engine, ...remarks()]
    },
  }
}

const coarserSentence =
  'The readings themselves could not be fetched: values read oftener than hourly may be up to an hour older than the newest.'

const keyOf = (query: Query | null) => (query ? JSON.stringify([query.sql, query.params]) : '')
