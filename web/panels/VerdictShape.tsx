import type { VerdictKind } from '#domain/site/vocabulary.ts'
import { verdictShape } from '../views/time-history/verdict-marks.ts'

/** The shape that a verdict is drawn as in histories; its word stands beside it. */
export function VerdictShape(props: { verdict: VerdictKind }) {
  return (
    <svg class={`verdict-shape ${props.verdict}`} viewBox="0 0 44 10" aria-hidden="true">
      <path d={verdictShape(props.verdict, 44, 10)} />
    </svg>
  )
}
