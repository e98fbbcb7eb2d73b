import { createMemo } from 'solid-js'
import { pressuresAt, pressureTips } from '../../derived/ground/string-pressures.ts'
import { lastOf } from '../../queries/often-read.ts'
import { settlementAt } from '../../queries/settlement-at.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { createAnswer } from '../create-answer.ts'
import { startAfterClock } from './start-after-clock.ts'

/** Pore pressures of every tip at the clock and at an earlier instant; null while they are asked for. */
export function createTipPressures(sinceEpochMs: () => number | null) {
  const tips = createMemo(() => {
    const [document, at] = [siteDocument(), clockEpochMs()]
    return document && at !== null ? pressureTips(document, at) : []
  })
  const asked = createAnswer(() => {
    const [at, since] = [clockEpochMs(), sinceEpochMs()]
    if (at === null || since === null || since > at || tips().length === 0) return null
    const query = settlementAt({
      atEpochMs: at,
      sinceEpochMs: since,
      ...lastOf(tips().map(({ series }) => series)),
    })
    return { ...query, atEpochMs: at, tips: tips() }
  })
  const pressures = createMemo(() => {
    const answer = asked.answer()
    return answer && pressuresAt(answer.columns, answer.question.tips, answer.question.atEpochMs)
  })
  return {
    pressures,
    tips,
    remarks: () => [...startAfterClock(sinceEpochMs()), ...asked.remarks()],
    waiting: asked.waiting,
  }
}
